#include "takeoff/takeoff.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "takeoff/backing.hpp"
#include "takeoff/item.hpp"
#include "takeoff/need.hpp"
#include "takeoff/ripping.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"
#include "units/tolerance.hpp"

namespace fallwright::takeoff {
namespace {

using units::decimals;

constexpr std::string_view deck_sheet = "deck sheet ", one_stick = "stick of ", sticks = "sticks of ";

/// What the sticks of one length rest on, and how good the plan of their stock is.
std::string basis_of(const StockPlan& plan, const StickGroup& size, std::size_t pieces, bool metric) {
  std::string text = plan.is_ripped() ? side_by_side(pieces, plan.kerf_mm, metric)
                                      : std::to_string(pieces) + (pieces == 1 ? " piece" : " pieces");
  if (size.stick.to_order) text += ", longer than any stick on offer: order to length";
  text += (plan.is_ripped() ? "" : "; " + kerf_text(plan.kerf_mm, metric) + " kerf") + "; of " + plan.stock + " " +
          total_text(plan.bought_mm, metric) + " bought for " + std::to_string(plan.pieces) +
          (plan.pieces == 1 ? " piece" : " pieces") +
          (plan.is_ripped() ? "" : ", " + total_text(plan.offcut_mm, metric) + " offcuts") + "; " +
          proof_text(plan, metric);
  return text + "; no allowance for knots and splits";
}

/// Studs that stand farther back than furring reaches: told, since no strip of the list brings them out.
void add_build_up(const facts::Facts& facts, std::vector<Row>& rows) {
  const auto studs =
      static_cast<double>(std::count_if(facts.room.studs.begin(), facts.room.studs.end(), beyond_furring));
  if (studs == 0) return;
  Row row{"studs to bring out",
          studs,
          "studs",
          studs,
          "studs",
          "farther back than furring reaches (1-1/2 in, 38 mm): frame a wall before them, or plumb them where it has "
          "no room; not on this list"};
  row.for_sale = false;
  rows.push_back(row);
}

/// What no saw rips, and what lies on no stick before blocks: by thickness and width, so long as what it goes on; what
/// waits by itself.
void add_shims(const std::vector<CutRow>& cuts, bool metric, std::vector<Row>& rows) {
  for (const CutRow& cut : cuts) {
    if (!cut.lies_on_no_stick()) continue;
    const double length = cut.count * cut.length_mm / (metric ? 1000 : 304.8);
    const auto known = std::find_if(rows.begin(), rows.end(), [&](const Row& row) {
      return row.item == cut.stock && row.hold.has_value() == cut.hold.has_value();
    });
    if (known != rows.end()) {
      known->quantity += length, known->buy += length;
      take_hold(known->hold, cut.hold);
      continue;
    }
    const char* const unit = metric ? "m" : "ft";
    rows.push_back(
        {cut.stock, length, unit, length, unit,
         cut.is_shim()
             ? "before studs that stand back, thinner than a strip is ripped: shims in tapered pairs, or "
               "strips of card in layers, as long as the cut list has them"
             : "before blocking that stands back: no stick is bought for pieces so short; out of offcuts of "
               "plywood as thick, or ripped off a longer end and cut then, as long as the cut list has them"});
    rows.back().hold = cut.hold;
    rows.back().blanks = Blanks::shims;
  }
}

/// How much of a sheet a piece takes: its share of as many alike as a sheet gives, the sheet's length along the
/// piece's, since the deck's strong way lies across the joists. A piece longer or wider than a sheet is joined over a
/// joist.
double share_of_sheet(const facts::Member& piece, double length, double width, double kerf) {
  const auto fitting = [&](double sheet, double part) { return std::floor((sheet + kerf) / (part + kerf) + 1e-9); };
  const double along = fitting(length, piece.length_mm), across = fitting(width, piece.width_mm);
  const double of_length = along > 0 ? 1 / along : std::ceil(piece.length_mm / length);
  return of_length * (across > 0 ? 1 / across : std::ceil(piece.width_mm / width));
}

/// Deck of the bench by thickness.
void add_sheets(const job::Job& job, const facts::Facts& facts, std::vector<Row>& rows) {
  struct Deck {
    double area = 0, sheets = 0;
    bool joined = false;
  };
  const bool metric = job.is_metric();
  const auto [width, length] = sheet_mm(metric);
  const double unit = metric ? 1e6 : 144 * units::mm2_per_in2;
  std::map<long, Deck> by_thickness;  // hundredths of a millimetre
  for (const facts::Member& member : facts.members) {
    if (!member.sheet) continue;
    Deck& deck = by_thickness[std::lround(member.thickness_mm * 100)];
    deck.area += member.length_mm * member.width_mm;
    deck.sheets += share_of_sheet(member, length, width, job.cuts.kerf.in_mm());
    deck.joined = deck.joined || member.length_mm > length || member.width_mm > width;
  }
  for (const auto& [thickness, deck] : by_thickness) {
    rows.push_back(to_row({std::string{deck_sheet} +
                               units::to_text(units::Length::mm(static_cast<double>(thickness) / 100), metric) +
                               (job.bench && job.bench->frame.panel == job::PanelKind::osb ? ", OSB" : ", plywood"),
                           deck.area / unit, metric ? "m2" : "ft2", deck.sheets * width * length / deck.area - 1,
                           width * length / unit, metric ? "sheets 1220 x 2440" : "sheets 4 x 8 ft",
                           std::string{"deck of the bench frame, as many pieces to a sheet as lie along it"} +
                               (deck.joined ? "; it is larger than a sheet: join it over a joist" : ""),
                           0, true}));
    rows.back().blanks = Blanks::sheets;
  }
}

/// Offcuts of the walls' board or of plywood serve, so no sheet of them is counted.
void add_backing_boards(const job::Job& job, const facts::Facts& facts, std::vector<Row>& rows) {
  const auto backing = backing_at_bench(job, facts);
  if (!backing) return;
  const auto count = static_cast<double>(backing->bays_mm.size());
  rows.push_back({name_of(Item::backing), count, "pieces", count, "pieces",
                  "offcuts of wall board or plywood between the bench's front studs, for the " +
                      std::string{backing->carries} + ": " + backing_size(job, *backing)});
}

/// Where the drain is in a base that is otherwise alike: of either hand there is another.
std::string drain_within(const facts::Part& base, const job::Job& job, const facts::Facts& facts) {
  const auto drain = std::find_if(facts.parts.begin(), facts.parts.end(),
                                  [](const facts::Part& part) { return part.which.is(facts::Role::drain); });
  if (drain == facts.parts.end()) return "";
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), job.is_metric()); };
  const auto middle = [&](std::size_t axis) { return (drain->bbox_mm[axis] + drain->bbox_mm[axis + 3]) / 2; };
  const double left = middle(0) - base.bbox_mm[0], right = base.bbox_mm[3] - middle(0);
  constexpr double same_mm = 0.5;
  const std::string end = std::abs(left - right) < same_mm ? "either" : left < right ? "the left" : "the right";
  return ", middle of its drain " + text(std::min(left, right)) + " from " + end + " end and " +
         text(base.bbox_mm[4] - middle(1)) + " from the back";
}

