#include <algorithm>

#include "page/html.hpp"
#include "page/sections.hpp"
#include "rules/words.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::page {
namespace {

/// The card is one screen for gloves and a wet hour: depths on a plan, what to read, and the answer.
class Card {
 public:
  explicit Card(const Subject& subject)
      : report_{subject.report}, order_{drawing::order_of_pressing(subject.report.facts.room)} {}

  std::string html() const {
    const facts::Bed& bed = report_.facts.bed;
    const std::string line = element(
        "p", "Spread to a level line " + element("strong", len(bed.gauge_mm)) +
                 " above the datum, the depths below from the floor up to it. Then press the base down in the order of "
                 "the numbers, from the drain outward.");
    const std::string figure = element(
        "figure", plan() + element("figcaption", "Gauge depths, seen from above; the entry is below. " + drain_words()),
        " class=\"gauges\"");
    const std::string listed =
        element("details", element("summary", "The same as a table, with where each point lies") + html_of(table()));
    return line + element("div", element("div", figure + listed) + readings(), " class=\"card-grid\"") + "\n";
  }

 private:
  std::string len(double mm) const { return escaped(units::to_text(units::Length::mm(mm), report_.job.is_metric())); }

  static std::string number(double v) { return units::decimals(v, 1); }

  std::string drain_words() const {
    const auto& gauges = report_.facts.room.gauges;
    const bool clear = std::any_of(gauges.begin(), gauges.end(), [](const facts::Gauge& g) { return g.clear; });
    return clear ? "No mortar where it says clear: the drain's hole." : "";
  }

  /// Depths where they are measured, in a plan of the base that is as wide as a hand.
  std::string plan() const {
    const facts::Part* base = nullptr;
    for (const facts::Part& part : report_.facts.parts)
      if (part.which.is(facts::Role::base)) base = &part;
    if (!base) return "";
    const double x0 = base->bbox_mm[0], y1 = base->bbox_mm[4];
    const double wide = base->bbox_mm[3] - x0, deep = y1 - base->bbox_mm[1], size = wide / 22;
    std::string inner = box("edge", 0, 0, wide, deep, size / 8);
    for (const facts::Part& part : report_.facts.parts)
      if (part.which.is(facts::Role::drain))
        inner += box("drain", part.bbox_mm[0] - x0, y1 - part.bbox_mm[4], part.bbox_mm[3] - part.bbox_mm[0],
                     part.bbox_mm[4] - part.bbox_mm[1], size / 8);
    for (const facts::Gauge& g : report_.facts.room.gauges)
      inner += depth(g, g.x_mm - x0, y1 - g.y_mm, wide, deep, size);
    inner += words("name", "entry", wide / 2, deep + 0.9 * size, 0.7 * size, "middle");
    return element(
        "svg", inner,
        " viewBox=\"" + number(-size) + " " + number(-size) + " " + number(wide + 2 * size) + " " +
            number(deep + 2.6 * size) +
            "\" role=\"img\" aria-label=\"Gauge depths on a plan of the base; the table below has the same\"");
  }

  static std::string box(const char* what, double x, double y, double wide, double deep, double stroke) {
    return std::string{"<rect class=\""} + what + "\" x=\"" + number(x) + "\" y=\"" + number(y) + "\" width=\"" +
           number(wide) + "\" height=\"" + number(deep) + "\" stroke-width=\"" + number(stroke) + "\"/>\n";
  }

  static std::string words(const char* what, const std::string& html, double x, double y, double size,
                           const char* anchor) {
    return element("text", html,
                   std::string{" class=\""} + what + "\" x=\"" + number(x) + "\" y=\"" + number(y) + "\" font-size=\"" +
                       number(size) + "\" text-anchor=\"" + anchor + "\"") +
           "\n";
  }

  /// Which one it is as the base is pressed down, from 1.
  std::size_t turn_of(const facts::Gauge& gauge) const {
    return static_cast<std::size_t>(std::find(order_.begin(), order_.end(), &gauge) - order_.begin()) + 1;
  }

