#include "drawing/page.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "units/length.hpp"
#include "units/letters.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

constexpr double margin = 8, strip = 31, block = 104;  ///< paper mm: edge, height of the title block, its right part
constexpr double letter = 2.5;                         ///< height of ordinary text on paper
constexpr double gap = 3;                              ///< between border and drawing

/// Works in paper millimetres on a sheet that has a page.
class Paperwork {
 public:
  explicit Paperwork(Sheet& sheet) : sheet_{sheet} {}
  Point at(double x, double y) const {
    const Page& p = sheet_.page;
    return {p.corner.x + x * p.scale, p.corner.y + y * p.scale};
  }
  void line(double x0, double y0, double x1, double y1) {
    sheet_.lines.push_back({at(x0, y0), at(x1, y1), LineKind::sheet});
  }
  void rectangle(double x0, double y0, double x1, double y1) {
    line(x0, y0, x1, y0), line(x1, y0, x1, y1), line(x1, y1, x0, y1), line(x0, y1, x0, y0);
  }
  void text(double x, double y, const std::string& words, double height = letter, Anchor anchor = Anchor::left) {
    sheet_.texts.push_back({at(x, y), height * sheet_.page.scale, words, 0, anchor});
  }

 private:
  Sheet& sheet_;
};

/// A bar to lay a rule against, with a tick at every whole part.
void check_bar(Paperwork& paper, double x, double y, double part, int parts, const std::string& words) {
  paper.line(x, y, x + part * parts, y);
  for (int i = 0; i <= parts; ++i) paper.line(x + i * part, y, x + i * part, y + (i == 0 || i == parts ? 2.4 : 1.4));
  paper.text(x + 1, y + 0.5, words, 1.7);
}

const char* hand_of(const job::Job& job) {
  if (!job.bench) return "NO BENCH";
  switch (job.bench->place) {
    case job::Side::left:
      return "BENCH LEFT";
    case job::Side::right:
      return "BENCH RIGHT";
    default:  // at the back
      break;
  }
  return "BENCH BACK";
}

/// A job's name may be longer than its place.
std::string shortened(const std::string& words, std::size_t letters) {
  return units::letter_count(words) <= letters ? words : units::first_letters(words, letters - 3) + "...";
}

/// What all sheets of a job share in their title blocks.
struct Heading {
  const job::Job& job;
  std::size_t sheets = 0;
  std::string warning;  ///< of checks that fail; empty when none does
};

std::string warning_of(const std::vector<rules::Result>& results) {
  const auto fails = std::count_if(results.begin(), results.end(),
                                   [](const rules::Result& r) { return r.outcome == rules::Outcome::fail; });
  if (fails == 0) return "";
  return std::to_string(fails) + (fails == 1 ? " CHECK FAILS" : " CHECKS FAIL") + ": see the inspection sheet";
}

/// The right part: what the sheet is and of which job.
void add_heading(Paperwork& paper, const Sheet& sheet, const Heading& heading, std::size_t number) {
  const job::Job& job = heading.job;
  const double right = sheet.page.paper.width_mm - margin, left = right - block + 2;
  double y = margin + strip - 6;
  const auto row = [&](double step, const std::string& words, double height, const std::string& at_right) {
    y -= step;
    paper.text(left, y, words, height);
    if (!at_right.empty()) paper.text(right - 2, y, at_right, std::min(height, letter), Anchor::right);
  };
  row(0, sheet.title, 3.6, "");
  row(4.2, shortened(job.name, 60), letter, "");
  row(4.7, hand_of(job), 3.4, "sheet " + std::to_string(number) + " of " + std::to_string(heading.sheets));
  if (!heading.warning.empty()) row(4.2, heading.warning, 2.9, "");
  row(4.1, sheet.to_scale ? "scale " + scale_text(sheet.page.scale, sheet.metric) : "no scale", 2.2,
      sheet.metric ? "lengths in mm" : "lengths in inches");
  row(4.1, std::string{"limits: "} + (job.limits.empty() ? "the book's" : "the job's own"), 2.2,
      "job file " + job.sha256.substr(0, 12));
}