void add_weights(const job::Job& job, const facts::Facts& facts, std::vector<Row>& rows) {
  const bool metric = job.is_metric();
  const bool weighed = facts.bought && facts.bought->density_kg_m3;
  for (const facts::Part& part : facts.parts) {
    const bool base = part.which.is(facts::Role::base);
    if (!base && !part.which.is(facts::Role::seat_block)) continue;
    if (base && facts.site_built) continue;  // it is not bought in one piece
    const double mass = metric ? part.mass_kg : part.mass_kg / units::kg_per_lb;
    rows.push_back({name_of(base ? Item::base : Item::seat_block), mass, metric ? "kg" : "lb", 1, "pieces",
                    base && weighed ? "solid of the base, as it was weighed"
                                    : std::string{base ? "solid of the base" : "solid of the seat block"} +
                                          " at the density in the job file"});
    rows.back().product = size_over_all(part, metric) + (base ? drain_within(part, job, facts) : "");
  }
}

/// One for each base. Where the waste stands in the floor already none is bought here, and it is told what goes with
/// the base.
void add_drain(const job::Job& job, const facts::Facts& facts, std::vector<Row>& rows) {
  if (!job.buy.wants("drain")) return;
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), job.is_metric()); };
  Row row{name_of(job.drain.kind == job::DrainKind::point ? Item::drain : Item::channel_drain),
          1,
          "pieces",
          1,
          "pieces",
          "its body at most " + text(job.drain.body.in_mm()) + " where the bore is " + text(job.drain.bore.in_mm()) +
              (job.base.is_site_built() ? "" : "; not if it comes with the base")};
  if (facts.bought && facts.bought->waste_aside_mm) {
    row.for_sale = false;
    row.basis =
        "not bought: the waste stands in the floor already. What joins it to the base has to fit the base's opening, " +
        opening_of(job, facts) + ", its shell " + text(job.base.shell.in_mm()) + " there";
  }
  row.product = opening_of(job, facts) + ", " + body_of(job);
  rows.push_back(row);
}

