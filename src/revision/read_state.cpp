#include <algorithm>

#include <nlohmann/json.hpp>

#include "diag/fault.hpp"
#include "revision/articles.hpp"
#include "revision/sizes.hpp"
#include "revision/state.hpp"
#include "rules/book.hpp"

namespace fallwright::revision {
namespace {

using Json = nlohmann::json;

constexpr int most_pieces = 10'000;  ///< a file may say anything, and each piece is matched by itself

std::optional<double> maybe(const Json& json) {
  return json.is_null() ? std::nullopt : std::optional{json.get<double>()};
}

/// The one of `all` that is called so.
template <class Named, std::size_t count>
Named named(const Named (&all)[count], const std::string& name) {
  const auto it = std::find_if(std::begin(all), std::end(all), [&](Named one) { return name == rules::name_of(one); });
  if (it == std::end(all)) throw std::invalid_argument{"'" + name + "' is not known"};
  return *it;
}

/// A deflection as a share of its span is written as the ratio it is; its rule knows how it is told.
rules::Unit unit_of(const std::string& id, rules::Unit written) {
  const auto& all = rules::all_rules();
  const auto rule = std::find_if(all.begin(), all.end(), [&](const rules::Rule& r) { return r.id == id; });
  const bool of_span = rule != all.end() && rule->unit == rules::Unit::span;
  return of_span && written == rules::Unit::ratio ? rules::Unit::span : written;
}

using rules::Outcome;
constexpr Outcome all_outcomes[] = {Outcome::pass, Outcome::fail, Outcome::caution, Outcome::not_checked,
                                    Outcome::not_applicable};

rules::Result result_of(const Json& json) {
  using rules::Unit, rules::Verified;
  constexpr Unit all_units[] = {Unit::ratio, Unit::span, Unit::mm, Unit::mm2, Unit::mm3, Unit::count, Unit::share};
  rules::Result result;
  result.id = json.at("id");
  result.title = json.at("title");
  result.outcome = named(all_outcomes, json.at("result"));
  result.measured = maybe(json.at("measured"));
  result.limit.least = maybe(json.at("limit").at("least"));
  result.limit.greatest = maybe(json.at("limit").at("greatest"));
  result.limit.unit = unit_of(result.id, named(all_units, json.at("unit")));
  result.limit.source = json.at("source");
  result.margin = maybe(json.at("margin"));
  result.where = json.at("where");
  result.advice = json.at("advice");
  return result;
}

rules::BuiltRow built_of(const Json& json) {
  return {json.at("what"), json.at("designed"), json.at("limit"), json.at("built"),
          named(all_outcomes, json.at("result"))};
}

takeoff::HangsOn hangs_on(const std::string& name) {
  if (const auto on = takeoff::hangs_on_named(name)) return *on;
  throw std::invalid_argument{"'" + name + "' is not known"};
}

/// Older reports have none.
std::optional<takeoff::Hold> hold_of(const Json& json) {
  const auto hold = json.find("hold");
  if (hold == json.end() || hold->is_null()) return std::nullopt;
  return takeoff::Hold{hangs_on(hold->at("on")), hold->at("check"), hold->at("title"), hold->value("first", "")};
}

takeoff::CutRow cut_of(const Json& json) {
  takeoff::CutRow cut;
  cut.mark = json.at("mark");
  cut.part_ids = json.at("part_ids").get<std::vector<std::string>>();
  cut.stock = json.at("stock");
  cut.length_mm = json.at("length_mm");
  cut.short_mm = json.at("short_mm");
  cut.width_mm = json.at("width_mm");
  cut.thickness_mm = json.at("thickness_mm");
  cut.count = json.at("count");
  if (cut.count < 0 || cut.count > most_pieces) throw std::invalid_argument{"no room has so many pieces of one mark"};
  cut.furring = takeoff::furring_named(cut.stock);
  cut.on_block = cut.furring && !cut.part_ids.empty() && cut.part_ids.front().find("/blocking-") != std::string::npos;
  cut.ends = json.at("ends");
  cut.taper = takeoff::taper_named(cut.ends);
  cut.sheet = json.at("sheet");
  cut.fitted_mm = json.at("fitted_mm");
  cut.hold = hold_of(json);
  if (const auto board = json.find("rip_from_mm"); board != json.end() && board->is_array())
    cut.board = takeoff::Board{json.at("rip_from"), board->at(0), board->at(1)};
  return cut;
}

takeoff::Row row_of(const Json& json) {
  takeoff::Row row;
  row.item = json.at("item");
  row.buy = json.at("buy");
  row.buy_unit = json.at("buy_unit");
  row.for_sale = json.at("for_sale");
  row.hold = hold_of(json);
  if (row.hold) row.for_sale = json.at("hold").at("for_sale_then");
  if (const auto product = json.find("product"); product != json.end() && product->is_string()) row.product = *product;
  row.pack = json.at("pack");
  row.unit = json.at("unit");
  row.quantity = json.at("quantity");
  row.waste = json.at("waste");
  if (const auto sold_as = json.find("sold_as"); sold_as != json.end() && sold_as->is_string()) row.sold_as = *sold_as;
  row.blanks = takeoff::blanks_named(row);
  return row;
}

/// All stocks of a job are sawn alike. Older reports do not say which lengths are on offer.
job::Cuts sawing_of(const Json& stock) {
  job::Cuts cuts;
  cuts.kerf = units::Length::mm(stock.at("kerf_mm"));
  cuts.trim = units::Length::mm(stock.at("trim_mm"));
  for (const double mm : stock.value("sticks_mm", std::vector<double>{})) cuts.sticks.push_back(units::Length::mm(mm));
  for (const double mm : stock.value("preferred_mm", std::vector<double>{}))
    cuts.preferred.push_back(units::Length::mm(mm));
  return cuts;
}

/// Of a base that is built on site the bed at its marks, else the depths it is spread to.
void read_depths(const Json& json, Sizes& sizes) {
  if (const Json base = json.value("base", Json{}); base.is_object())
    if (const Json site = base.value("site_built", Json{}); site.is_object()) {
      for (const Json& mark : site.at("marks"))
        sizes.screed(mark.at("line"), mark.at("bed_mm").get<double>() - mark.at("subfloor_mm").get<double>());
      return;
    }
  for (const Json& gauge : json.at("room").at("gauges"))
    if (!gauge.at("keep_clear").get<bool>()) sizes.gauge(gauge.at("name"), gauge.at("spread_mm"));
}

State state_of(const Json& json) {
  State state;
  const Json& job = json.at("job");
  state.job.name = job.at("name");
  state.job.file = job.at("file");
  state.job.unit = job.at("unit") == "mm" ? job::UnitSystem::metric : job::UnitSystem::inch;
  for (const Json& key : job.at("keys")) state.keys.push_back({key.at("key"), key.at("value")});
  const Json &room = json.at("room"), &bed = json.at("bed");
  Sizes sizes{state.sizes};
  for (const Json& mark : room.at("set_out")) sizes.mark(mark.at("name"), mark.at("mm"));
  for (const Json& rung : room.at("heights_at_drain")) sizes.height(rung.at("name"), rung.at("above_datum_mm"));
  sizes.bed(bed.at("least_mm"), bed.at("greatest_mm"), bed.at("set_mm3"));
  read_depths(json, sizes);
  if (const auto spots = room.at("floor").find("spots_mm"); spots != room.at("floor").end())
    state.spots = spots->get<std::vector<facts::Point>>();
  for (const Json& fall : json.at("falls"))
    sizes.fall(fall.at("surface"), fall.at("facet"), fall.at("percent").get<double>() / 100);
  for (const Json& check : json.at("checks")) state.results.push_back(result_of(check));
  if (const auto record = json.find("as_built"); record != json.end() && !record->is_null())
    for (const Json& row : record->at("rows")) state.built.push_back(built_of(row));
  for (const Json& cut : json.at("cuts")) state.cuts.push_back(cut_of(cut));
  for (const Json& row : json.at("takeoff")) state.rows.push_back(row_of(row));
  std::vector<Told> solids;
  for (const Json& part : json.at("parts"))
    solids.push_back(
        {part.at("role"), part.at("bbox_mm"), part.at("centroid_mm"), part.at("volume_mm3"), part.at("area_mm2")});
  state.articles = articles_of(solids);
  for (const Json& stock : json.at("stocks")) state.job.cuts = sawing_of(stock);
  return state;
}

}  // namespace

State read_state(const std::string& text, const std::string& file) {
  const auto refuse = [&](const std::string& why) -> State {
    throw diag::JobFaults{{{file, 0, 0, "", "is no report.json that can be compared: " + why}}};
  };
  try {
    const Json json = Json::parse(text);
    if (!json.is_object() || !json.contains("tool") || json["tool"].value("name", "") != "fallwright")
      return refuse("fallwright did not write it");
    if (const Json schema = json.value("schema", Json{}); schema != report_schema)
      return refuse("its schema is " + schema.dump() + ", and this program reads " + std::to_string(report_schema) +
                    "; build it again");
    if (!json.contains("job") || !json["job"].contains("keys"))
      return refuse("it is of several rooms, or of a version that did not keep the job file's keys");
    return state_of(json);
  } catch (const nlohmann::json::parse_error&) {
    const std::size_t first = text.find_first_not_of(" \t\r\n");
    return refuse(first != std::string::npos && text[first] == '<'
                      ? "it is a page for a browser; the report.json is in the same folder"
                      : "it holds no JSON; a build writes one into its output folder");
  } catch (const nlohmann::json::exception& e) {
    return refuse(e.what());
  } catch (const std::invalid_argument& e) {
    return refuse(e.what());
  }
}

}  // namespace fallwright::revision
