#include <algorithm>
#include <filesystem>

#include "report/json_words.hpp"
#include "report/study.hpp"

namespace fallwright::report {
namespace {

const char* name_of(job::Way way) {
  return way == job::Way::all ? "all" : "samples";
}

Json check_at(const facts::Study& all, const std::optional<std::size_t>& place) {
  return place ? Json(all.checks[*place].id) : Json(nullptr);
}

Json variant(const StudyReport& r, const facts::Variant& v) {
  Json json{{"variant", v.number + 1},
            {"verdict", facts::name_of(v.verdict)},
            {"gives_way_first", check_at(r.all, v.gives_way)},
            {"margin", maybe(v.margin)},
            {"aim", maybe(v.aim)}};
  Json values = Json::object(), columns = Json::object();
  for (std::size_t i = 0; i < v.values.size(); ++i) values[r.varied[i].name] = r.varied[i].shown[v.values[i]];
  for (std::size_t i = 0; i < v.columns.size(); ++i)
    columns[r.study.columns[i].path] = v.columns[i].empty() ? Json(nullptr) : Json::parse(v.columns[i]);
  json["values"] = values;
  json["columns"] = columns;
  return json;
}

Json key(const job::Varied& varied, const std::vector<facts::Share>& shares, const std::vector<facts::Move>& moves,
         std::size_t place) {
  Json values = Json::array();
  const auto move = std::find_if(moves.begin(), moves.end(), [&](const facts::Move& m) { return m.key == place; });
  for (std::size_t i = 0; i < varied.shown.size(); ++i)
    values.push_back({{"value", varied.shown[i]},
                      {"number", i < varied.numbers.size() ? Json(varied.numbers[i]) : Json(nullptr)},
                      {"variants", shares[i].of},
                      {"pass", shares[i].passes}});
  return {{"path", varied.name},
          {"today", varied.now.empty() ? Json(nullptr) : Json(varied.now)},
          {"held", varied.shown[varied.held]},
          {"decides", move == moves.end() ? Json(nullptr) : Json(move->decides)},
          {"values", values}};
}

Json checks(const facts::Study& all) {
  Json json = Json::array();
  for (std::size_t i = 0; i < all.checks.size(); ++i)
    json.push_back({{"id", all.checks[i].id},
                    {"title", all.checks[i].title},
                    {"pass", all.odds[i].holds},
                    {"fail", all.odds[i].fails},
                    {"caution", all.odds[i].cautions},
                    {"gives_way_first", all.odds[i].first}});
  return json;
}

Json doubts(const facts::Study& all) {
  return list(all.doubts, [&](const facts::Doubt& d) {
    return Json{{"reading", d.name},
                {"tolerance_mm", d.tolerance_mm},
                {"decides", d.decides},
                {"check", check_at(all, d.check)},
                {"holds_where_less", d.holds_below},
                {"holds_where_more", d.holds_above}};
  });
}

Json map(const StudyReport& r) {
  if (!r.all.map) return nullptr;
  const facts::Map& m = *r.all.map;
  const auto axis = [&](std::size_t place, const std::vector<std::size_t>& values) {
    return Json{{"path", r.varied[place].name},
                {"values", list(values, [&](std::size_t v) { return r.varied[place].shown[v]; })}};
  };
  return {{"across", axis(m.across, m.xs)},
          {"up", m.up ? axis(*m.up, m.ys) : Json(nullptr)},
          {"nodes", list(m.nodes, [](const facts::Node& n) {
             return Json{{"verdict", facts::name_of(n.verdict)}, {"aim", maybe(n.aim)}};
           })}};
}

}  // namespace

std::string to_json(const StudyReport& r) {
  Json json;
  json["schema"] = 1;
  json["tool"] = {{"name", "fallwright"}, {"version", version()}};
  json["study"] = {{"name", r.study.name},
                   {"file", std::filesystem::path{r.study.file}.filename().string()},
                   {"sha256", r.study.sha256},
                   {"vary", r.study.vary == job::Vary::readings ? "readings" : "keys"},
                   {"way", name_of(r.study.way)},
                   {"seed", r.study.way == job::Way::samples ? Json(r.study.seed) : Json(nullptr)},
                   {"aim", job::name_of(r.study.aim)}};
  json["job"] = {{"name", r.study.job.name},
                 {"file", std::filesystem::path{r.study.job.file}.filename().string()},
                 {"sha256", r.study.job.sha256}};
  json["variants"] = r.all.variants;
  json["pass"] = r.all.passes;
  json["draws_left_out"] = r.study.vary == job::Vary::readings ? Json(r.all.left_out) : Json(nullptr);
  json["cannot_stand"] = r.all.refused;
  json["cannot_be_made"] = r.all.broken;
  json["today"] = variant(r, r.all.today);
  json["today"].erase("variant");  // it is none of them
  json["keys"] = Json::array();
  for (std::size_t i = 0; i < r.all.by_value.size(); ++i)
    json["keys"].push_back(key(r.varied[i], r.all.by_value[i], r.all.moves, i));
  json["checks"] = checks(r.all);
  json["best"] = list(r.all.best, [&](const facts::Variant& v) { return variant(r, v); });
  const bool settled =
      std::any_of(r.all.doubts.begin(), r.all.doubts.end(), [](const facts::Doubt& d) { return d.decides > 0; });
  json["readings_settle"] = !settled ? Json(nullptr) : Json(r.all.doubts_of_care ? "care" : "verdict");
  json["readings"] = doubts(r.all);
  json["map"] = map(r);
  json["files"] = list(r.files, [](const File& f) {
    return Json{{"path", f.path}, {"bytes", f.bytes}, {"sha256", f.sha256}};
  });
  return dumped(json);
}

}  // namespace fallwright::report
