#include "job/stock.hpp"

#include <algorithm>
#include <cmath>
#include <regex>

namespace fallwright::job {
namespace {

using units::Length;

struct Dressed {
  double nominal, actual;
};

/// PS 20, dressed dry: thickness of boards and dimension lumber, and widths.
constexpr Dressed thicknesses[] = {{1, 0.75}, {1.25, 1}, {1.5, 1.25}, {2, 1.5}, {2.5, 2}, {3, 2.5}, {3.5, 3}, {4, 3.5}};
constexpr Dressed widths[] = {{2, 1.5}, {3, 2.5}, {4, 3.5}, {5, 4.5}, {6, 5.5}, {8, 7.25}, {10, 9.25}, {12, 11.25}};

std::optional<double> look_up(const Dressed* begin, const Dressed* end, double nominal) {
  const auto it = std::find_if(begin, end, [&](const Dressed& d) { return d.nominal == nominal; });
  return it == end ? std::nullopt : std::optional{it->actual};
}

/// Timbers of 5 in nominal and more are dressed 1/2 in off both ways.
std::optional<Stock> timber(const std::string& name, double a, double b) {
  Stock stock;
  stock.name = name;
  const double thin = std::min(a, b), wide = std::max(a, b);
  if (thin >= 5 && wide <= 14) {
    stock.thickness = Length::inches(thin - 0.5);
    stock.depth = Length::inches(wide - 0.5);
    return stock;
  }
  const auto thickness = look_up(std::begin(thicknesses), std::end(thicknesses), thin);
  const auto width = look_up(std::begin(widths), std::end(widths), wide);
  if (!thickness || !width) return std::nullopt;
  stock.thickness = Length::inches(*thickness);
  stock.depth = Length::inches(*width);
  return stock;
}

/// Sheet thickness by its mil designation: design thickness and inside bend radius, in inches.
struct Sheet {
  int mils;
  double design, radius;
};
constexpr Sheet sheets[] = {{18, .0188, .0843}, {27, .0283, .0796}, {30, .0312, .0781},
                            {33, .0346, .0764}, {43, .0451, .0712}, {54, .0566, .0849},
                            {68, .0713, .1069}, {97, .1017, .1525}, {118, .1242, .1863}};

/// Flange designation of studs, with flange width and lip, in inches.
struct Flange {
  int designation;
  double width, lip;
};
constexpr Flange flanges[] = {{125, 1.25, .188}, {137, 1.375, .375}, {162, 1.625, .5}, {200, 2, .625},
                              {250, 2.5, .625},  {300, 3, .625},     {350, 3.5, 1}};

std::optional<Stock> steel(const std::string& name, int web, char kind, int flange, int mils, std::string& why) {
  const auto sheet = std::find_if(std::begin(sheets), std::end(sheets), [&](const Sheet& s) { return s.mils == mils; });
  if (sheet == std::end(sheets)) {
    why = std::to_string(mils) + " mil is no sheet thickness; allowed: 18, 27, 30, 33, 43, 54, 68, 97, 118";
    return std::nullopt;
  }
  if (web < 150 || web > 1400) {
    why = "a web of " + std::to_string(web) + " hundredths of an inch is none; allowed: 162 to 1400";
    return std::nullopt;
  }
  Stock stock;
  stock.name = name;
  stock.kind = kind == 'S' ? StockKind::steel_stud : StockKind::steel_track;
  // The designator cuts eighths off to hundredths: 162 is 1-5/8, 137 is 1-3/8.
  const auto eighths = [](int hundredths) { return std::ceil(hundredths / 12.5) / 8; };
  stock.depth = Length::inches(eighths(web));
  stock.thickness = Length::inches(sheet->design);
  stock.radius = Length::inches(sheet->radius);
  stock.flange = Length::inches(eighths(flange));
  if (kind == 'T') return stock;
  const auto row =
      std::find_if(std::begin(flanges), std::end(flanges), [&](const Flange& f) { return f.designation == flange; });
  if (row == std::end(flanges)) {
    why = "S" + std::to_string(flange) + " is no stud flange; allowed: S125, S137, S162, S200, S250, S300, S350";
    return std::nullopt;
  }
  stock.flange = Length::inches(row->width);
  stock.lip = Length::inches(row->lip);
  if (row->lip < sheet->radius + sheet->design) {
    why = "a lip of " + name + " is shorter than its bend: no such stud is rolled";
    return std::nullopt;
  }
  return stock;
}

}  // namespace

std::optional<Stock> parse_stock(std::string_view text, std::string& why) {
  const std::string name{text};
  std::smatch m;
  static const std::regex nominal{R"(\s*(\d+|5/4)\s*[xX]\s*(\d+)\s*)"},
      actual{R"(\s*([\d.]+)\s*[xX]\s*([\d.]+)\s*mm\s*)"}, section{R"((\d{3,4})([ST])(\d{3})-(\d{2,3}))"};
  if (std::regex_match(name, m, actual)) {
    const double a = std::stod(m[1]), b = std::stod(m[2]);
    Stock stock;
    stock.name = name;
    stock.thickness = Length::mm(std::min(a, b));
    stock.depth = Length::mm(std::max(a, b));
    if (std::min(a, b) >= 10 && std::max(a, b) <= 400) return stock;
    why = "a stick of " + name + " is outside 10 to 400 mm";
    return std::nullopt;
  }
  if (std::regex_match(name, m, nominal)) {
    if (auto stock = timber(name, m[1] == "5/4" ? 1.25 : std::stod(m[1]), std::stod(m[2]))) return stock;
    why = "'" + name + "' is no dressed size; sold are 1x, 5/4x, 2x, 3x and 4x by 2, 3, 4, 5, 6, 8, 10 and 12";
    return std::nullopt;
  }
  if (std::regex_match(name, m, section))
    return steel(name, std::stoi(m[1]), m[2].str()[0], std::stoi(m[3]), std::stoi(m[4]), why);
  why = "'" + name + "' is no stock; write '2x4', '45x95 mm' or '350S162-33'";
  return std::nullopt;
}

}  // namespace fallwright::job