/// Sticks that a timber bench is cut from are of what it is judged as; any other species stands in the stock's name.
void tell_species(const job::Job& job, std::vector<Row>& rows) {
  if (!job.bench || job.bench->frame.kind != job::FrameKind::timber) return;
  const job::BenchFrame &frame = job.bench->frame, usual;
  if (frame.species != usual.species) return;
  for (Row& row : rows)
    if (row.item == frame.stock.name) {
      row.product = frame.species + " for the bench";
      row.basis += "; " + row.product;
    }
}

/// What of a furring's row nobody finds on the shelf.
std::string how_sold(const std::string& furring) {
  const std::string board = board_as_sold(furring);
  return board.empty() ? std::string{rip_from_wider} : "; sold as " + board;
}

}  // namespace

Sheet sheet_mm(bool metric) {
  return metric ? Sheet{1220, 2440} : Sheet{1219.2, 2438.4};
}

std::optional<Blanks> blanks_named(const Row& row) {
  if (row.item.starts_with(deck_sheet)) return Blanks::sheets;
  const auto furring = furring_named(row.item);
  if (furring == Furring::shims || (furring && row.buy_unit == row.unit)) return Blanks::shims;
  if (!row.buy_unit.starts_with(one_stick) && !row.buy_unit.starts_with(sticks)) return std::nullopt;
  return !row.sold_as.empty() ? Blanks::boards : furring ? Blanks::strips : Blanks::sticks;
}

std::string size_over_all(const facts::Part& part, bool metric) {
  const auto& box = part.bbox_mm;
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  const double x = box[3] - box[0], y = box[4] - box[1];
  return text(std::max(x, y)) + " x " + text(std::min(x, y)) + ", " + text(box[5] - box[2]) + " high, over all";
}

std::string body_of(const job::Job& job) {
  const auto text = [&](const units::Length& length) { return units::to_text(length, job.is_metric()); };
  return "outlet " + (job.is_default("drain.outlet") ? "not read: measure it" : text(job.drain.outlet)) +
         ", body at most " + text(job.drain.body);
}

std::string opening_of(const job::Job& job, const facts::Facts& facts) {
  const auto drain = std::find_if(facts.parts.begin(), facts.parts.end(),
                                  [](const facts::Part& part) { return part.which.is(facts::Role::drain); });
  if (drain == facts.parts.end()) return "";
  const auto& box = drain->bbox_mm;
  const bool metric = job.is_metric();
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  const double x = box[3] - box[0], y = box[4] - box[1];
  if (job.drain.kind == job::DrainKind::line) return text(std::max(x, y)) + " long, " + text(std::min(x, y)) + " wide";
  return text(x) + (job.drain.opening == job::Opening::round ? " round" : " square");
}

std::vector<Row> stick_rows(const std::vector<StockPlan>& plans, bool metric) {
  std::vector<Row> rows;
  for (const StockPlan& plan : plans)
    for (const StickGroup& size : by_length(plan.sticks)) {
      double net = 0;
      std::size_t pieces = 0;
      for (const Stick& stick : plan.sticks) {
        if (!same_length(stick, size.stick)) continue;
        pieces += stick.pieces.size();
        for (const StickPiece& piece : stick.pieces) net += piece.length_mm;
      }
      rows.push_back({plan.stock, metric ? net / 1000 : net / 304.8, metric ? "m" : "ft",
                      static_cast<double>(size.count),
                      std::string{size.count == 1 ? one_stick : sticks} + stick_text(size.stick.length_mm, metric),
                      basis_of(plan, size, pieces, metric) + (plan.of_strips ? how_sold(plan.stock) : "")});
      rows.back().blanks = plan.is_ripped() ? Blanks::boards : plan.of_strips ? Blanks::strips : Blanks::sticks;
      rows.back().hold = plan.hold;
      rows.back().sold_as = plan.sold_as;
    }
  return rows;
}

std::vector<Row> take_off(const job::Job& job, const facts::Facts& facts, const std::vector<CutRow>& cuts,
                          const std::vector<StockPlan>& plan) {
  const bool metric = job.is_metric();
  std::vector<Row> rows = mortar_rows(job, facts);
  for (Row& row : stick_rows(plan, metric)) rows.push_back(std::move(row));
  tell_species(job, rows);
  add_shims(cuts, metric, rows);
  add_build_up(facts, rows);
  add_sheets(job, facts, rows);
  add_backing_boards(job, facts, rows);
  for (const auto& more : {site_built_rows(job, facts), finish_rows(job, facts), fastener_rows(job, facts, cuts)})
    rows.insert(rows.end(), more.begin(), more.end());
  add_weights(job, facts, rows);
  add_drain(job, facts, rows);
  set_prices(rows, job.buy.prices.prices);
  return rows;
}

}  // namespace fallwright::takeoff
