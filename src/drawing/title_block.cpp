#include "drawing/title_block.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "drawing/views.hpp"
#include "rules/check.hpp"
#include "rules/rule_book.hpp"
#include "units/length.hpp"
#include "units/letters.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

constexpr double wide_block = 180;            ///< of the title block on a large page
constexpr double key_field = 44;              ///< of the key plan
constexpr double bars = 12, bar_field = 160;  ///< height of the check bars, and the width they need
constexpr double step = 1.6 * least_letter;   ///< from line to line
constexpr double warning_bar = 6;             ///< of what fails
constexpr double margin = 1.2;                ///< between a field's edge and its words

bool has_bars(const Sheet& sheet) {
  return sheet.to_scale && !sheet.own_bars;
}

double block_width(const Paper& paper) {
  const Frame f = border_of(paper);
  return is_small(paper) ? f.width() - bar_field : wide_block;
}

/// The strip's fields from the left: notes over check bars, key plan, title block.
struct Fields {
  double notes = 0, key = 0, block = 0, right = 0;  ///< left edges, and the border's right
  double least = 0;                                 ///< height that key plan and title block need
};

Fields fields_of(const Paper& paper) {
  const Frame f = border_of(paper);
  const double block = f.x1 - block_width(paper);
  return {f.x0, block - key_field, block, f.x1, paper.block_mm};
}

std::vector<std::string> lines_in_strip(const Sheet& sheet, const Paper& paper) {
  const Fields at = fields_of(paper);
  return note_lines(sheet.notes, 0, at.key - at.notes - 2 * margin - 2);
}

/// A bar to lay a rule against, with a tick at every whole part.
void check_bar(Paperwork& paper, double x, double y, double part, int parts, const std::string& words) {
  paper.line(x, y, x + part * parts, y);
  for (int i = 0; i <= parts; ++i) paper.line(x + i * part, y, x + i * part, y + (i == 0 || i == parts ? 3.4 : 1.4));
  paper.text(x + 1, y + 1.7, words, least_letter);
}

/// Of failing checks, and where they are told; nothing when none fails.
std::string warning_with_place(const std::vector<Sheet>& sheets, const Heading& heading) {
  const std::string warning = warning_of(heading.results, heading.as_built);
  return warning.empty() ? "" : warning + ": see " + places_of_failures(sheets);
}

/// Of what nobody does by a sheet.
double hold_bar(const Paper& paper) {
  return is_small(paper) ? 6 : 8;
}

/// The largest of the letters in which a line of capitals keeps to a width.
double height_within(const std::string& words, double width) {
  constexpr std::array heights{5.0, 3.5, letter, least_letter};
  return *std::find_if(heights.begin(), heights.end() - 1, [&](double h) { return width_of(words, h) <= width; });
}

/// How wide the field of a page's first hold is: beside what fails, where both find room in one bar.
double beside_warning(const Sheet& sheet, const Paper& page) {
  const Fields at = fields_of(page);
  const double width = at.key - at.notes - width_of("99 CHECKS FAIL: see I-01, I-02, I-03", letter) - 4 * margin;
  return !sheet.holds.empty() && width_of(sheet.holds.front(), 3.5) <= width - 2 * margin ? width : 0;
}

/// What fails, and under it what nobody does by this sheet until that is mended. @return how far down that reaches
double add_bars_of_warning(Paperwork& paper, const Sheet& sheet, const Frame& strip, const std::string& warning) {
  if (warning.empty()) return strip.y1;
  const Fields at = fields_of(sheet.page.paper);
  const double beside = beside_warning(sheet, sheet.page.paper),
               first = beside > 0 ? hold_bar(sheet.page.paper) : warning_bar, split = at.key - beside;
  double y = strip.y1 - first;
  paper.rectangle({at.notes, y, at.key, strip.y1}, LineKind::frame);
  paper.text((at.notes + split) / 2, y + (first - letter) / 2, warning, letter, Anchor::middle);
  for (std::size_t i = 0; i < sheet.holds.size(); ++i) {
    const bool in_first = i == 0 && beside > 0;
    const Frame bar =
        in_first ? Frame{split, y, at.key, strip.y1} : Frame{at.notes, y - hold_bar(sheet.page.paper), at.key, y};
    paper.rectangle(bar, LineKind::frame);
    const double height =
        std::min(height_within(sheet.holds[i], bar.width() - 2 * margin), is_small(sheet.page.paper) ? 3.5 : 5);
    paper.text((bar.x0 + bar.x1) / 2, (bar.y0 + bar.y1 - height) / 2, sheet.holds[i], height, Anchor::middle);
    y = bar.y0;
  }
  return y;
}

