/// Draws on a sheet: dimensions as plain lines that every reader shows, notes, arrows, views.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "drawing/projection.hpp"
#include "drawing/sheet.hpp"

namespace fallwright::drawing {

/// A length as a drawing gives it, to the tape's mark: the number alone, since the title block says the unit.
std::string number_of(double length_mm, bool metric);

/// A height with a name, for a ladder of them.
struct Level {
  std::string words;
  double z = 0;
  bool drawn = true;  ///< something stands that high in the picture; what lies past its ends has no line there
};

/// Stretches along a chain to which nobody works, each from and to; in the order in which they may be a mark off.
using Stretches = std::vector<std::pair<double, double>>;

/// Where a tape is hooked: at O, the set's own origin, or at what a note names.
enum class Hook { at_o, elsewhere };

class Pen {
 public:
  /// `text_mm` is the height of ordinary text, in millimetres of the real thing.
  Pen(Sheet& sheet, double text_mm) : sheet_{sheet}, text_{text_mm} {}
  double text_mm() const { return text_; }

  void add(const Projection& projection, Point shift = {});
  void line(Point from, Point to, LineKind kind);
  void rectangle(Point low, Point high, LineKind kind);
  void note(Point at, const std::string& words, Anchor anchor = Anchor::left, double size = 1, double rotation_deg = 0);
  /// A note that may give way to others when the sheet is done.
  void label(Point at, const std::string& words, Anchor anchor = Anchor::left, double size = 1);
  /// The name of a thing, likewise; where it has to stand away from that, a line leads there.
  void name(Point thing, Point at, const std::string& words, Anchor anchor = Anchor::left, double size = 1);
  /// The mark of a thing too thin to be written on: a line leads to it from however near.
  void name_outside(Point thing, Point at, const std::string& words, Anchor anchor = Anchor::left, double size = 1);
  /// The same, where a mark without a line would be read as a neighbour's.
  void name_led(Point thing, Point at, const std::string& words, Anchor anchor = Anchor::left, double size = 1);
  /// A note at the first of these places where it stands clear, or at the one that costs least.
  void note_at_one_of(std::vector<Point> places, const std::string& words, Anchor anchor = Anchor::left,
                      double size = 1, double rotation_deg = 0);
  /// The same of a label, which lets others choose first.
  void label_at_one_of(std::vector<Point> places, const std::string& words, Anchor anchor = Anchor::left,
                       double size = 1, double rotation_deg = 0);
  /// The same of a name: where none of the places is clear it stands about the first, with a line to the thing.
  void name_at_one_of(Point thing, std::vector<Point> places, const std::string& words, Anchor anchor = Anchor::left,
                      double size = 1, double rotation_deg = 0);
  /// Of the last of those: it chooses among the labels, not before them.
  void in_turn() { movable_.back().in_turn = true; }
  /// Of the last of those: where no place is clear it stands about the first, or at the best of them all the same.
  void or_about_it();
  void nowhere_else();
  /// Of the last of those: it takes the last of its places only where it would lie over something at all others, not
  /// where it has little air there.
  void last_at_need() { movable_.back().last_at_need = true; }
  /// Of the last of those: it stands beside its thing, with a line to it from however near.
  void always_led() { movable_.back().outside = movable_.back().led = true; }
  /// Of the last of those: where no place is clear of texts and edges it is these fewer words, with a line to the
  /// thing.
  void otherwise(const std::string& brief, Point thing);
  /// Where texts that have other places do not stand: what they would be read as.
  void keep_clear(const Box& box) { kept_clear_.push_back(box); }
  /// Of the last of those: it is what such places are kept for.
  void in_what_is_clear() { movable_.back().in_clear = true; }
  /// Words along a line, beside it at one of these shares of its length.
  void note_along(Point from, Point to, const std::vector<double>& shares, const std::string& words, double size = 1);
  /// Says of the last text that it is a member's mark.
  void tag(const std::string& mark, const std::string& stock, const std::string& length);
  void arrow(Point from, Point to, LineKind kind = LineKind::dimension);
  void cross(Point at, double half);
  /// One turned so that its arms run along no line that is drawn there, under which they would not be seen.
  void cross_in_sight(Point at, double half);
  /// What may not be built from: both diagonals of a field, of its parts where it is flat.
  void cross_out(Point low, Point high);
  /// The same, and VOID about a place beside their crossing.
  void strike(Point low, Point high, Point words_at, double size = 2);

