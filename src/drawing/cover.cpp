#include <algorithm>
#include <array>

#include "drawing/hatch.hpp"
#include "drawing/sheets.hpp"
#include "drawing/table.hpp"
#include "drawing/title_block.hpp"
#include "drawing/views.hpp"
#include "rules/words.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

constexpr double between = 6;  ///< columns of the page, paper mm

const char* reader_of(char letter) {
  switch (letter) {
    case 'P':
      return "plumber";
    case 'F':
      return "framer";
    case 'S':
      return "setter, tiler";
    case 'B':
      return "buyer";
    case 'I':
      return "inspector";
    default:
      break;
  }
  return "everybody";
}

std::vector<Column> index_columns() {
  return {{"code", 1}, {"sheet", 4.4}, {"for", 2.1}, {"scale", 1}};
}

/// One line for each sheet; tiles of one drawing share that of the first.
std::vector<Cells> index_rows(const std::vector<Sheet>& all) {
  std::vector<Cells> rows;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Sheet& sheet = all[i];
    if (sheet.own_bars && i > 0 && all[i - 1].title == sheet.title) {
      rows.back()[1] = sheet.title + ", pages to " + sheet.code;
      continue;
    }
    const bool drawn = sheet.page.paper.width_mm > 0 && sheet.to_scale;
    rows.push_back({sheet.code, sheet.title, reader_of(sheet.code.front()),
                    drawn ? "1:" + units::decimals(sheet.page.scale, 0) : ""});
  }
  return rows;
}

/// The first sheet, at full size on the set's paper, in columns.
class Cover {
 public:
  Cover(const Subject& subject, const std::vector<Sheet>& others, Sheet& sheet, Pen& pen, const Frame& room)
      : s_{subject}, others_{others}, sheet_{sheet}, pen_{pen}, width_{room.width()}, height_{room.height()} {}

  /// All on one page.
  void draw() {
    const double first = 0.42 * width_, second = 0.3 * width_, x1 = first + between, x2 = x1 + second + between;
    double y = picture(first);
    y = materials({0, legend({0, y}, first)}, first);
    const double below_index = index({x1, 0}, second);
    const double third = width_ - x2, below = signatures({x2, general({x2, 0}, third)}, third);
    failing({{{x2, below}, third}, {{x1, below_index}, second}, {{0, y}, first}});
  }

  /// All but picture and index.
  void draw_legend() {
    const double first = 0.5 * width_, x = first + between;
    double y = legend({0, 0}, first);
    y = materials({0, y}, first);
    failing({{{0, y}, first}, {{x, signatures({x, general({x, 0}, width_ - x)}, width_ - x)}, width_ - x}});
  }

 private:
  double headline(Point at, const std::string& words) {
    pen_.note({at.x, at.y - 4}, words, Anchor::left, 3.5 / least_letter);
    return at.y - 6;
  }

  /// The room as it will stand, numbered in the order of work, from the sheet that shows it large. @return how far down
  /// it reaches.
  double picture(double width) {
    const double high = 0.56 * height_, top = headline({0, 0}, "The alcove when all stands, by step of its work");
    const auto assembly =
        std::find_if(others_.begin(), others_.end(), [](const Sheet& sheet) { return sheet.name == "assembly"; });
    if (assembly == others_.end()) return top;
    Sheet shown;  // without the names of what is numbered
    for (const Line& line : assembly->lines)
      if (line.kind == LineKind::outline || line.kind == LineKind::existing || line.kind == LineKind::dimension ||
          line.kind == LineKind::rejected)
        shown.lines.push_back(line);
    shown.arcs = assembly->arcs;  // about the numbers: for their room alone
    const Frame f = frame_of(shown);
    const double scale = std::min(width / f.width(), (high + top) / f.height());
    const auto at = [&](Point p) { return Point{(p.x - f.x0) * scale, top - (f.y1 - p.y) * scale}; };
    for (const Line& line : shown.lines) pen_.line(at(line.from), at(line.to), line.kind);
    for (const Text& text : assembly->texts)
      if (text.words.find_first_not_of("0123456789") == std::string::npos) {
        const Point middle = at({text.at.x, text.at.y + text.height / 2});
        pen_.note({middle.x, middle.y - least_letter / 2}, text.words, Anchor::middle);
      }
    return top - f.height() * scale - between;
  }