void add_notes(Paperwork& paper, const Sheet& sheet, const Frame& strip, const std::string& warning) {
  const Fields at = fields_of(sheet.page.paper);
  double y = add_bars_of_warning(paper, sheet, strip, warning);
  for (const std::string& line : lines_in_strip(sheet, sheet.page.paper))
    paper.text(at.notes + margin + 1, y -= step, line);
  if (!has_bars(sheet)) return;
  check_bar(paper, at.notes + 2, strip.y0 + 7, units::inch_mm, 6, "6 in");
  check_bar(paper, at.notes + 2, strip.y0 + 1.6, 10, 15, "150 mm");
}

/// One field of the title block.
struct Cell {
  double share = 1;
  std::string words;
  double height = least_letter;
  int lines = 1;
};

/// Words in so many lines at most. What is too long loses words of its middle, since what tells one flat from another
/// stands at the end; one word that is too long by itself is cut.
std::vector<std::string> fitted(const std::string& words, double width, double height, std::size_t most) {
  std::vector<std::string> lines = wrapped(words, width, height);
  const auto too_wide = [&] {
    return lines.size() > most || std::any_of(lines.begin(), lines.end(),
                                              [&](const std::string& line) { return width_of(line, height) > width; });
  };
  if (!too_wide()) return lines;
  const std::u32string all = units::letters_of(words);
  const auto shortened = [&](std::size_t head, std::size_t tail) {
    lines = wrapped(units::to_utf8(all.substr(0, head)) + "... " + units::to_utf8(all.substr(tail)), width, height);
  };
  const auto is_space = [](char32_t letter) { return letter == U' '; };
  for (std::size_t dropped = 1; dropped < all.size() && too_wide(); ++dropped) {
    // Outward from the middle to the next ends of words.
    const auto left = static_cast<std::ptrdiff_t>((all.size() - dropped) / 2);
    const auto right = left + static_cast<std::ptrdiff_t>(dropped);
    const auto head = std::find_if(std::make_reverse_iterator(all.begin() + left), all.rend(), is_space);
    const auto tail = std::find_if(all.begin() + right, all.end(), is_space);
    if (head == all.rend() || tail == all.end()) break;
    shortened(static_cast<std::size_t>(all.rend() - head) - 1, static_cast<std::size_t>(tail - all.begin()) + 1);
  }
  constexpr double narrowest = 0.2;  // letter, in heights
  for (std::size_t kept =
           std::min(all.size(), static_cast<std::size_t>(static_cast<double>(most) * width / (narrowest * height)));
       kept > 0 && too_wide(); --kept)
    shortened(kept / 2, all.size() - kept + kept / 2);
  return lines;
}

/// The words in their field, in letters as large as it allows.
void fill(Paperwork& paper, const Frame& field, const Cell& cell) {
  const double width = field.width() - 2 * margin;
  // The paper under letters is left white a little way about them: no rule may run there.
  constexpr double white = 0.2, rule = 0.2, tails = 0.25;  // in letter heights; in mm, tails of a last line's letters
  double height = std::max(least_letter, std::min(cell.height, (field.height() - 2 * rule) / (1 + 2 * white)));
  const double air = white * least_letter + rule;
  while (height > least_letter && width_of(cell.words, height) > width) height = std::max(least_letter, height - 0.5);
  const bool low = field.height() < 2 * height + 3 * air;
  const auto lines = fitted(cell.words, width, height, low ? 1 : static_cast<std::size_t>(cell.lines));
  const double others = static_cast<double>(lines.size()) - 1,
               apart = others > 0 ? std::min(step, (field.height() - 2 * (air + tails) - height) / others) : 0;
  double y = (field.y0 + field.y1 + others * apart + height) / 2 - height;
  for (const std::string& line : lines) paper.text(field.x0 + margin, y, line, height), y -= apart;
}

