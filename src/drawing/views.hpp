/// What sheets share: views, sections, marks and words. Inside `drawing` only.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "drawing/page.hpp"
#include "drawing/pen.hpp"
#include "drawing/subject.hpp"
#include "rules/book.hpp"
#include "units/fall.hpp"

namespace fallwright::drawing {

/// A length as it is judged, without its unit, which the title block says.
std::string bare(std::string length);
/// "+5/8", as the screed's figures have it above the drain's; nothing where no corner of it stands there.
std::string height_of_mark(const Subject& subject, double x_mm, double y_mm, double z_mm);
/// Over a liner two beds are screeded, pre-slope and top coat; below a bonded membrane one, and tile lies on it.
bool over_liner(const Subject& subject);
bool has_site_sections(const Subject& subject);

using Wanted = std::function<bool(const parts::Solid&)>;
std::vector<TopoDS_Shape> shapes_of(const parts::Model& model, const Wanted& wanted);
/// The same lines, said to mean something else: what stands already.
Projection as_kind(Projection seen, LineKind kind);
/// From above a ribbed base shows its top alone; leaving its underside out spares a view hundreds of hidden faces.
TopoDS_Shape faces_looking_up(const TopoDS_Shape& solid);

/// A section of the set: its letter, where it is cut and the way it is looked at.
struct Cut {
  std::string letter;
  gp_Pln plane;
  View view;
  Sight sight() const;
};
Cut drain_cut(const Subject& subject);  ///< A: through the bore
Cut bench_cut(const Subject& subject);  ///< B: through seat and base, beside the drain. @pre there is a bench
Cut bed_cut(const Subject& subject);    ///< C, B without a bench: from the entry to the back, beside the drain
/// "section C-C": of that cut, whose letter follows those of the others that the set has.
std::string bed_section(const Subject& subject);
bool has_bed_cut(const Subject& subject);  ///< whether a sheet shows anything of it: threshold, upstand at the back
/// Where an elevation is looked at from: outside of what it shows, the way against `toward`.
Sight eye_at(Point at, const gp_Dir& toward);

const facts::Part& part(const facts::Facts& facts, facts::Role role);  ///< the one, or the first, of a role
const facts::Part& part(const facts::Facts& facts, const std::string& id);
/// The mark of the cut list that a member has; empty for what is not cut.
std::string mark_of(const Subject& subject, const std::string& part_id);

/// Whether any of a family is on the cut list: what stands already is on none.
bool any_marked(const Subject& subject, const facts::Family& family);
/// What a kind of member is called on sheets: a bench's joist along a wall is one as the others are.
inline std::string member_name(facts::Kind kind) {
  return words_of(kind == facts::Kind::end_cleat ? facts::Kind::joist : kind);
}
/// Says of the text last written that it is the mark of a member.
void tag_member(Pen& pen, const Subject& subject, const std::string& part_id);
/// Words without keys of the job file in brackets: "take one shorter (base.length)" is read on site as well.
std::string without_keys(std::string words);
/// Words up to the first semicolon that stands in no brackets.
std::string first_clause(const std::string& words);
/// The first clause of what a check advises, with what following it breaks: no sheet tells the one without the other.
std::string advice_in_short(const rules::Result& result);
/// Whether a waste stands in the room already.
bool waste_stands(const job::Job& job);
/// What the hole below the drain is called: over a waste that stands nobody bores it.
inline const char* bore_word(const job::Job& job) {
  return waste_stands(job) ? "hole" : "bore";
}
/// What a length to the bore's centre is called; over a waste that stands it is where the base's drain comes down, and
/// how far the waste is, as it was read, beside it.
std::string name_of_centre(const facts::Mark& mark, const job::Job& job, const Pen& pen);
using rules::left_face;  // what a tape is hooked on at O, and where lengths from the left begin
/// Where O is: "back left corner of the stud faces".
std::string origin_words(const job::Job& job);
/// Where a waste stands in the room already, as it was read; empty where none was.
std::string waste_words(const job::Job& job, const Pen& pen);
/// What of the drain's body nobody measured; empty where all of it was.
std::string assumed_body_words(const job::Job& job, bool bored);
/// Where such a base is caught on its way down: what stands farthest in at the height that leaves it least, how far
/// before its edge, and there which solids that are.
struct Catch {
  facts::Family family;
  Point at;  ///< in plan
  double z = 0, in_mm = 0;
};
std::vector<Catch> catches_of(const Subject& subject);
/// Whether a height of the chain hangs on the base.
bool is_of_base(const facts::Rung& rung);
/// A rung with its height. The rim of a base that is screeded lies at its marks.
Level level_of(const Pen& pen, const Subject& subject, const facts::Rung& rung);
/// Whether the apron's foot is notched over what the base has at its ends.
bool apron_is_notched(const Subject& subject);
/// How far the bore's centre is from one of the things that it is set out from.
std::optional<double> bore_mm(const facts::Facts& facts, facts::BoreFrom from);
facts::BoreFrom studs_of(job::Side side);  ///< the face of that wall's. @pre side is not the front
/// How far the bore's centre is from the entry, where no back wall stands to hook a tape on.
inline std::optional<double> bore_from_entry_mm(const Subject& subject) {
  return bore_mm(subject.facts, facts::BoreFrom::entry);
}

/// Where something is written already.
std::vector<Box> boxes_of_texts(const Sheet& sheet);
/// Where lines come from that lead to members too thin for their mark: from their left; along what lies, where a chain
/// of dimensions stands there, from above or below.
enum class Leads { level, upright };
/// Marks of the cut list on members: each on the part of its member that the view shows, or beside it where that is too
/// narrow. What others of `shown` hide gets none. Nothing is written over `taken`.
void add_member_marks(Pen& pen, const Subject& subject, const View& view, const Wanted& shown, const Wanted& marked,
                      std::vector<Box> taken = {}, Leads leads = Leads::level);

/// The corners of a solid as a view shows them.
std::vector<Point> corners_of(const parts::Solid& solid, const View& view);
/// The least and the most that its corners reach along a direction.
std::pair<double, double> reach_along(const parts::Solid& solid, const gp_Dir& way);
/// How far a solid, or a face, reaches in a view, by its corners.
Frame extent(const parts::Solid& solid, const View& view);
Frame extent(const TopoDS_Face& face, const View& view);
View view_from(const gp_Dir& toward);
inline View from_above() {
  return {gp::DZ(), gp::DX()};
}

/// Middles of the stretches of a chain in which a text is clear of its witness lines, of the longest first.
std::vector<double> clear_middles(const std::vector<double>& chain, double width);
/// An arrow along a facet's fall in its middle with words beside it.
void add_fall(Pen& pen, const facts::Facet& facet, Point middle, const std::string& words);
/// The middle of a facet, as the mean of its corners.
Point middle_of(const TopoDS_Face& face);

}  // namespace fallwright::drawing