  /// What is too thin to be filled, as details name it; null where none shows any.
  const char* thin_sheeting() const {
    static constexpr std::array names{"liner", "membrane", "membrane strip", "waterproofing"};
    for (const char* name : names)
      for (const Sheet& sheet : others_)
        if (sheet.to_scale &&
            std::any_of(sheet.texts.begin(), sheet.texts.end(), [&](const Text& text) { return text.words == name; }))
          return name;
    return nullptr;
  }

  bool is_drawn(LineKind kind) const {
    return std::any_of(others_.begin(), others_.end(), [&](const Sheet& sheet) {
      return std::any_of(sheet.lines.begin(), sheet.lines.end(), [&](const Line& line) { return line.kind == kind; });
    });
  }

  /// Of the kinds of line that this set has.
  double legend(Point at, double width) {
    std::vector<std::pair<LineKind, const char*>> kinds{{LineKind::section, "edge of what is cut"},
                                                        {LineKind::outline, "edge that is seen"},
                                                        {LineKind::hidden, "edge behind"},
                                                        {LineKind::centre, "axis, line to check"},
                                                        {LineKind::phantom, "comes later, or beside"},
                                                        {LineKind::existing, "EXISTING, stays"},
                                                        {LineKind::correction, "to be furred out"},
                                                        {LineKind::limit, "nothing fastened below"},
                                                        {LineKind::rejected, "VOID: not to be built from"},
                                                        {LineKind::dimension, "dimension, leader"}};
    kinds.erase(std::remove_if(kinds.begin(), kinds.end(), [&](const auto& kind) { return !is_drawn(kind.first); }),
                kinds.end());
    constexpr double sample = 21, row = 5.4;
    double y = headline(at, "Lines");
    const std::size_t half = (kinds.size() + 1) / 2;
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      const double x = at.x + (i < half ? 0 : width / 2), down = y - row * static_cast<double>(i % half + 1) + 1.5;
      const double slant = kinds[i].first == LineKind::rejected ? 1.3 : 0;  // two lines that cross
      pen_.line({x, down + 1.2 - slant}, {x + sample, down + 1.2 + slant}, kinds[i].first);
      if (slant > 0) pen_.line({x, down + 1.2 + slant}, {x + sample, down + 1.2 - slant}, kinds[i].first);
      pen_.note({x + sample + 2, down}, kinds[i].second);
    }
    return signs({at.x, y - row * static_cast<double>(half + 1) + 1.5}, width, sample) - between / 2;
  }

  /// Of the two things that all lengths and heights run from. @return how far down that reaches.
  double signs(Point at, double width, double sample) {
    constexpr double radius = 1.5, arm = 2.2, half = 1.1, high = 2.1;
    const Point o{at.x + sample / 2, at.y + 1.2}, d{at.x + width / 2 + sample / 2, at.y + 0.2};
    sheet_.arcs.push_back({o, radius, 0, 360, LineKind::outline});
    pen_.line({o.x - arm, o.y}, {o.x + arm, o.y}, LineKind::dimension);
    pen_.line({o.x, o.y - arm}, {o.x, o.y + arm}, LineKind::dimension);
    pen_.note({at.x + sample + 2, at.y}, "O, origin of lengths");
    pen_.line({d.x - sample / 2, d.y}, {d.x + sample / 2, d.y}, LineKind::dimension);
    pen_.line(d, {d.x - half, d.y + high}, LineKind::dimension);
    pen_.line(d, {d.x + half, d.y + high}, LineKind::dimension);
    pen_.line({d.x - half, d.y + high}, {d.x + half, d.y + high}, LineKind::dimension);
    pen_.note({at.x + width / 2 + sample + 2, at.y}, "DATUM of heights");
    return at.y - 1.5;
  }

  /// Each material that a section of this set cuts, as it is filled there.
  std::vector<Hatch> looks() const {
    std::vector<Hatch> looks;
    for (const Sheet& sheet : others_)
      for (const Hatch& hatch : sheet.hatches)
        if (*hatch.material && std::none_of(looks.begin(), looks.end(), [&](const Hatch& known) {
              return std::string{known.material} == hatch.material;
            }))
          looks.push_back({{}, hatch.name, hatch.families, 0, 0, {}, hatch.material});
    return looks;
  }

  double materials(Point at, double width) {
    constexpr double wide = 14, high = 6, row = 8;
    double y = headline(at, "Materials where they are cut");
    std::vector<Hatch> all = looks();
    const std::size_t filled = all.size();  // what comes after shows its edge alone
    if (s_.job().bench && s_.job().bench->frame.kind == job::FrameKind::steel)
      all.push_back({{}, "", {}, 0, 0, {}, "sheet steel: its edge alone"});
    if (const char* sheeting = thin_sheeting()) all.push_back({{}, "", {}, 0, 0, {}, sheeting});
    const std::size_t half = (all.size() + 1) / 2;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const double x = at.x + (i < half ? 0 : width / 2), top = y - row * static_cast<double>(i % half);
      const std::string name = all[i].material;
      if (i >= filled) {
        pen_.line({x, top - high / 2}, {x + wide, top - high / 2}, LineKind::section);
      } else {
        all[i].rings = {{{x, top - high}, {x + wide, top - high}, {x + wide, top}, {x, top}}};
        if (all[i].families.empty()) {
          pen_.line({x, top - high}, {x + wide, top}, LineKind::hatch);
          pen_.line({x, top}, {x + wide, top - high}, LineKind::hatch);
        } else {
          fill(sheet_, std::move(all[i]), 1);
        }
        pen_.rectangle({x, top - high}, {x + wide, top}, LineKind::section);
      }
      pen_.note({x + wide + 3, top - high / 2 - 1.2}, name);
    }
    return y - row * static_cast<double>(half) - between / 2;
  }

  double index(Point at, double width) {
    const Point top{at.x, headline(at, "Sheets")};
    const std::vector<Cells> rows = index_rows(others_);
    // Rows of a long set stand as close together as it takes to end over the title block.
    const auto ends_at = [&](double air) {
      const Table table{pen_, top, width, index_columns(), air};
      double y = table.bottom_after({"code"});
      for (const Cells& row : rows) y -= table.bottom() - table.bottom_after(row);
      return y;
    };
    constexpr double closest = -0.25, step = 0.05;
    double air = 0;
    while (air > closest && ends_at(air) < -height_) air -= step;
    Table table{pen_, top, width, index_columns(), air};
    table.head();
    for (const Cells& row : rows) table.row(row);
    return table.bottom() - between / 2;
  }

  double sentences(Point at, double width, const std::vector<std::string>& all) {
    double y = at.y;
    for (const std::string& words : all)
      for (const std::string& line : wrapped(words, width, least_letter)) pen_.note({at.x, y -= 4}, line);
    return y - 3;
  }

  double general(Point at, double width) {
    return sentences(
        {at.x, headline(at, "For all sheets")}, width,
        {"1  Lay a rule on the bars of a sheet before trusting its scale; work by the numbers, never by the rule.",
         "2  Lengths along walls run from O, the " + origin_words(s_.job()) +
             "; heights from DATUM, the level of "
             "the highest subfloor spot under the base. A circle begins a row of running lengths: the tape is hooked "
             "there.",
         "3  Measure the room again before cutting. Where a sheet and the room differ, or two sheets, stop and ask.",
         "4  What is struck through and says VOID is not built from.",
         s_.cuts.empty() ? "5  There is nothing to cut; the order of work is {order-of-work}."
                         : "5  A letter on a piece is its mark in {cuts}; the order of work is {order-of-work}.",
         "6  Structure, gas, electricity and pipes are for those licensed for them. Local code decides."});
  }

  /// Where the page is free below something else.
  struct Field {
    Point at;
    double width;
  };

  /// Lines one after the other, from field to field. @return how many the page has room for.
  std::size_t tell(const std::vector<Field>& fields, const std::vector<std::string>& all, bool write) {
    constexpr double headed = 6, last_line = 8;
    std::size_t told = 0;
    for (std::size_t i = 0; i < fields.size() && told < all.size(); ++i) {
      const auto& [at, width] = fields[i];
      double y = at.y - (i > 0 ? headed : 0);
      for (bool begins = i > 0; told < all.size(); begins = false, ++told) {
        const double high = 4 * static_cast<double>(wrapped(all[told], width, least_letter).size());
        const bool more = i + 1 == fields.size() && told + 1 < all.size();  // which is said in a line of its own
        if (y - high < -height_ + (more ? last_line : 1)) break;
        if (write && begins) headline(at, "More that fails");
        if (write) sentences({at.x, y}, width, {all[told]});
        y -= high;
      }
      if (const std::size_t left = all.size() - told; write && left > 0 && i + 1 == fields.size())
        sentences({at.x, y}, width, {"and " + std::to_string(left) + " more: see " + places_of_failures(others_)});
    }
    return told;
  }

  /// With all that is advised where the page has room for that, else in short; as many as there is room for.
  void failing(std::vector<Field> fields) {
    const std::string warning = warning_of(s_.judgement.results, &s_.judgement.as_built);
    if (warning.empty()) return;
    constexpr double least = 24;
    while (fields.size() > 1 && fields.front().at.y - least < -height_) fields.erase(fields.begin());
    fields.front().at.y = headline(fields.front().at, warning);
    std::vector<std::string> full, brief;
    for (const rules::Result& r : s_.judgement.results) {
      if (r.outcome != rules::Outcome::fail) continue;
      const std::string found = "- " + r.title + ": " + rules::found_and_limit(r, s_.job()) + "; ";
      full.push_back(found + without_keys(r.advice));
      brief.push_back(found + advice_in_short(r));
    }
    for (const rules::BuiltRow& row : s_.judgement.as_built)
      if (row.outcome == rules::Outcome::fail)
        for (auto* list : {&full, &brief})
          list->push_back("- as built, " + row.what + ": " + row.built + "; limit " + row.limit);
    tell(fields, tell(fields, full, false) == full.size() ? full : brief, true);
  }

  double signatures(Point at, double width) {
    Table revisions{pen_,
                    {at.x, headline(at, "Revisions")},
                    width,
                    {{"", 0.7, true}, {"what changed", 4, true}, {"date", 1.6, true}}};
    revisions.head();
    // The newest, and lines to write later ones in.
    constexpr std::size_t most = 4, least = 3;
    const std::vector<job::Revision>& made = s_.job().revisions;
    for (std::size_t i = made.size() > most ? made.size() - most : 0; i < made.size(); ++i)
      revisions.row({made[i].mark, made[i].what, made[i].date});
    for (std::size_t i = made.size(); i < least; ++i) revisions.row({"", "", ""});
    const double y = revisions.bottom() - between / 2;
    Table table{pen_,
                {at.x, headline({at.x, y}, "Sign-off")},
                width,
                {{"trade", 1.5, true}, {"signed", 4, true}, {"date", 1.6, true}}};
    table.head();
    for (const char* trade : {"framer", "plumber", "setter", "inspector"}) table.row({trade, "", ""});
    return table.bottom() - between / 2;
  }

  const Subject& s_;
  const std::vector<Sheet>& others_;
  Sheet& sheet_;
  Pen& pen_;
  double width_, height_;
};

}  // namespace

std::vector<Sheet> draw_cover(const Subject& subject, const std::vector<Sheet>& others) {
  const job::Job& job = subject.job();
  std::vector<Sheet> pages;
  if (is_small(paper_of(job))) {
    pages = on_pages("cover", "Cover of the shop drawings", job, index_columns(), index_rows(others), {});
    pages.push_back(on_one_page("cover-legend", "For all sheets", job, [&](Sheet& sheet, Pen& pen, const Frame& room) {
      Cover{subject, others, sheet, pen, room}.draw_legend();
    }));
  } else {
    pages.push_back(
        on_one_page("cover", "Cover of the shop drawings", job, [&](Sheet& sheet, Pen& pen, const Frame& room) {
          Cover{subject, others, sheet, pen, room}.draw();
        }));
  }
  for (Sheet& page : pages)
    for (Text& text : page.texts)
      if (std::any_of(others.begin(), others.end(), [&](const Sheet& sheet) { return sheet.code == text.words; }))
        text.leads_to = text.words;
  return pages;
}

}  // namespace fallwright::drawing