struct Row {
  double height = 5;
  std::vector<Cell> cells;
};

/// The rule book, and whether the job has limits of its own; on small paper in as few words as one line takes.
std::string limits_told(const job::Job& job, double one_line) {
  const std::string title = rules::book(job.book).title, start = "limits: ";
  const bool own = !job.limits.empty();
  const std::string all = start + title + (own ? ", some the job's own" : "");
  const std::size_t country = title.find(": ");
  if (country == std::string::npos || title.find(": ", country + 1) != std::string::npos) return all;
  const std::string fewer = start + title.substr(country + 2) + (own ? ", some the job's own" : "");
  return width_of(all, least_letter) > one_line && width_of(fewer, least_letter) <= one_line ? fewer : all;
}

std::string origin_told(const job::Job& job) {
  return "O: " + origin_words(job) + ".  DATUM: highest subfloor spot under the base";
}

/// Heights of the rows on small paper, each as its letters and the air about them take.
struct SmallRows {
  double title = 5.4, name = 4.4, line = 3.95, limits = 3.95, origin = 8.2;
  double whole() const { return title + name + 3 * line + limits + origin; }
};
constexpr double name_share = 3.4, kind_share = 1;  // of the name's row

SmallRows small_rows(const job::Job& job, double width) {
  constexpr double two_lines = 8.2;
  SmallRows rows;
  const auto in_one = [](const std::string& words, double field) {
    return width_of(words, least_letter) < field - 2 * margin;
  };
  if (!in_one(job.name, width * name_share / (name_share + kind_share))) rows.name = two_lines;
  if (!in_one(limits_told(job, width - 2 * margin), width)) rows.limits = two_lines;
  return rows;
}

std::vector<Row> rows_of(const Sheet& sheet, const Heading& heading, std::size_t number, std::size_t sheets) {
  const job::Job& job = heading.job;
  const bool small = is_small(sheet.page.paper);
  const double width = block_width(sheet.page.paper);
  const std::string of = "sheet " + std::to_string(number) + " of " + std::to_string(sheets),
                    scale = sheet.to_scale ? "scale " + scale_text(sheet.page.scale, sheet.metric) : "no scale",
                    set = std::string{paper_of(job).name} + " set",  // codes differ from paper to paper
      unit = sheet.metric ? "lengths in mm" : "lengths in inches", hash = "job file " + job.sha256.substr(0, 12),
                    date = "date " + heading.date, kind = document_kind(sheet),
                    limits = limits_told(job, small ? width - 2 * margin : HUGE_VAL),
                    revision = job.revisions.empty() ? "revision" : "revision " + job.revisions.back().mark;
  if (!small)
    return {{10, {{5, sheet.title, 5}, {1.6, sheet.code, 7}}},
            {7.8, {{5, job.name, 4, 2}, {1.6, of, 3}}},
            {4.8, {{2, hand_of(job), 3}, {1.5, kind, 3}, {2.4, scale}, {1.3, set}, {1.8, unit}}},
            {4.8, {{2, date}, {2.4, revision}, {2.2, "checked by"}}},
            {7.8, {{4.4, limits, least_letter, 2}, {2.2, hash}}},
            {4.8, {{1, origin_told(job)}}},
            {4.8, {{1, "Look at the job's other sheets before cutting or boring; local code decides."}}}};
  const SmallRows high = small_rows(job, width);
  return {{high.title, {{3.4, sheet.title, 3.5}, {1, sheet.code, 3.5}}},
          {high.name, {{name_share, job.name, 3, 2}, {kind_share, kind}}},
          {high.line, {{1, hand_of(job), 3}, {1, of}, {1.45, hash}}},
          {high.line, {{1.33, scale}, {0.7, set}, {1, unit}}},
          {high.line, {{1.2, date}, {1, revision}, {1.4, "checked by"}}},
          {high.limits, {{1, limits, least_letter, 2}}},
          {high.origin, {{1, origin_told(job), least_letter, 2}}}};
}

