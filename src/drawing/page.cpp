#include "drawing/page.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <set>
#include <string_view>

#include "drawing/clear.hpp"
#include "drawing/title_block.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

constexpr double binding = 20, edge = 10;  ///< paper mm left of the border, and on its other sides
constexpr double gap = 3;                  ///< between border and drawing

}  // namespace

namespace {

/// Where the word that begins there ends; a number has its unit with it.
std::size_t end_of_word(const std::string& words, std::size_t at) {
  static const std::set<std::string> units{"mm",  "m", "m2", "m3",  "in", "in2", "in3", "ft", "ft2",
                                           "ft3", "L", "mL", "gal", "lb", "kg",  "kN",  "N",  "%"};
  const std::size_t end = std::min(words.find(' ', at), words.size());
  if (end == at || end == words.size() || words[end - 1] < '0' || words[end - 1] > '9') return end;
  const std::size_t next = std::min(words.find(' ', end + 1), words.size());
  const std::size_t plain = std::min(words.find_first_of(";,.:)", end + 1), next);
  return units.count(words.substr(end + 1, plain - end - 1)) ? next : end;
}

/// How wide a word is once sheets' codes stand in the place of their names: how many pages a list takes is known when
/// all are drawn.
double width_with_codes(std::string_view words, double height) {
  if (words.find('{') == std::string_view::npos) return width_of(words, height);
  std::string word{words};
  for (const char* list : {"{order-of-work}", "{cuts}", "{schedules}", "{fastening}", "{inspection}", "{drain-arm}"})
    if (const std::size_t at = word.find(list); at != std::string::npos)
      word.replace(at, std::string{list}.size(), "G-88 to G-88");
  return width_of(word, height);
}

}  // namespace

std::string page_name(const std::string& name, std::size_t page) {
  return page == 1 ? name : name + "-" + std::to_string(page);
}