/// The left part: the sheet's notes, and bars where there is something to measure.
void add_notes(Paperwork& paper, const Sheet& sheet) {
  if (sheet.to_scale) {
    check_bar(paper, margin + 2, margin + 7.4, 25.4, 6, "6 in");
    check_bar(paper, margin + 2, margin + 2.6, 10, 15, "150 mm");
  }
  const double width = sheet.page.paper.width_mm - 2 * margin - block - 4;
  const auto letters = static_cast<std::size_t>(width / (letter_width * 2.0));
  std::vector<std::string> notes = sheet.notes;
  notes.push_back(std::string{sheet.to_scale ? "Not to scale unless the bars measure 6 in and 150 mm. " : ""} +
                  "Check every length on site; local code decides.");
  double y = margin + strip - 3.2;
  for (const std::string& note : notes)
    for (const std::string& line : wrapped(note, letters)) {
      paper.text(margin + 2, y, line, 2.0);
      y -= 2.9;
    }
}

void title_block(Sheet& sheet, const Heading& heading, std::size_t number) {
  Paperwork paper{sheet};
  const double right = sheet.page.paper.width_mm - margin, top = sheet.page.paper.height_mm - margin;
  const double wall = right - block, base = margin + strip;
  paper.rectangle(margin, margin, right, top);
  paper.line(margin, base, right, base);
  paper.line(wall, margin, wall, base);
  add_heading(paper, sheet, heading, number);
  add_notes(paper, sheet);
}

}  // namespace

