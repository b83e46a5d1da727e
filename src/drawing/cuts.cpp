#include <algorithm>
#include <cmath>

#include "diag/fault.hpp"
#include "drawing/boundary.hpp"
#include "drawing/views.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::drawing {
namespace {

/// A piece lying along the sheet seen on its broad side, and its cross-section.
struct Piece {
  Projection broad, end;
  Frame broad_frame, end_frame;
};

Frame frame_of_seen(const Projection& seen) {
  Sheet flat;
  Pen{flat, 1}.add(seen);
  return frame_of(flat);
}

Piece look_at(const parts::Solid& solid, double width) {
  const gp_Dir& axis = solid.cut->axis;
  const gp_Dir side =
      std::abs(axis.Z()) > 0.7 ? gp_Dir{gp_Vec{gp::DX()} - gp_Vec{axis} * axis.X()} : gp_Dir{-axis.Y(), axis.X(), 0};
  Piece piece;
  for (const gp_Dir& toward : {side, axis.Crossed(side)}) {
    piece.broad = project({solid.shape}, {toward, axis}, solid.cut->steel);
    piece.broad_frame = frame_of_seen(piece.broad);
    if (std::abs(piece.broad_frame.height() - width) < 0.02 * width + 0.1) break;
  }
  piece.end = project({solid.shape}, {axis, side}, false);
  piece.end_frame = frame_of_seen(piece.end);
  return piece;
}

/// A strip of furring is no solid of the model: its broad side and its section.
Piece strip_of(const takeoff::CutRow& cut) {
  const auto rectangle = [](double width, double height) {
    const Point corner[] = {{0, 0}, {width, 0}, {width, height}, {0, height}};
    Projection seen;
    for (int i = 0; i < 4; ++i) seen.lines.push_back({corner[i], corner[(i + 1) % 4], LineKind::outline});
    return seen;
  };
  Piece piece{rectangle(cut.length_mm, cut.width_mm), rectangle(cut.thickness_mm, cut.width_mm), {}, {}};
  piece.broad_frame = frame_of_seen(piece.broad);
  piece.end_frame = frame_of_seen(piece.end);
  return piece;
}

double width_of(const facts::Facts& facts, const std::string& id) {
  for (const facts::Member& member : facts.members)
    if (member.part_id == id) return member.width_mm;
  return 0;
}

/// Bevelled ends with both points: the saw is set on one and checked on the other.
std::string ends_of(const takeoff::CutRow& cut, bool metric) {
  if (cut.furring || cut.ends == "square") return cut.ends;
  return cut.ends + ", long point " + units::to_text(units::Length::mm(cut.length_mm), metric) + ", short point " +
         units::to_text(units::Length::mm(cut.short_mm), metric);
}

/// "wall-back/blocking-1-04" as "blocking" of the "back wall".
std::pair<std::string, std::string> kind_and_place(const std::string& part_id) {
  const std::size_t slash = part_id.find('/');
  std::string kind = part_id.substr(slash + 1), place = part_id.substr(0, slash);
  kind.erase(kind.find_last_not_of("-0123456789") + 1);
  std::replace(kind.begin(), kind.end(), '-', ' ');
  if (place.rfind("wall-", 0) == 0) return {kind, place.substr(5) + " wall"};
  return {kind, place == "bench-frame" ? "bench" : place};
}

/// The studs that strips go on: "on stud-02, stud-03 (right wall)".
std::string studs_of(const takeoff::CutRow& cut) {
  std::string words = "on ", wall;
  for (const std::string& id : cut.part_ids) {
    const std::string place = kind_and_place(id).second;
    if (!wall.empty()) words += place == wall ? ", " : " (" + wall + "), ";
    words += id.substr(id.find('/') + 1);
    wall = place;
  }
  return words + " (" + wall + ")";
}

/// Where equal pieces go: "top plate, front rail (bench)", "blocking (left wall, right wall)".
std::string use_of(const takeoff::CutRow& cut) {
  if (cut.furring) return studs_of(cut);
  const auto add = [](std::string& list, const std::string& word) {
    if ((", " + list + ",").find(", " + word + ",") == std::string::npos) list += (list.empty() ? "" : ", ") + word;
  };
  std::vector<std::pair<std::string, std::string>> places_by_kind, kinds_by_places;
  const auto at = [](auto& list, const std::string& key) -> std::string& {
    for (auto& [known, value] : list)
      if (known == key) return value;
    return list.emplace_back(key, "").second;
  };
  for (const std::string& id : cut.part_ids) {
    const auto [kind, place] = kind_and_place(id);
    add(at(places_by_kind, kind), place);
  }
  for (const auto& [kind, places] : places_by_kind) add(at(kinds_by_places, places), kind);
  std::string words;
  for (const auto& [places, kinds] : kinds_by_places)
    words += (words.empty() ? "" : ", ") + kinds + " (" + places + ")";
  return words;
}

std::string title_of(const takeoff::CutRow& cut, const job::Job& job) {
  const bool metric = job.unit == job::UnitSystem::metric;
  const auto len = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  const std::string size =
      cut.sheet ? len(cut.length_mm) + " x " + len(cut.width_mm) + ", " + len(cut.thickness_mm) + " thick"
                : len(cut.length_mm);
  const std::string fitted = takeoff::fitted_text(cut, metric);
  return cut.mark + "   " + std::to_string(cut.count) + " x " + cut.stock + "   " + size + "   " +
         ends_of(cut, metric) + "   " + use_of(cut) + (fitted.empty() ? "" : "   " + fitted);
}

void add_piece(Pen& pen, const takeoff::CutRow& cut, const Piece& piece, double y, const job::Job& job) {
  const Frame& b = piece.broad_frame;
  const double t = pen.text_mm();
  pen.add(piece.broad, {-b.x0, y - b.y0});
  pen.add(piece.end, {cut.length_mm + 6 * t - piece.end_frame.x0, y - piece.end_frame.y0});
  pen.across({0, y}, {cut.length_mm, y}, y - 2.2 * t);
  pen.note({0, y + b.height() + 0.6 * t}, title_of(cut, job));
}

}  // namespace