void add_heading(Paperwork& paper, const Frame& block, const std::vector<Row>& rows) {
  double y = block.y1, whole = 0;
  for (const Row& row : rows) whole += row.height;
  for (const Row& row : rows) {
    const double height = row.height * block.height() / whole;
    double shares = 0, x = block.x0;
    for (const Cell& cell : row.cells) shares += cell.share;
    for (const Cell& cell : row.cells) {
      const double width = cell.share / shares * block.width();
      fill(paper, {x, y - height, x + width, y}, cell);
      if (x > block.x0) paper.line(x, y, x, y - height);
      x += width;
    }
    y -= height;
    if (y > block.y0 + 0.1) paper.line(block.x0, y, block.x1, y);
  }
}

/// Short marks through the border at the middles of its sides, to lay copies true.
void add_border(Paperwork& paper, const Frame& f) {
  paper.rectangle(f, LineKind::frame);
  const double x = (f.x0 + f.x1) / 2, y = (f.y0 + f.y1) / 2, out = 2.5;
  paper.line(x, f.y0 - out, x, f.y0, LineKind::frame);
  paper.line(x, f.y1, x, f.y1 + out, LineKind::frame);
  paper.line(f.x0 - out, y, f.x0, y, LineKind::frame);
  paper.line(f.x1, y, f.x1 + out, y, LineKind::frame);
}

}  // namespace

Point Paperwork::at(double x, double y) const {
  const Page& p = sheet_.page;
  return {p.corner.x + x * p.scale, p.corner.y + y * p.scale};
}

void Paperwork::line(double x0, double y0, double x1, double y1, LineKind kind) {
  sheet_.lines.push_back({at(x0, y0), at(x1, y1), kind});
}

void Paperwork::rectangle(const Frame& f, LineKind kind) {
  line(f.x0, f.y0, f.x1, f.y0, kind), line(f.x1, f.y0, f.x1, f.y1, kind);
  line(f.x1, f.y1, f.x0, f.y1, kind), line(f.x0, f.y1, f.x0, f.y0, kind);
}

void Paperwork::circle(double x, double y, double radius, LineKind kind) {
  sheet_.arcs.push_back({at(x, y), radius * sheet_.page.scale, 0, 360, kind});
}

void Paperwork::text(double x, double y, const std::string& words, double height, Anchor anchor, double turn_deg) {
  sheet_.texts.push_back({at(x, y), height * sheet_.page.scale, words, turn_deg, anchor});
}

double small_block_mm(const job::Job& job, const Paper& paper) {
  constexpr double least = 34;  // for the key plan
  return std::max(least, small_rows(job, block_width(paper)).whole());
}

