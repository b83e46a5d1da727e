#include "revision/articles.hpp"

#include <algorithm>
#include <cmath>

#include "takeoff/item.hpp"
#include "units/length.hpp"

namespace fallwright::revision {
namespace {

/// Of itself: of a piece whose sizes and middle read the same on a tape. A rib more or less is most of a hundredth of a
/// base's surface, a mark of the tape less than a thousandth.
constexpr double same_volume = 1e-2, same_surface = 3e-3;

const Told* of_role(const std::vector<Told>& solids, const char* role) {
  const auto it = std::find_if(solids.begin(), solids.end(), [&](const Told& t) { return t.role == role; });
  return it == solids.end() ? nullptr : &*it;
}

Article article_of(const Told& told, takeoff::Item item) {
  Article article{name_of(item), {}, {}, {}, told.volume_mm3, told.area_mm2};
  for (std::size_t i = 0; i < 3; ++i) {
    article.size_mm[i] = told.box_mm[i + 3] - told.box_mm[i];
    article.middle_mm[i] = told.centroid_mm[i] - told.box_mm[i];
  }
  return article;
}

bool alike(const std::array<double, 3>& a, const std::array<double, 3>& b, double within) {
  return std::equal(a.begin(), a.end(), b.begin(), [&](double x, double y) { return std::abs(x - y) < within; });
}

bool is_as_large(const Article& a, const Article& b) {
  return std::abs(a.volume_mm3 - b.volume_mm3) < same_volume * b.volume_mm3 &&
         std::abs(a.area_mm2 - b.area_mm2) <= same_surface * b.area_mm2;
}

/// Seen from its other end.
Article from_end(Article article) {
  article.middle_mm[0] = article.size_mm[0] - article.middle_mm[0];
  return article;
}

/// No turn makes the one the other. A block is told by its middle alone: one that is alike at front and back is turned
/// to its other end.
bool is_mirrored(const Article& was, const Article& now, double within) {
  return was.item == name_of(takeoff::Item::seat_block) && is_as_large(was, now) &&
         alike(from_end(was).middle_mm, now.middle_mm, within);
}

/// The same block, turned by half a turn on its foot.
bool is_turned(const Article& was, const Article& now, double within) {
  Article turned = from_end(was);
  turned.middle_mm[1] = was.size_mm[1] - was.middle_mm[1];
  return was.item == name_of(takeoff::Item::seat_block) && is_as_large(was, now) &&
         alike(turned.middle_mm, now.middle_mm, within);
}

std::string size_text(const Article& article, bool metric) {
  const auto text = [&](double mm) { return units::to_text(units::Length::mm(mm), metric); };
  return text(article.size_mm[0]) + " x " + text(article.size_mm[1]);
}

/// For sale in both, as lists of orders have it.
bool is_bought(const State& state, const std::string& item) {
  return std::any_of(state.rows.begin(), state.rows.end(),
                     [&](const takeoff::Row& row) { return row.for_sale && row.item == item; });
}

}  // namespace

std::vector<Article> articles_of(const std::vector<Told>& solids) {
  std::vector<Article> all;
  const Told *base = of_role(solids, "base"), *drain = of_role(solids, "drain"), *block = of_role(solids, "seat-block");
  if (base) {
    all.push_back(article_of(*base, takeoff::Item::base));
    if (drain)
      for (std::size_t i = 0; i < 3; ++i) all.back().drain_mm[i] = drain->box_mm[i] - base->box_mm[i];
  }
  if (block) all.push_back(article_of(*block, takeoff::Item::seat_block));
  if (drain) all.push_back(article_of(*drain, takeoff::Item::drain));
  return all;
}

std::vector<Changed> of_articles(const State& was, const State& now) {
  std::vector<Changed> changed;
  const bool metric = now.job.is_metric(), tapes = metric != was.job.is_metric();
  // Nobody cuts, or finds, what is less than a mark of the tape: one that was delivered serves.
  const double within = tapes ? one_length_mm() : units::tape_mark_mm(metric);
  for (const Article& article : now.articles) {
    const auto before = std::find_if(was.articles.begin(), was.articles.end(),
                                     [&](const Article& a) { return a.item == article.item; });
    if (before == was.articles.end() || !is_bought(was, article.item) || !is_bought(now, article.item)) continue;
    const bool size = alike(before->size_mm, article.size_mm, within),
               drain = alike(before->drain_mm, article.drain_mm, within),
               shape = alike(before->middle_mm, article.middle_mm, within) && is_as_large(*before, article);
    if (size && drain && (shape || is_turned(*before, article, within))) continue;
    const std::string old_size = size_text(*before, metric), new_size = size_text(article, metric);
    const bool mirrored = is_mirrored(*before, article, within);
    const std::string what = old_size != new_size ? ""
                             : !drain             ? ", its drain elsewhere"
                             : mirrored           ? ", its mirror image"
                                                  : ", of another shape";
    changed.push_back(
        {article.item, old_size, "another piece, " + new_size + what + "; one that is there does not fit"});
  }
  return changed;
}

}  // namespace fallwright::revision
