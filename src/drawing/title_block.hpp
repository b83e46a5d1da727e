/// What makes a page a document: border, check bars, notes, key plan and title block. Inside `drawing` only.
#pragma once

#include <string>
#include <vector>

#include "drawing/page.hpp"
#include "rules/as_built.hpp"

namespace fallwright::drawing {

/// What all sheets of a job share in their title blocks.
struct Heading {
  const job::Job& job;
  const std::vector<rules::Result>& results;
  std::string date = {};                                   ///< of issue; empty: to be written in
  const std::vector<rules::BuiltRow>* as_built = nullptr;  ///< the record, where the sheets are of one room
};

/// How high the block is on small paper: as its rows, of which a long name or rule book takes two lines.
double small_block_mm(const job::Job& job, const Paper& paper);

/// What a sheet is: "plan", "section", "detail", "elevation", "picture", "list", "template" ...
const char* document_kind(const Sheet& sheet);

/// On every sheet that has a page, numbered in their order. A sheet may be taken from the roll alone: each says whose
/// it is, what it rests on, and when checks fail.
void add_title_blocks(std::vector<Sheet>& sheets, const Heading& heading);

/// Of a failing check, on the inspection sheet.
constexpr const char* fails_word = "FAILS";

/// "I-02, I-03": the sheets of the inspection on which failing checks stand.
std::string places_of_failures(const std::vector<Sheet>& sheets);
/// "2 CHECKS FAIL"; empty when none does.
std::string warning_of(const std::vector<rules::Result>& results, const std::vector<rules::BuiltRow>* as_built);

/// "BENCH LEFT"
const char* hand_of(const job::Job& job);

/// Lines, texts and figures in paper millimetres on a sheet that has a page.
class Paperwork {
 public:
  explicit Paperwork(Sheet& sheet) : sheet_{sheet} {}
  Point at(double x, double y) const;
  void line(double x0, double y0, double x1, double y1, LineKind kind = LineKind::sheet);
  void rectangle(const Frame& f, LineKind kind = LineKind::sheet);
  void circle(double x, double y, double radius, LineKind kind);
  void text(double x, double y, const std::string& words, double height = least_letter, Anchor anchor = Anchor::left,
            double turn_deg = 0);

 private:
  Sheet& sheet_;
};

/// The alcove in plan with its entry, base, bench, the origin of all running dimensions, and from where the sheet
/// looks.
void add_key_plan(Paperwork& paper, const Frame& field, const Sheet& sheet, const job::Job& job);

}  // namespace fallwright::drawing