std::vector<Sheet> draw_cuts(const Subject& subject) {
  std::vector<Piece> pieces;
  for (const takeoff::CutRow& cut : subject.cuts)
    pieces.push_back(cut.furring ? strip_of(cut)
                                 : look_at(*subject.model.find(cut.part_ids.front()),
                                           width_of(subject.facts, cut.part_ids.front())));
  std::vector<Sheet> sheets;
  constexpr std::size_t on_a_page = 5;
  for (std::size_t from = 0; from < pieces.size(); from += on_a_page) {
    const std::size_t to = std::min(pieces.size(), from + on_a_page);
    const std::string number = from == 0 ? "" : "-" + std::to_string(from / on_a_page + 1);
    sheets.push_back(on_page("cuts" + number, "Pieces to cut", subject.job(), [&](Sheet& sheet, Pen& pen) {
      double y = 0;
      for (std::size_t i = from; i < to; ++i) {
        y -= pieces[i].broad_frame.height() + 7 * pen.text_mm();
        add_piece(pen, subject.cuts[i], pieces[i], y, subject.job());
      }
      sheet.notes = {
          "Mark, count, stock, length from long point to long point, ends, and where it goes. Section at the right of "
          "each piece, seen "
          "from its "
          "first end. Cutting board and old framing makes dust: cut outside or with extraction, and wear a fit "
          "respirator."};
    }));
  }
  return sheets;
}

namespace {

/// One closed line for the machine, its lower left corner at the origin; on it, apart from it, the mark and what a saw
/// must know that it does not tell: bevels. Thin lines are edges within the outline.
Sheet cut_file(const takeoff::CutRow& cut, const Piece& piece, const job::Job& job) {
  Sheet sheet{"piece-" + cut.mark, "Piece " + cut.mark, job.unit == job::UnitSystem::metric};
  Sheet seen;
  Pen{seen, 1}.add(piece.broad, {-piece.broad_frame.x0, -piece.broad_frame.y0});
  std::vector<Line> visible = seen.lines;
  std::erase_if(visible, [](const Line& line) { return line.kind != LineKind::outline; });
  sheet.cuts = {boundary_of(visible)};
  if (sheet.cuts.front().empty()) throw diag::ModelError{cut.part_ids.front(), "its outline does not close"};
  const std::string words = title_of(cut, job);
  const double wide = piece.broad_frame.width(), high = piece.broad_frame.height();
  const double letters = std::min({10.0, high / 4, wide / (letter_width * static_cast<double>(words.size() + 2))});
  Pen pen{sheet, letters};
  for (const Line& line : visible)
    if (!runs_along(line, sheet.cuts.front())) pen.line(line.from, line.to, LineKind::dimension);
  pen.note({letters, (high - letters) / 2}, words);
  sheet.dimensions.push_back({{0, 0}, {cut.length_mm, 0}, pen.words(cut.length_mm), cut.length_mm, 0});
  return sheet;
}

}  // namespace

