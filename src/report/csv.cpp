#include "report/report.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::report {
namespace {

/// RFC 4180: a field with a comma, a quote or a line end stands in quotes, and its quotes are doubled.
std::string field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out{"\""};
  for (const char c : text) out += c == '"' ? "\"\"" : std::string{c};
  return out + "\"";
}

std::string line(const std::vector<std::string>& fields) {
  std::string out;
  for (std::size_t i = 0; i < fields.size(); ++i) out += (i == 0 ? "" : ",") + field(fields[i]);
  return out + "\r\n";
}

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : " ") + word;
  return out;
}

std::string number(const std::optional<double>& value) {
  return value ? units::decimals(*value, 6) : "";
}

}  // namespace

std::string takeoff_csv(const Report& report) {
  std::string out = line({"item", "quantity", "unit", "buy", "buy unit", "basis"});
  for (const takeoff::Row& r : report.rows)
    out += line({r.item, units::decimals(r.quantity, 3), r.unit,
                 units::decimals(r.buy, r.buy == static_cast<long>(r.buy) ? 0 : 3), r.buy_unit, r.basis});
  return out;
}

std::string cuts_csv(const Report& report) {
  const bool metric = report.job.unit == job::UnitSystem::metric;
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  std::string out =
      line({"mark", "count", "stock", "length", "length mm", "width mm", "thickness mm", "ends", "parts"});
  for (const takeoff::CutRow& c : report.cuts)
    out += line({c.mark, std::to_string(c.count), c.stock, text(c.length_mm), units::decimals(c.length_mm, 3),
                 units::decimals(c.width_mm, 3), units::decimals(c.thickness_mm, 3), c.ends, joined(c.part_ids)});
  return out;
}

std::string checks_csv(const Report& report) {
  std::string out = line({"id", "title", "result", "measured", "limit", "measured SI", "least SI", "greatest SI",
                          "unit SI", "source", "verified", "where", "advice"});
  for (const rules::Result& r : report.results)
    out += line({r.id, r.title, rules::name_of(r.outcome), measured_text(r, report.job), limit_text(r, report.job),
                 number(r.measured), number(r.limit.least), number(r.limit.greatest), rules::name_of(r.limit.unit),
                 r.limit.source, rules::name_of(r.limit.verified), r.where, r.advice});
  return out;
}

}  // namespace fallwright::report