std::vector<std::string> wrapped(const std::string& words, std::size_t letters) {
  std::vector<std::string> lines;
  std::string line;
  for (std::size_t at = 0; at <= words.size();) {
    const std::size_t end = std::min(words.find(' ', at), words.size());
    const std::string word = words.substr(at, end - at);
    if (!line.empty() && units::letter_count(line) + 1 + units::letter_count(word) > letters)
      lines.push_back(line), line.clear();
    line += (line.empty() ? "" : " ") + word;
    at = end + 1;
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

const std::vector<Paper>& papers_of(bool metric) {
  static const std::vector<Paper> inches{{"letter", 279.4, 215.9}, {"tabloid", 431.8, 279.4}};
  static const std::vector<Paper> millimetres{{"A4", 297, 210}, {"A3", 420, 297}};
  return metric ? millimetres : inches;
}

Room room_of(const Paper& paper) {
  return {paper.width_mm - 2 * (margin + gap), paper.height_mm - 2 * (margin + gap) - strip};
}

Frame frame_of(const Sheet& sheet) {
  constexpr double far = std::numeric_limits<double>::max();
  Frame frame{far, far, -far, -far};
  const auto add = [&](double x, double y) {
    frame.x0 = std::min(frame.x0, x), frame.x1 = std::max(frame.x1, x);
    frame.y0 = std::min(frame.y0, y), frame.y1 = std::max(frame.y1, y);
  };
  for (const Line& line : sheet.lines) add(line.from.x, line.from.y), add(line.to.x, line.to.y);
  for (const Arc& arc : sheet.arcs) {
    add(arc.centre.x - arc.radius, arc.centre.y - arc.radius);
    add(arc.centre.x + arc.radius, arc.centre.y + arc.radius);
  }
  for (const Text& text : sheet.texts) {
    const Box box = box_of(text);
    add(box.x0, box.y0);
    add(box.x1, box.y1);
  }
  return frame.x1 < frame.x0 ? Frame{} : frame;
}

Sheet on_page(const std::string& name, const std::string& title, const job::Job& job, const Content& content) {
  const bool metric = job.unit == job::UnitSystem::metric;
  const std::vector<double> scales = metric ? std::vector<double>{1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 100}
                                            : std::vector<double>{1, 2, 4, 6, 8, 12, 16, 24, 32, 48, 96};
  Sheet sheet;
  for (const double scale : scales)
    for (const Paper& paper : papers_of(metric)) {
      sheet = {name, title, metric};
      Pen pen{sheet, letter * scale};
      content(sheet, pen);
      const Room room = room_of(paper);
      const auto fits = [&] {
        const Frame frame = frame_of(sheet);
        return frame.width() <= room.width * scale && frame.height() <= room.height * scale;
      };
      if (!fits() && scale != scales.back()) continue;
      pen.part_texts();
      if (!fits() && scale != scales.back()) continue;
      const Frame frame = frame_of(sheet);
      const double x = (frame.x0 + frame.x1) / 2 - paper.width_mm / 2 * scale;
      const double y = (frame.y0 + frame.y1) / 2 - (margin + strip + gap + room.height / 2) * scale;
      sheet.page = {paper, scale, {x, y}};
      return sheet;
    }
  return sheet;
}

Page page_at(const job::Job& job, double scale, Point corner) {
  return {papers_of(job.unit == job::UnitSystem::metric).front(), scale, corner};
}

void keep_on_page(Sheet& sheet, const Frame& f) {
  std::vector<Line> lines;
  for (Line line : sheet.lines) {
    // Liang and Barsky: shares of the line that lie within each pair of borders.
    double from = 0, to = 1;
    const double dx = line.to.x - line.from.x, dy = line.to.y - line.from.y;
    const double p[] = {-dx, dx, -dy, dy},
                 q[] = {line.from.x - f.x0, f.x1 - line.from.x, line.from.y - f.y0, f.y1 - line.from.y};
    for (int i = 0; i < 4; ++i) {
      if (p[i] == 0 && q[i] < 0) from = 2;
      if (p[i] < 0) from = std::max(from, q[i] / p[i]);
      if (p[i] > 0) to = std::min(to, q[i] / p[i]);
    }
    if (from >= to) continue;
    const Point a = line.from;
    line.from = {a.x + from * dx, a.y + from * dy};
    line.to = {a.x + to * dx, a.y + to * dy};
    lines.push_back(line);
  }
  sheet.lines = std::move(lines);
  for (Dimension& dimension : sheet.dimensions) dimension.picture.reset();  // its lines have other places now
  std::vector<Arc> arcs;
  for (const Arc& arc : sheet.arcs) {
    const auto inside = [&](double degrees) {
      const double x = arc.centre.x + arc.radius * std::cos(degrees * M_PI / 180);
      const double y = arc.centre.y + arc.radius * std::sin(degrees * M_PI / 180);
      return x >= f.x0 && x <= f.x1 && y >= f.y0 && y <= f.y1;
    };
    bool whole = true;
    for (double d = arc.from_deg; d < arc.to_deg; d += 1) whole = whole && inside(d);
    if (whole) arcs.push_back(arc);
    for (double d = arc.from_deg; !whole && d < arc.to_deg; d += 1) {  // degree by degree, as far as it reaches
      const double to = std::min(d + 1, arc.to_deg);
      if (inside(d) && inside(to)) arcs.push_back({arc.centre, arc.radius, d, to, arc.kind});
    }
  }
  sheet.arcs = std::move(arcs);
  std::erase_if(sheet.texts, [&](const Text& t) {
    const Box b = box_of(t);
    return b.x0 < f.x0 || b.x1 > f.x1 || b.y0 < f.y0 || b.y1 > f.y1;
  });
}

void add_title_blocks(std::vector<Sheet>& sheets, const job::Job& job, const std::vector<rules::Result>& results) {
  Heading heading{job, 0, warning_of(results)};
  std::size_t number = 0;
  for (const Sheet& sheet : sheets) heading.sheets += sheet.page.paper.width_mm > 0;
  for (Sheet& sheet : sheets)
    if (sheet.page.paper.width_mm > 0) title_block(sheet, heading, ++number);
}

std::string scale_text(double scale, bool metric) {
  const std::string ratio = "1:" + units::decimals(scale, 0);
  if (metric || scale == 1) return scale == 1 ? "1:1, full size" : ratio;
  return ratio + " (" + units::to_inches(units::Length::inches(12 / scale)) + " = 1')";
}

}  // namespace fallwright::drawing