  /// A level dimension between two points, its line at height `y`; the text shows the length in the trade's notation.
  /// One from right to left has its words past its left end, never past its right, where they are too long for it.
  /// `assumed`: in brackets.
  void across(Point from, Point to, double y, bool assumed = false);
  /// An upright dimension, its line at `x`; the text stands level, on the side away from what is measured, so that
  /// short heights one above the other stay legible.
  void upright(Point from, Point to, double x);
  /// A chain of level dimensions through `xs`, sorted, from points at `y_thing`, and their overall dimension in the
  /// next row, unless that stands elsewhere already. Every length is what it is on all other sheets; so that the
  /// printed parts add up to the printed whole, the first of the `spare` stretches that is there carries what rounding
  /// leaves, and where nobody has a stretch to spare the whole does. `whole`: as another row has it.
  void chain(std::vector<double> xs, double y_thing, double y_row, const Stretches& spare = {}, bool with_whole = true,
             std::optional<double> whole = {});
  /// The same upright, through `ys`, its column beside the thing and the whole further out: to the right, or to the
  /// left where `side` is -1.
  void upright_chain(std::vector<double> ys, double x_thing, double x_column, const Stretches& spare = {},
                     double side = 1, std::optional<double> whole = {});
  /// Distances from one end, at ticks along a line: how a tape is read that stays hooked. It begins at the sign of an
  /// origin, a circle with its centre marked; where that is the set's own, O stands beside it. `assumed`: in brackets.
  void running(const std::vector<double>& places, Point start, Point step, Point outward, Hook hook = Hook::elsewhere,
               bool assumed = false);

  /// Heights as rungs at `x`, each with a line out to its words on the right; words too near each other part.
  void ladder(double x, std::vector<Level> levels);

  /// Labels give way to other texts, to each other and to lines; thin broken lines that run under a text all the same
  /// are interrupted there. Called once, when all is drawn.
  void part_texts();

  std::string words(double length_mm) const;  ///< `number_of` it
  /// A height from the datum likewise; "1/4 below the datum" of a lower one, as its minus would be read as a dash.
  std::string height(double above_datum_mm) const;
  /// The same in a sentence, with its unit.
  std::string said(double length_mm) const;

 private:
  void tick(Point at);
  void witness(Point from, Point to);
  void dimension_line(double x0, double x1, double y);
  /// A level dimension's words over its line; those too long for it stand past that of its ends where nothing follows.
  void words_over(double x0, double x1, double y, const std::string& words, bool first, bool last);
  void upright_line(double y0, double y1, double x);
  /// Draws a dimension, its words last, and keeps it with what of the sheet is its picture.
  void state(Dimension dimension, Point line_at, double turn_deg, const std::function<void()>& draw);

  Sheet& sheet_;
  double text_;
  int chains_ = 0;
  /// A text that may give way: about its place or to one of several; and what it names if a line shall lead there.
  struct Movable {
    std::size_t text = 0;
    std::optional<Point> thing = {};
    std::vector<Point> places = {};
    bool past_places = false;  ///< where none of them is clear, about the first of them
    bool outside = false;      ///< it stands beside what it names, never on it: the line is left out where they touch
    std::string brief = {};    ///< its words where none of the places is clear, and what they name
    Point thing_of_brief = {};
    bool led = false;       ///< it takes no place from which no line leads, if there is any other
    bool in_turn = false;   ///< it chooses among the labels, not before them
    bool in_clear = false;  ///< it may stand where others do not
    bool last_at_need = false;
  };
  class Ground;
  static std::optional<Line> lead_of(const Movable& m, const Text& text);
  static double settle(const Movable& m, const Ground& ground, Text& text, std::size_t turn);
  static double cost_where_it_is(const Movable& m, const Ground& ground, const Text& text, std::size_t turn);
  double settle_or_fall_back(Movable& m, const Ground& ground, std::size_t turn);
  void settle_anew(Ground& ground);
  void fall_back_to_brief(Movable& m, Text& text) const;

  std::vector<Movable> movable_;
  std::vector<Box> kept_clear_;
};

/// Whole marks of the tape for the parts of a chain through `places`, sorted, and for its whole: as rounded each on its
/// own, but that the parts add up to the whole. The part in the first of the `spare` stretches that holds one carries
/// the difference, mark by mark in turn with those in the others; without such a part the whole does. Where another row
/// tells the `whole` already, it is that.
struct Rounded {
  std::vector<double> parts;
  double whole = 0;
};
Rounded rounded_to_add_up(const std::vector<double>& places_mm, const Stretches& spare, bool metric,
                          std::optional<double> whole = {});

}  // namespace fallwright::drawing
