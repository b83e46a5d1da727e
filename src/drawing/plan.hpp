/// The set-out plan: what it is drawn from, shared by the files that draw its lengths and its names. Inside `drawing`
/// only.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "drawing/rejected.hpp"
#include "drawing/views.hpp"
#include "drawing/warning.hpp"

namespace fallwright::drawing {

/// What a plan shows: where base, bench and bore stand, what is framed about and below them, or both. Of the former the
/// lengths to the bore, those to the edges of base and bench, or both.
struct Shows {
  bool places = true, framing = true, bore = true, edges = true;
  bool whole() const { return bore && edges; }
};

/// Edges of bench and base along each other, as the plan has them; those that lie under the seat are drawn dashed.
struct BenchEdges {
  std::optional<double> frame, seat;
  double base = 0;
  bool laps = false;  ///< waterproofing over the base's
  bool frame_is_hidden() const { return frame && std::abs(base - *frame) > 1; }
  bool base_is_hidden() const { return frame && (laps || !seat || std::abs(base - *seat) > 1); }
};
BenchEdges bench_edges(const Subject& subject);
/// The alcove's two diagonals are drawn where both its side walls stand.
bool has_diagonals(const job::Job& job);
/// What a plan tells of the strips before a stud, as the cut list has them.
struct FurringTold {
  double foot_mm = 0;       ///< as thick as one is cut at the stud's foot; 0: there is none there
  double in_mm = 0;         ///< so far the stud itself stands in the way at the upstand
  bool held = false;        ///< nobody cuts one yet
  bool framed_out = false;  ///< nor ever: a wall is framed before it
  bool is_above() const { return foot_mm <= 0 && in_mm <= 0; }
};
/// Nothing where a stud needs no strip.
std::optional<FurringTold> furring_told(const Subject& subject, const facts::StudGap& stud);

/// Draws the set-out: everything is measured from stud faces, running dimensions from one named corner.
class Plan {
 public:
  Plan(const Subject& subject, Sheet& sheet, Pen& pen, Shows shows);
  void draw();

 private:
  void places();
  void section_marks();
  void bore();
  /// A base that does not go in is struck out, and where it catches.
  void strike_base();
  /// Beside a side wall, past the running dimensions of its studs where these stand there.
  double past_studs(double paper) const { return (shows_.framing ? paper : paper - 6) * t_; }
  /// Their sides below the floor of the alcove; the bore must pass between them.
  void joists();
  /// Corner to corner at the floor, as a tape finds them.
  void diagonals();
  void studs();
  void studs_past_o(Point o);
  std::optional<double> from(facts::BoreFrom what) const { return bore_mm(s_.facts, what); }
  /// The bench's edges toward the base: of its frame, and of the seat that stands out over it.
  void find_bench();
  /// Under the seat: where the base ends, and where the frame does if that is elsewhere.
  void hidden_edges();
  /// Of the two gaps beside a base between stud faces, in order who carries what rounding leaves: first the one whose
  /// side would not come to the bore's own row else, with the base's length to its drain as its own sheet tells it.
  Stretches gaps_beside_base(double left, double right) const;
  /// Below: the bore between finished walls, between stud faces, then bench and base.
  void across();
  /// A channel that runs along the room's width (0) or depth (1): where it begins and ends.
  std::optional<std::pair<double, double>> channel_ends(std::size_t axis) const;
  /// In order, each place once.
  static std::vector<double> apart(std::vector<double> places);
  /// The base's front edge at the bore: built on site it runs askew where the room does.
  double front_at_bore() const;
  /// The back wall's stud face at the bore's depth; where none stands the base's back edge: nothing marks the room's.
  double behind_bore() const;
  /// At the right, outside the running studs: what stands one behind the other.
  void depth_chain();
  /// Running from where the drain sheet hooks its tape: the left stud face at the bore's depth, or the entry.
  void joist_centres();
  /// At the left, outside the running studs: the bore from the back and from the base's front, finished and studs.
  void deep();
  /// What brings a stud's face out to the base or the bench, where it is worth a shim.
  void furring();
  void furring_at(job::Side wall, const std::array<double, 6>& box, const std::string& words, bool aside_too);
  std::vector<Cut> shown_cuts() const;
  /// Where along an axis a section's mark stands on the walls that run along it.
  std::vector<double> marks_along(std::size_t axis) const;
  /// The middle of the longest stretch of a wall with no stud and no section's mark in it, for words along it.
  std::optional<Point> clear_stretch(job::Side wall) const;
  /// Beside a wall, where nothing of its framing is written, nor a section's mark.
  Point outside(job::Side side) const;
  /// What a section's marks take along an axis, with arrow and letter.
  std::vector<std::pair<double, double>> taken_by_marks(std::size_t axis) const;
  /// Where all running dimensions begin: the walls' stud faces meet there.
  void origin();
  /// Heavy ends of the cutting plane at the alcove's sides, each with an arrow the way it looks and the letter.
  void section_mark(const Cut& cut);
  /// What each side is, and in a surveyed room its length at the floor as solved.
  void side_names();
  /// A place along the base, near its middle, with no joist's side, no bore and no section's letter within `half` of
  /// it.
  double clear_of_joists(double half) const;
  void part_names();
  /// Of a channel near the back wall, on the floor before it, so that no line to it runs over the wall. `half`: of the
  /// bore's width; `past_words`: how far right of its middle its own words end. @return false where it lies elsewhere.
  bool channel_name(double half, double past_words);
  Point on_drains_edge(double side, double bore_radius) const;

  const Subject& s_;
  Sheet& sheet_;
  Pen& pen_;
  Shows shows_;
  double t_, width_, depth_, below_ = 0;
  bool deep_bench_ = false;  ///< along the back wall: its depth lies along the room's
  std::optional<double> frame_edge_, seat_edge_;
  double base_edge_ = 0;
  std::array<double, 6> base_;
  Point bore_;
  bool void_ = bore_is_void(s_);          ///< the bore's place is rejected: nothing is measured to it
  bool shut_ = shut_base(s_) != nullptr;  ///< the base does not go in: nothing is measured to its ends
  Frame outside_;
};

}  // namespace fallwright::drawing
