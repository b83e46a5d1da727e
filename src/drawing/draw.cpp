#include "drawing/draw.hpp"

#include <algorithm>
#include <map>

#include "brep/guard.hpp"
#include "drawing/page.hpp"
#include "drawing/schedules.hpp"
#include "drawing/sheets.hpp"
#include "drawing/title_block.hpp"
#include "drawing/views.hpp"
#include "units/words.hpp"

namespace fallwright::drawing {
namespace {

/// Sheets in the order they are printed. A code's letter tells for whom a sheet is: G everybody, P plumber, F framer, S
/// setter and tiler, B buyer, I inspector; its number counts them.
class Set {
 public:
  explicit Set(const Subject& subject) : subject_{subject} {}

  void add(char reader, Sheet sheet) {
    sheet.code = reader;  // its number follows when all are there
    sheets_.push_back(std::move(sheet));
  }
  void add(char reader, std::vector<Sheet> more) {
    for (Sheet& sheet : more) add(reader, std::move(sheet));
  }

  const std::vector<Sheet>& sheets() const { return sheets_; }

  std::vector<Sheet> done() {
    cover();
    for (Sheet& sheet : sheets_) {
      for (std::string& note : sheet.notes) name_sheets(note);
      for (Text& text : sheet.texts) name_sheets(text.words);
    }
    add_title_blocks(sheets_,
                     {subject_.job(), subject_.judgement.results, subject_.date, &subject_.judgement.as_built});
    return std::move(sheets_);
  }

 private:
  void number() {
    std::map<char, int> last;
    for (Sheet& sheet : sheets_) {
      const char reader = sheet.code.front();
      const int number = ++last[reader];
      sheet.code = std::string{reader} + (number < 10 ? "-0" : "-") + std::to_string(number);
    }
  }

  /// The index names the cover's own pages too: as many as it takes with those among its lines.
  void cover() {
    std::vector<Sheet> drawn = draw_cover(subject_, sheets_);
    for (std::size_t pages = 1; drawn.size() > pages; drawn = draw_cover(subject_, sheets_)) {
      sheets_.insert(sheets_.begin(), drawn.size() - pages, sheets_.front());
      pages = drawn.size();
      for (std::size_t i = 0; i < pages; ++i) sheets_[i].title = drawn[i].title;
    }
    number();
    drawn = draw_cover(subject_, sheets_);
    for (std::size_t i = 0; i < drawn.size(); ++i) {
      drawn[i].code = sheets_[i].code;
      sheets_[i] = std::move(drawn[i]);
    }
  }

  /// "{bed}" in a text is the code of the sheet of that name, or of all its pages.
  void name_sheets(std::string& words) const {
    if (words.find('{') == std::string::npos) return;
    // As short as the codes that it becomes: pages are laid out with it.
    if (const std::string token = "{fastening}"; words.find(token) != std::string::npos)
      words.replace(words.find(token), token.size(), codes_of("schedules-fastening"));
    for (const Sheet& sheet : sheets_) {
      const std::string token = "{" + sheet.name + "}";
      for (std::size_t at = words.find(token); at != std::string::npos; at = words.find(token))
        words.replace(at, token.size(), codes_of(sheet.name));
    }
  }

  std::string codes_of(const std::string& name) const {
    std::vector<std::string> codes;
    for (const Sheet& sheet : sheets_)
      if (sheet.name == name || sheet.name == page_name(name, codes.size() + 1)) codes.push_back(sheet.code);
    return codes.size() < 3 ? units::joined(codes) : codes.front() + " to " + codes.back();
  }

  const Subject& subject_;
  std::vector<Sheet> sheets_;
};

std::vector<Sheet> draw_all(const Subject& subject) {
  Set set{subject};
  set.add('G',
          Sheet{"cover", "Cover of the shop drawings", subject.job().is_metric()});  // drawn when the rest is known
  set.add('G', draw_order_of_work(subject));
  set.add('G', draw_assembly(subject));
  set.add('G', draw_exploded(subject));
  set.add('G', draw_steps(subject));
  if (subject.changes) set.add('G', draw_changes(subject));  // last: the others keep the codes they were printed with
  set.add('P', draw_plan(subject));
  set.add('P', draw_drain(subject));
  set.add('P', draw_template(subject));
  if (subject.job().bench) {
    set.add('F', draw_bench_plan(subject));
    set.add('F', draw_bench_front(subject));
    set.add('F', draw_bench_end(subject));
    set.add('F', draw_bench_section(subject));
  }
  for (const job::Side side : subject.job().alcove.walls) set.add('F', draw_wall(subject, side));
  if (schedules_apart(subject)) set.add('F', draw_schedules(subject));
  if (!subject.cuts.empty()) set.add('F', draw_cuts(subject));
  if (!subject.plan.empty()) set.add('F', draw_sticks(subject));
  if (subject.job().bench)
    set.add('F', draw_bench_profile(subject));  // its tiles last: a bench that grows moves no code
  set.add('S', draw_falls(subject));
  if (subject.facts.site_built) {
    set.add('S', draw_screed(subject));
    set.add('S', draw_site_sections(subject));
  } else {
    set.add('S', draw_bed(subject));
  }
  set.add('S', draw_story_stick(subject));
  set.add('S', draw_gauge_strip(subject));
  set.add('B', draw_buy(subject));
  set.add('I', draw_inspection(subject, set.sheets()));
  std::vector<Sheet> sheets = set.done();
  for (Sheet& piece : draw_pieces(subject)) sheets.push_back(std::move(piece));
  return sheets;
}

}  // namespace

std::vector<Sheet> draw(const parts::Model& model, const Findings& findings) {
  return brep::guarded("sheets of " + model.job.name, [&] {
    Subject subject{findings, model};
    std::vector<Sheet> sheets = draw_all(subject);
    // Notes and what is struck through may leave a wall no room beside its schedules, however small it is drawn.
    const std::vector<double>& rules = scales_of(subject.job().is_metric());
    const auto has_no_room = [&](const Sheet& sheet) {
      return sheet.name.starts_with("wall-") && sheet.page.scale > rules.back();
    };
    if (schedules_apart(subject) || std::none_of(sheets.begin(), sheets.end(), has_no_room)) return sheets;
    subject.apart = true;
    return draw_all(subject);
  });
}

}  // namespace fallwright::drawing