std::vector<Sheet> draw_pieces(const Subject& subject) {
  std::vector<Sheet> sheets;
  for (const takeoff::CutRow& cut : subject.cuts) {
    if (cut.furring || (!cut.sheet && cut.ends == "square")) continue;
    const parts::Solid& solid = *subject.model.find(cut.part_ids.front());
    sheets.push_back(cut_file(cut, look_at(solid, width_of(subject.facts, solid.id)), subject.job()));
  }
  return sheets;
}

namespace {

/// A stick with its pieces from left to right, each with its mark and, where there is room, its length.
void add_stick(Pen& pen, const takeoff::StickGroup& group, const takeoff::StockPlan& plan, double y) {
  const takeoff::Stick& stick = group.stick;
  const double t = pen.text_mm();
  pen.rectangle({0, y}, {stick.length_mm, y + 1.9 * t}, LineKind::outline);
  double x = plan.trim_mm;
  for (const double end : {x, stick.length_mm - plan.trim_mm})
    if (plan.trim_mm > 0) pen.line({end, y}, {end, y + 1.9 * t}, LineKind::dimension);
  for (const takeoff::StickPiece& piece : stick.pieces) {
    const std::string words = piece.mark + " " + pen.words(piece.length_mm);
    const bool wide = piece.length_mm > letter_width * 0.9 * t * static_cast<double>(words.size());
    pen.note({x + piece.length_mm / 2, y + 0.5 * t}, wide ? words : piece.mark, Anchor::middle, 0.9);
    x += piece.length_mm;
    pen.line({x, y}, {x, y + 1.9 * t}, LineKind::outline);
    x += plan.kerf_mm;
    if (x < stick.length_mm) pen.line({x, y}, {x, y + 1.9 * t}, LineKind::dimension);
  }
  pen.note({stick.length_mm + t, y + 0.5 * t},
           std::to_string(group.count) + " x " + pen.words(stick.length_mm) + ", offcut " + pen.words(stick.offcut_mm) +
               (stick.to_order ? ", to order" : ""),
           Anchor::left, 0.85);
}

std::string stock_title(const takeoff::StockPlan& plan, bool metric) {
  return plan.stock + "   " + std::to_string(plan.pieces) + (plan.pieces == 1 ? " piece" : " pieces") + "   " +
         takeoff::total_text(plan.bought_mm, metric) + " in all, " + takeoff::proof_text(plan, metric);
}

}  // namespace

Sheet draw_sticks(const Subject& subject) {
  const job::Job& job = subject.job();
  const bool metric = job.unit == job::UnitSystem::metric;
  return on_page("sticks", "Sticks and what is cut from them", job, [&](Sheet& sheet, Pen& pen) {
    const double t = pen.text_mm();
    double y = 0;
    for (const takeoff::StockPlan& plan : subject.plan) {
      pen.note({0, y - 2.2 * t}, stock_title(plan, metric)), y -= 2.6 * t;
      for (const takeoff::StickGroup& group : takeoff::alike(plan.sticks)) {
        y -= 2.4 * t;
        add_stick(pen, group, plan, y);
        const double length = group.stick.length_mm;
        sheet.dimensions.push_back({{0, y}, {length, y}, pen.words(length), length, 0});
      }
    }
    sheet.notes = {
        "Each stick as often as it says, cut from left to right, a saw cut of " +
        takeoff::kerf_text(job.cuts.kerf.in_mm(), metric) + " between pieces, " +
        takeoff::kerf_text(job.cuts.trim.in_mm(), metric) +
        " off each end of a stick first. The plan is made for the least length bought of the sticks on offer, then for "
        "the fewest sticks; no allowance for knots and splits."};
  });
}

}  // namespace fallwright::drawing
