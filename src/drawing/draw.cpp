#include "drawing/draw.hpp"

#include "brep/guard.hpp"
#include "drawing/views.hpp"

namespace fallwright::drawing {
namespace {

std::vector<Sheet> draw_all(const Subject& subject) {
  std::vector<Sheet> sheets{draw_plan(subject), draw_falls(subject),
                            subject.facts.site_built ? draw_screed(subject) : draw_bed(subject), draw_drain(subject)};
  const auto add = [&](std::vector<Sheet> more) {
    for (Sheet& sheet : more) sheets.push_back(std::move(sheet));
  };
  add(draw_template(subject));
  if (subject.job().bench)
    add({draw_bench_plan(subject), draw_bench_front(subject), draw_bench_end(subject), draw_bench_section(subject)});
  for (const job::Side side : subject.job().alcove.walls) sheets.push_back(draw_wall(subject, side));
  add(draw_cuts(subject));
  add({draw_sticks(subject), draw_buy(subject), draw_order_of_work(subject)});
  add(draw_inspection(subject));
  add({draw_assembly(subject), draw_exploded(subject)});
  add_title_blocks(sheets, subject.job(), subject.judgement.results);
  add(draw_pieces(subject));
  return sheets;
}

}  // namespace

std::vector<Sheet> draw(const parts::Model& model, const Findings& findings) {
  return brep::guarded("sheets of " + model.job.name, [&] { return draw_all({findings, model}); });
}

}  // namespace fallwright::drawing