const char* document_kind(const Sheet& sheet) {
  struct Named {
    std::string_view begin;
    const char* kind;
  };
  // Of two that begin alike the longer one first.
  static constexpr Named kinds[] = {{"cover-legend", "legend"},
                                    {"cover", "index"},
                                    {"assembly", "picture"},
                                    {"exploded", "picture"},
                                    {"steps", "picture"},
                                    {"drain-flange", "detail"},
                                    {"drain-plan", "plan"},
                                    {"drain-arm", "section"},
                                    {"drain", "section"},
                                    {"plan", "plan"},
                                    {"bench-plan", "plan"},
                                    {"bench-front", "elevation"},
                                    {"bench-side", "elevation"},
                                    {"bench-section", "section"},
                                    {"bench-joints", "detail"},
                                    {"bench-wall", "detail"},
                                    {"bench-apron", "detail"},
                                    {"wall-upstand", "detail"},
                                    {"wall-left-furring", "detail"},
                                    {"wall-right-furring", "detail"},
                                    {"wall-", "elevation"},
                                    {"falls", "plan"},
                                    {"bed-threshold", "detail"},
                                    {"bed-depths", "list"},
                                    {"bed", "plan"},
                                    {"screed-sections", "section"},
                                    {"screed-", "detail"},
                                    {"screed", "plan"},
                                    {"cuts-shapes", "layout"},
                                    {"sticks", "layout"}};
  if (sheet.own_bars) return "template";
  if (sheet.title.starts_with("Study: ")) return "study";
  if (sheet.name.ends_with("-table")) return "list";
  for (const Named& named : kinds)
    if (sheet.name.starts_with(named.begin)) return named.kind;
  return "list";
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

std::string places_of_failures(const std::vector<Sheet>& sheets) {
  std::vector<std::string> codes;
  for (const Sheet& sheet : sheets)
    if (sheet.name.starts_with("inspection") &&
        std::any_of(sheet.texts.begin(), sheet.texts.end(), [](const Text& text) { return text.words == fails_word; }))
      codes.push_back(sheet.code);
  constexpr std::size_t most = 3;  // that the bar over the title block takes
  return codes.empty()          ? "the inspection sheet"
         : codes.size() <= most ? units::joined(codes)
                                : codes.front() + " to " + codes.back();
}

std::string warning_of(const std::vector<rules::Result>& results, const std::vector<rules::BuiltRow>* as_built) {
  const auto fails = rules::count(results, rules::Outcome::fail);
  if (fails > 0) return std::to_string(fails) + (fails == 1 ? " CHECK FAILS" : " CHECKS FAIL");
  const bool built = as_built && std::any_of(as_built->begin(), as_built->end(), [](const rules::BuiltRow& row) {
                       return row.outcome == rules::Outcome::fail;
                     });
  return built ? "THE RECORD OF WHAT WAS BUILT FAILS" : "";
}

std::vector<std::string> note_lines(const std::vector<std::string>& notes, std::size_t from, double width) {
  std::vector<std::string> lines;
  const std::string indent = "    ";
  for (std::size_t i = from; i < notes.size(); ++i) {
    const std::string head = std::to_string(i + 1) + "  ";
    for (const std::string& line : wrapped(head + notes[i], width - width_of(indent, least_letter), least_letter))
      lines.push_back((line.starts_with(head) ? "" : indent) + line);
  }
  return lines;
}

/// As high as the title block needs, or as the notes do, with a line for what fails.
double strip_of(const Sheet& sheet, const Paper& paper) {
  const double lines = static_cast<double>(lines_in_strip(sheet, paper).size());
  const bool beside = beside_warning(sheet, paper) > 0;
  const double own = static_cast<double>(sheet.holds.size()) - (beside ? 1 : 0),
               warnings = (beside ? hold_bar(paper) : warning_bar) + own * hold_bar(paper);
  return std::max(fields_of(paper).least, warnings + lines * step + 2 + (has_bars(sheet) ? bars : 0));
}

void add_title_blocks(std::vector<Sheet>& sheets, const Heading& heading) {
  const std::string warning = warning_with_place(sheets, heading);
  const auto on_paper = [](const Sheet& sheet) { return sheet.page.paper.width_mm > 0; };
  const auto count = static_cast<std::size_t>(std::count_if(sheets.begin(), sheets.end(), on_paper));
  std::size_t number = 0;
  for (Sheet& sheet : sheets) {
    if (!on_paper(sheet)) continue;
    Paperwork paper{sheet};
    const Frame f = border_of(sheet.page.paper);
    const Fields at = fields_of(sheet.page.paper);
    const Frame strip{f.x0, f.y0, f.x1, f.y0 + strip_of(sheet, sheet.page.paper)};
    add_border(paper, f);
    // Key plan and title block are as high on every sheet: only the notes grow.
    const double top = strip.y0 + at.least;
    paper.line(strip.x0, strip.y1, at.key, strip.y1);
    paper.line(at.key, top, strip.x1, top);
    const double foot = is_small(sheet.page.paper) && has_bars(sheet) ? bars - 2 : 0;  // the bars reach below the plan
    paper.line(at.key, strip.y0 + foot, at.key, strip.y1);
    if (foot > 0) paper.line(at.key, strip.y0 + foot, at.block, strip.y0 + foot);
    paper.line(at.block, strip.y0, at.block, top);
    add_notes(paper, sheet, strip, warning);
    add_key_plan(paper, {at.key, strip.y0 + foot, at.block, top}, sheet, heading.job);
    add_heading(paper, {at.block, strip.y0, at.right, top}, rows_of(sheet, heading, ++number, count));
  }
}

}  // namespace fallwright::drawing
