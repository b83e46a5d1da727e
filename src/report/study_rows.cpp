#include <algorithm>
#include <stdexcept>

#include "report/csv_table.hpp"
#include "report/json_words.hpp"
#include "report/study.hpp"
#include "report/study_words.hpp"

namespace fallwright::report {
namespace {

/// A row of as many fields as it happens to have.
class Row {
 public:
  void add(const Field& field) {
    text_ += (begun_ ? "," : "") + field.written();
    begun_ = true;
  }
  std::string done() const { return text_ + "\r\n"; }

 private:
  std::string text_;
  bool begun_ = false;
};

bool has_numbers(const job::Varied& varied) {
  return varied.measure == job::Measure::length && !varied.numbers.empty();
}

std::size_t count(const std::string& outcomes, char outcome) {
  return static_cast<std::size_t>(std::count(outcomes.begin(), outcomes.end(), outcome));
}

/// A column's JSON as a field: texts without their quotes.
Field field_of(const std::string& json) {
  if (json.empty() || json.front() != '"') return Field::plain(json);
  return Field{Json::parse(json).get<std::string>()};
}

Json maybe_place(const std::optional<std::size_t>& place) {
  return place ? Json(*place) : Json(nullptr);
}

}  // namespace

std::string variants_head(const job::Study& study, const std::vector<job::Varied>& varied) {
  Row row;
  for (const char* name : {"variant", "kind"}) row.add(name);
  for (const job::Varied& each : varied) {
    if (study.vary == job::Vary::readings) {
      row.add(each.name + " off by (mm)");
      continue;
    }
    row.add(each.name);
    if (has_numbers(each)) row.add(each.name + " (mm)");
  }
  for (const char* name : {"verdict", "gives way first", "margin"}) row.add(name);
  row.add(aim_column(study.aim));
  for (const char* name : {"fail", "caution", "not checked"}) row.add(name);
  for (const job::Asked& column : study.columns) row.add(column.path);
  row.add("reason");
  return row.done();
}

std::string variants_row(const job::Study& study, const std::vector<job::Varied>& varied,
                         const std::vector<facts::Check>& checks, const facts::Variant& v) {
  Row row;
  row.add(Field::count(v.number + 1));
  row.add(v.for_map ? "map" : study.way == job::Way::all ? "combination" : "sample");
  for (std::size_t i = 0; i < varied.size(); ++i) {
    if (study.vary == job::Vary::readings) {
      row.add(Field::number(v.offsets_mm[i], 6));
      continue;
    }
    row.add(varied[i].shown[v.values[i]]);
    if (has_numbers(varied[i])) row.add(Field::number(varied[i].numbers[v.values[i]], 4));
  }
  row.add(facts::name_of(v.verdict));
  row.add(v.gives_way ? checks[*v.gives_way].id : "");
  row.add(Field::number(v.margin, 6));
  row.add(Field::number(v.aim, 6));
  for (const char outcome : {facts::failed, facts::cautioned, facts::left_open})
    row.add(v.outcomes.empty() ? Field{""} : Field::count(count(v.outcomes, outcome)));
  for (std::size_t i = 0; i < study.columns.size(); ++i)
    row.add(i < v.columns.size() ? field_of(v.columns[i]) : Field{""});
  row.add(v.reason);
  return row.done();
}

std::string kept_row(const facts::Variant& v) {
  const Json row{v.number,
                 v.for_map,
                 v.values,
                 v.offsets_mm,
                 static_cast<int>(v.verdict),
                 v.reason,
                 v.outcomes,
                 maybe_place(v.gives_way),
                 maybe(v.margin),
                 maybe(v.aim),
                 v.columns,
                 v.margins,
                 v.aimed,
                 v.left_out};
  return row.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

facts::Variant read_row(const std::string& line) try {
  const Json row = Json::parse(line);
  facts::Variant v;
  v.number = row.at(0), v.for_map = row.at(1);
  v.values = row.at(2).get<std::vector<std::size_t>>(), v.offsets_mm = row.at(3).get<std::vector<double>>();
  v.verdict = static_cast<facts::Verdict>(row.at(4).get<int>());
  v.reason = row.at(5), v.outcomes = row.at(6);
  if (!row.at(7).is_null()) v.gives_way = row.at(7).get<std::size_t>();
  if (!row.at(8).is_null()) v.margin = row.at(8).get<double>();
  if (!row.at(9).is_null()) v.aim = row.at(9).get<double>();
  v.columns = row.at(10).get<std::vector<std::string>>(), v.margins = row.at(11).get<std::vector<double>>();
  v.aimed = row.at(12).get<std::vector<double>>(), v.left_out = row.at(13);
  return v;
} catch (const Json::exception&) {
  throw std::runtime_error{"a row that no study wrote"};
}

}  // namespace fallwright::report