std::vector<std::string> wrapped(const std::string& words, double width, double height) {
  if (!words.empty() && words.front() != ' ' && width_with_codes(words, height) <= width) return {words};  // most do
  std::vector<std::string> lines;
  std::string line;
  double wide = 0;
  const double blank = width_of(" ", height);
  for (std::size_t at = 0; at <= words.size();) {
    const std::size_t end = end_of_word(words, at);
    const std::string_view word = std::string_view{words}.substr(at, end - at);
    const double own = width_with_codes(word, height);
    if (line.empty()) {
      line = word, wide = own;
    } else if (wide + blank + own > width) {
      lines.push_back(std::move(line)), line = word, wide = own;
    } else {
      line.append(" ").append(word), wide += blank + own;
    }
    at = end + 1;
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

namespace {

Paper paper_for(const job::Job& job, job::PaperSize size) {
  static const Paper papers[] = {
      {"tabloid", 431.8, 279.4}, {"letter", 279.4, 215.9}, {"A3", 420, 297}, {"A4", 297, 210}};
  Paper paper = papers[static_cast<std::size_t>(size)];
  if (is_small(paper)) paper.block_mm = small_block_mm(job, paper);
  return paper;
}

}  // namespace

Paper paper_of(const job::Job& job) {
  return paper_for(job, job.drawings.paper);
}

Paper office_paper(const job::Job& job) {
  const bool american = job.drawings.paper == job::PaperSize::tabloid || job.drawings.paper == job::PaperSize::letter;
  return paper_for(job, american ? job::PaperSize::letter : job::PaperSize::a4);
}

bool is_small(const Paper& paper) {
  constexpr double small_page = 300;  // wide
  return paper.width_mm < small_page;
}

Frame border_of(const Paper& paper) {
  return {binding, edge, paper.width_mm - edge, paper.height_mm - edge};
}

Frame room_on(const Sheet& sheet, const Paper& paper) {
  const Frame f = border_of(paper);
  return {f.x0 + gap, f.y0 + strip_of(sheet, paper) + gap, f.x1 - gap, f.y1 - gap};
}

Page page_from_top(const Sheet& sheet, const Paper& paper) {
  const Frame room = room_on(sheet, paper);
  return {paper, 1, {-room.x0, -room.y1}};
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

const std::vector<double>& scales_of(bool metric) {
  static const std::vector<double> millimetres{1, 2, 5, 10, 20, 50}, inches{1, 2, 4, 8, 12, 16, 24, 32, 48};
  return metric ? millimetres : inches;
}

namespace {

constexpr double note_step = 1.6 * least_letter;  ///< from line to line of notes, on paper

/// Notes that would leave a small page to its strip: they stand beside the drawing, under it, or in it where it is
/// empty.
struct Spill {
  enum class Where { nowhere, beside, below, within };
  std::size_t kept = 0;  ///< that stay in the strip
  std::vector<std::string> lines = {};
  Where where = Where::nowhere;
  double width = 0;  ///< on paper
  Point at = {};     ///< where they begin
};

/// How many of a sheet's notes, from the first on, leave its strip no higher than that.
std::size_t kept_within(double high, const Sheet& sheet, const Paper& paper) {
  Sheet strip{sheet.name, sheet.title};
  strip.holds = sheet.holds, strip.to_scale = sheet.to_scale, strip.own_bars = sheet.own_bars;
  while (strip.notes.size() < sheet.notes.size()) {
    strip.notes.push_back(sheet.notes[strip.notes.size()]);
    if (strip_of(strip, paper) > high) return strip.notes.size() - 1;
  }
  return strip.notes.size();
}

/// All that can be done with a sheet's notes, best first: all in the strip, or all with the drawing, as some here and
/// some there nobody reads in their order. They part only where the drawing would be too small to be read otherwise.
std::vector<Spill> spills_of(const Sheet& sheet, const Paper& paper, double scale) {
  constexpr double high_strip = 56;  // a quarter of the page, and a line or two
  constexpr double well_read = 20;   // one in so many, and half an inch to the foot is not
  const Spill none{sheet.notes.size()};
  if (!is_small(paper)) return {none};
  const bool low = strip_of(sheet, paper) <= high_strip;
  std::vector<Spill> ways;
  if (low) ways.push_back(none);
  const auto add_ways = [&](std::size_t kept) {
    if (kept == sheet.notes.size()) return;
    const auto add = [&](Spill::Where where, double width) {
      ways.push_back({kept, note_lines(sheet.notes, kept, width), where, width});
    };
    for (const double width : {100.0, 80.0, 65.0, 50.0, 40.0}) add(Spill::Where::beside, width);
    add(Spill::Where::below, room_on(sheet, paper).width());
    for (const double width : {100.0, 80.0, 65.0, 50.0}) add(Spill::Where::within, width);
  };
  add_ways(0);
  if (!low) ways.push_back(none);
  if (scale > well_read) add_ways(kept_within(high_strip, sheet, paper));
  return ways;
}

/// The lowest place, at the right of all there is room for, at which a box that high meets nothing that is drawn.
std::optional<Point> empty_place(const Sheet& sheet, const Frame& frame, double right, double wide, double high,
                                 double scale) {
  const double air = 2 * scale;
  const auto is_empty = [&](const Box& box) {
    const auto in_text = [&](const Text& text) { return meet(box_of(text), box); };
    const auto in_line = [&](const Line& line) { return crosses(line, box); };
    const auto in_arc = [&](const Arc& arc) {
      const std::vector<Line> chords = chords_of(arc);
      return std::any_of(chords.begin(), chords.end(), in_line);
    };
    return std::none_of(sheet.texts.begin(), sheet.texts.end(), in_text) &&
           std::none_of(sheet.lines.begin(), sheet.lines.end(), in_line) &&
           std::none_of(sheet.arcs.begin(), sheet.arcs.end(), in_arc);
  };
  for (double foot = frame.y0; foot + high <= frame.y1; foot += note_step * scale)
    if (is_empty({right - wide - air, foot - air, right, foot + high + air})) return Point{right - wide, foot + high};
  return std::nullopt;
}

/// Where they begin, given what is drawn and how wide all may be: beside it they end at its foot, over the title
/// block, which they go on from.
std::optional<Point> top_left_of(const Spill& spill, const Sheet& sheet, const Frame& frame, double room,
                                 double scale) {
  constexpr double off = 3;
  const double high = static_cast<double>(spill.lines.size()) * note_step * scale;
  if (spill.where == Spill::Where::beside) return Point{frame.x1 + off * scale, std::min(frame.y1, frame.y0 + high)};
  if (spill.where == Spill::Where::below) return Point{frame.x0, frame.y0 - off * scale};
  return empty_place(sheet, frame, std::max(frame.x1, frame.x0 + room * scale), spill.width * scale, high, scale);
}

/// The first way with its notes in which a sheet fits its paper.
std::optional<Spill> way_to_fit(const Sheet& sheet, const Paper& paper, double scale) {
  const Frame frame = frame_of(sheet);
  for (Spill& spill : spills_of(sheet, paper, scale)) {
    Sheet strip{sheet.name, sheet.title};
    strip.holds = sheet.holds, strip.to_scale = sheet.to_scale, strip.own_bars = sheet.own_bars;
    strip.notes.assign(sheet.notes.begin(), sheet.notes.begin() + static_cast<std::ptrdiff_t>(spill.kept));
    const Frame room = room_on(strip, paper);
    double width = frame.width(), height = frame.height();
    if (width > room.width() * scale || height > room.height() * scale) continue;
    if (!spill.lines.empty()) {
      const std::optional<Point> at = top_left_of(spill, sheet, frame, room.width(), scale);
      if (!at) continue;
      spill.at = *at;
      const double low = at->y - static_cast<double>(spill.lines.size()) * note_step * scale;
      width = std::max(frame.x1, at->x + spill.width * scale) - frame.x0;
      height = frame.y1 - std::min(frame.y0, low);
    }
    if (width <= room.width() * scale + 1e-6 && height <= room.height() * scale + 1e-6) return std::move(spill);
  }
  return std::nullopt;
}

void write(Sheet& sheet, const Spill& spill, double scale) {
  if (spill.lines.empty()) return;
  Point at = spill.at;
  for (const std::string& line : spill.lines) {
    at.y -= note_step * scale;
    sheet.texts.push_back({at, least_letter * scale, line});
  }
  sheet.notes.resize(spill.kept);
}

/// What can be measured keeps to the rules' scales; pictures fill their page, by steps between them. A hall is drawn at
/// no rule's scale.
std::vector<double> scales_for(const Sheet& sheet) {
  constexpr double finest = 1.08, last = 200;
  std::vector<double> steps{1};
  while (steps.back() * finest < last) steps.push_back(steps.back() * finest);
  std::vector<double> scales = scales_of(sheet.metric);
  if (sheet.to_scale)
    scales.push_back(steps.back());
  else
    scales.insert(scales.end(), steps.begin(), steps.end());
  std::sort(scales.begin(), scales.end());
  return scales;
}

}  // namespace

Sheet on_page(const std::string& name, const std::string& title, const job::Job& job, const Content& content) {
  return *larger_on_page(name, title, job, nullptr, content);
}

std::optional<Sheet> larger_on_page(const std::string& name, const std::string& title, const job::Job& job,
                                    const Sheet* than, const Content& content) {
  const bool metric = job.is_metric();
  const Paper& paper = paper_of(job);
  Sheet sheet;
  const auto draw_at = [&](double scale) {
    sheet = {name, title, metric};
    Pen pen{sheet, letter * scale};
    content(sheet, pen);
    return pen;
  };
  if (!than) draw_at(1);
  std::vector<double> scales = scales_for(than ? *than : sheet);
  if (than) {
    std::erase_if(scales, [&](double scale) { return scale >= than->page.scale; });
    if (scales.empty()) return std::nullopt;
    draw_at(scales.back());
    if (!way_to_fit(sheet, paper, scales.back())) return std::nullopt;
  }
  // Letters only grow from here on, and what stands apart for them: what is too large already need not be tried.
  const Frame least = than ? Frame{} : frame_of(sheet), border = border_of(paper);
  auto scale = std::find_if(scales.begin(), scales.end() - 1, [&](double tried) {
    return least.width() <= border.width() * tried && least.height() <= border.height() * tried;
  });
  if (!sheet.to_scale)  // the smaller a picture the more room it leaves: the first step that may do is found by halves
    scale = std::partition_point(scale, scales.end() - 1, [&](double tried) {
      draw_at(tried);
      return !way_to_fit(sheet, paper, tried);
    });
  for (; scale != scales.end(); ++scale) {
    Pen pen = draw_at(*scale);
    const bool last = !than && scale == scales.end() - 1;
    if (!last && !way_to_fit(sheet, paper, *scale)) continue;
    pen.part_texts();
    const std::optional<Spill> spill = way_to_fit(sheet, paper, *scale);
    if (!last && !spill) continue;
    if (spill) write(sheet, *spill, *scale);
    const Frame room = room_on(sheet, paper), frame = frame_of(sheet);
    sheet.page = {paper,
                  *scale,
                  {(frame.x0 + frame.x1 - (room.x0 + room.x1) * *scale) / 2,
                   (frame.y0 + frame.y1 - (room.y0 + room.y1) * *scale) / 2}};
    return sheet;
  }
  return std::nullopt;
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

std::string scale_text(double scale, bool metric) {
  const std::string ratio = "1:" + units::decimals(scale, 0);
  if (metric || scale == 1) return scale == 1 ? "1:1, full size" : ratio;
  return ratio + " (" + units::to_inches(units::Length::inches(12 / scale)) + " = 1')";
}

}  // namespace fallwright::drawing