  /// A dot at the very place with its name beside it; its depth stands on the plan's inner side of it, as large as a
  /// third of the plan's width takes it.
  std::string depth(const facts::Gauge& g, double x, double y, double wide, double deep, double size) const {
    const bool left = x<0.3 * wide, right = x> 0.7 * wide;
    const double depth_x = x + (left ? -0.2 : right ? 0.2 : 0) * size, depth_y = y + (y > 0.7 * deep ? -1 : 1) * size;
    return "<circle class=\"dot\" cx=\"" + number(x) + "\" cy=\"" + number(y) + "\" r=\"" + number(size / 5) + "\"/>" +
           words("depth", g.clear ? "clear" : len(g.spread_mm), depth_x, depth_y, 1.3 * size,
                 left    ? "start"
                 : right ? "end"
                         : "middle") +
           words("name", escaped(g.name + ", press " + std::to_string(turn_of(g))), x + (right ? -0.45 : 0.45) * size,
                 y, 0.72 * size, right ? "end" : "start");
  }

  Table table() const {
    Table table{"gauge-table",
                "Gauge depths",
                {"Point", "From the left", "From the entry", "To the line", "To the ribs", "Press"}};
    for (const facts::Gauge& g : report_.facts.room.gauges) {
      const survey::Point at = report_.facts.room.faces.told({g.x_mm, g.y_mm});
      const auto up = [&](double mm) { return rules::or_beyond(len(mm), "below"); };
      table.rows.push_back({{escaped(g.name)},
                            {rules::or_beyond(len(at.x), "left of it"), number(at.x)},
                            {rules::or_beyond(len(at.y), "before it"), number(at.y)},
                            {g.clear ? "clear" : element("strong", up(g.spread_mm)), number(g.spread_mm)},
                            {g.clear ? "clear" : up(g.set_mm), number(g.set_mm)},
                            {std::to_string(turn_of(g))}});
    }
    return table;
  }

  /// Filled by script/card.js; without scripts the program's own command is named.
  std::string readings() const {
    return element(
               "div",
               element("p", "With scripts, readings of the rim are typed here and judged at once. Without them: " +
                                element("code", "fallwright level JOB back-left=... back-right=... front-left=...")),
               " id=\"rim\"") +
           "\n";
  }

  const report::Report& report_;
  std::vector<const facts::Gauge*> order_;
};

/// Every mark of a base that is built on site, as a tape reads it down from the level line.
std::string screed_marks(const report::Report& report, const facts::SiteBuilt& site) {
  const job::Job& job = report.job;
  const bool liner = job.base.site.waterproofing == job::Waterproofing::liner;
  const double line = job.base.site.line.in_mm();
  const auto cell = [&](double mm) {
    return Cell{escaped(units::to_text(units::Length::mm(mm), job.is_metric())), units::decimals(mm, 1)};
  };
  Table table{"screed-table",
              "Screed heights, down from the level line",
              {"Along", "At", liner ? "Pre-slope" : "Sloped bed", liner ? "Top coat" : "Tile", "Bed is thick"}};
  const rules::Screed& screed = report.judgement.screed.value();
  for (std::size_t i = 0; i < site.marks.size(); ++i) {
    const facts::ScreedMark& m = site.marks[i];
    const rules::ScreedFigure& figure = screed.figures.at(i);
    const auto down = [&](double mm) {
      return figure.told ? Cell{escaped(rules::text_of_mark(mm, job)), units::decimals(mm, 1)} : Cell{"-", ""};
    };
    table.rows.push_back({{escaped(m.line)},
                          cell(m.along_mm),
                          down(figure.bed_mm),
                          m.top_mm > m.bed_mm ? down(figure.top_mm) : Cell{"-", ""},
                          cell(m.bed_mm - m.subfloor_mm)});
  }
  return element("p", "Screed from the walls to the drain. Every figure is read down from a level line " +
                          element("strong", cell(line).html) + " above the datum.") +
         html_of(table);
}

/// Over the numbers of a base that is rejected: nobody works to them.
std::string held_words(const report::Report& report) {
  const auto& held = report.judgement.holds.base;
  if (!held) return "";
  return element("p", element("span", "HOLD", " class=\"badge fail\"") + " " +
                          element("strong", report.facts.site_built ? "Do not screed by these numbers."
                                                                    : "Do not set the base by these numbers.") +
                          " " + escaped("'" + held->title + "' fails: they change as that is mended."));
}

}  // namespace

std::string card_section(const Subject& subject) {
  if (const auto& site = subject.report.facts.site_built)  // screeded, not pressed: nothing is read on its rim
    return section("card", "Wet-mortar card", held_words(subject.report) + screed_marks(subject.report, *site));
  return section("card", "Wet-mortar card", held_words(subject.report) + Card{subject}.html());
}

}  // namespace fallwright::page
