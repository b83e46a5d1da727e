// Where a waste stands in the room already nobody bores: what the set gives is where the base's drain comes down.
#include <algorithm>

#include "drawing/views.hpp"

namespace fallwright::drawing {

bool waste_stands(const job::Job& job) {
  const job::Tape& tape = job.base.tape;
  return tape.waste_from_left || tape.waste_from_right || tape.waste_from_back || tape.waste_from_front;
}

std::string waste_words(const job::Job& job, const Pen& pen) {
  const job::Tape& tape = job.base.tape;
  std::string words;
  const auto add = [&](const std::optional<job::Length>& read, const char* face) {
    if (read) words += (words.empty() ? "" : ", ") + pen.said(read->in_mm()) + " from the " + face;
  };
  add(tape.waste_from_left, "left stud face");
  add(tape.waste_from_right, "right stud face");
  add(tape.waste_from_back, "back stud face");
  add(tape.waste_from_front, "entry");
  return words.empty() ? ""
                       : "The waste stands in the floor already, as read: " + words +
                             ". Nothing is bored there: 'hole' is the one it stands in" +
                             (job.is_default("drain.bore") ? ", its width assumed." : ".");
}

std::string origin_words(const job::Job& job) {
  const bool left = job.alcove.has_wall(job::Side::left), back = job.alcove.has_wall(job::Side::back);
  if (left && back) return "back left corner of the stud faces";
  if (left || back) return std::string{back ? "back wall's left" : "left wall's back"} + " end, at its stud face";
  return "back end of the " + left_face(job);
}

std::string name_of_centre(const facts::Mark& mark, const job::Job& job, const Pen& pen) {
  using facts::BoreFrom;
  const std::string_view bore = "bore centre";
  const auto& from_what = mark.bore_from;
  if (!waste_stands(job) || !from_what)
    return from_what == BoreFrom::left_studs ? std::string{bore} + " from the " + left_face(job) : mark.name;
  const std::string from = mark.name.substr(bore.size());
  const job::Tape& tape = job.base.tape;
  const auto& read = from_what == BoreFrom::left_studs    ? tape.waste_from_left
                     : from_what == BoreFrom::right_studs ? tape.waste_from_right
                     : from_what == BoreFrom::back_studs  ? tape.waste_from_back
                     : from_what == BoreFrom::entry       ? tape.waste_from_front
                                                          : std::optional<job::Length>{};
  return "drain of the base" + from + (read ? " (waste as read " + pen.words(read->in_mm()) + ")" : "");
}

std::string assumed_body_words(const job::Job& job, bool bored) {
  const bool wide = job.is_default("drain.body"), deep = job.is_default("drain.body_depth");
  if (!wide && !deep) return "";
  return "The drain's body is assumed, as " +
         std::string{wide && deep ? "wide and as deep"
                     : wide       ? "wide"
                                  : "deep"} +
         " as drawn: nobody measured it. Measure it before " + (bored ? "boring." : "the dry fit.");
}

}  // namespace fallwright::drawing
