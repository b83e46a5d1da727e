#include "exchange/step_text.hpp"

#include <cstdio>
#include <map>
#include <regex>
#include <vector>

#include "diag/fault.hpp"
#include "units/letters.hpp"

namespace fallwright::exchange {
namespace {

std::string on_one_line(const std::string& statement) {
  static const std::regex line_break{R"(\n\s*)"};
  return std::regex_replace(statement, line_break, "");
}

/// The kernel breaks lines by their length, and so by the digits of the number: these statements go on one line.
std::string with_numbered_instances(const std::string& text) {
  static const std::regex instance{R"(NEXT_ASSEMBLY_USAGE_OCCURRENCE\('\d+'([^;]*);)"};
  std::string out;
  auto at = text.cbegin();
  int number = 0;
  for (std::sregex_iterator it{text.begin(), text.end(), instance}, end; it != end; ++it) {
    out.append(at, (*it)[0].first);
    out += "NEXT_ASSEMBLY_USAGE_OCCURRENCE('" + std::to_string(++number) + "'" + on_one_line((*it)[1]) + ";";
    at = (*it)[0].second;
  }
  out.append(at, text.cend());
  return out;
}

/// Statements of the colour part by number, without their "#12 = ".
std::map<long, std::string> statements(const std::string& text) {
  static const std::regex statement{R"(#(\d+) = ([^;]*);)"};
  std::map<long, std::string> found;
  for (std::sregex_iterator it{text.begin(), text.end(), statement}, end; it != end; ++it)
    found[std::stol((*it)[1])] = on_one_line((*it)[2]);
  return found;
}

std::vector<long> references(const std::string& statement) {
  static const std::regex reference{R"(#(\d+))"};
  std::vector<long> ids;
  for (std::sregex_iterator it{statement.begin(), statement.end(), reference}, end; it != end; ++it)
    ids.push_back(std::stol((*it)[1]));
  return ids;
}

/// One coloured solid: the context it is shown in, the solid, its colour.
struct Paint {
  long context, solid;
  std::string colour;
};

/// From the representation over styled item, style and fill down to the colour, each naming the next.
Paint paint_of(const std::string& representation, const std::map<long, std::string>& all) {
  const std::vector<long> ends = references(representation);
  const std::vector<long> item = references(all.at(ends.at(0)));
  long at = item.at(0);
  while (!all.at(at).starts_with("COLOUR_RGB")) at = references(all.at(at)).at(0);
  return {ends.at(1), item.at(1), all.at(at)};
}

void append(std::string& out, long& id, const Paint& p) {
  const auto ref = [&](long ahead) { return "#" + std::to_string(id + ahead); };
  const std::string steps[] = {
      "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',(" + ref(1) + "),#" + std::to_string(p.context) + ")",
      "STYLED_ITEM('color',(" + ref(2) + "),#" + std::to_string(p.solid) + ")",
      "PRESENTATION_STYLE_ASSIGNMENT((" + ref(3) + "))",
      "SURFACE_STYLE_USAGE(.BOTH.," + ref(4) + ")",
      "SURFACE_SIDE_STYLE('',(" + ref(5) + "))",
      "SURFACE_STYLE_FILL_AREA(" + ref(6) + ")",
      "FILL_AREA_STYLE('',(" + ref(7) + "))",
      "FILL_AREA_STYLE_COLOUR(''," + ref(8) + ")",
      p.colour};
  for (const std::string& step : steps) out += "#" + std::to_string(id++) + " = " + step + ";\n";
}

}  // namespace

std::string canonical_step(const std::string& text) {
  const std::string numbered = with_numbered_instances(text);
  static const std::string first{" = MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION"};
  const std::size_t found = numbered.find(first), last = numbered.rfind("ENDSEC;");
  if (found == std::string::npos) return numbered;
  const std::size_t begin = numbered.rfind('#', found);
  const std::map<long, std::string> all = statements(numbered.substr(begin, last - begin));
  std::map<long, Paint> by_solid;
  for (const auto& [id, statement] : all)
    if (statement.starts_with("MECHANICAL_DESIGN")) {
      const Paint paint = paint_of(statement, all);
      by_solid.emplace(paint.solid, paint);
    }
  std::string out = numbered.substr(0, begin);
  long id = std::stol(numbered.substr(begin + 1));
  for (const auto& [solid, paint] : by_solid) append(out, id, paint);
  return out + numbered.substr(last);
}

std::string step_string(std::string_view utf8) {
  std::string out;
  int open = 0;  // digits of the numbers that a control directive has begun; 0 outside
  const auto width = [&](int digits) {
    if (open == digits) return;
    if (open != 0) out += "\\X0\\";
    if (digits != 0) out += digits == 4 ? "\\X2\\" : "\\X4\\";
    open = digits;
  };
  for (const char32_t letter : units::letters_of(units::on_one_line(utf8))) {
    width(letter < 0x80 ? 0 : letter <= 0xffff ? 4 : 8);
    char number[16];
    std::snprintf(number, sizeof number, "%0*X", open, static_cast<unsigned>(letter));
    if (letter == U'\'' || letter == U'\\') out += static_cast<char>(letter);
    out += open == 0 ? std::string(1, static_cast<char>(letter)) : number;
  }
  width(0);
  return out;
}

std::string named_step(std::string text, const std::string& placeholder, std::string_view name) {
  const std::string from = "'" + placeholder + "'", to = "'" + step_string(name) + "'";
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
  return text;
}

}  // namespace fallwright::exchange
