#include "measure/memory.hpp"

#include <algorithm>

#include "brep/skin.hpp"

namespace fallwright::measure {
namespace {

void add(Question& all, const gp_XYZ& p) {
  all.of(p.X()).of(p.Y()).of(p.Z());
}

void add(Question& all, const std::vector<brep::Ring>& rings) {
  all.of(rings.size());
  for (const brep::Ring& ring : rings) {
    all.of(ring.size());
    for (const gp_Pnt& p : ring) add(all, p.XYZ());
  }
}

void add(Question& all, const brep::Box& box, const std::optional<brep::About>& about) {
  for (const double side : box) all.of(side);
  all.of(about.has_value());
  if (about) all.of(about->x).of(about->y).of(about->radius);
}

bool tells_all(const brep::Skin& skin) {
  const auto round_about = [](const auto& curved) { return curved.about.has_value(); };
  return std::all_of(skin.rounds.begin(), skin.rounds.end(), round_about) &&
         std::all_of(skin.flats.begin(), skin.flats.end(), [&](const brep::Flat& flat) {
           return std::all_of(flat.curves.begin(), flat.curves.end(), round_about);
         });
}

/// All its coordinates added up, one way and another: the same of a solid that is the same, hardly ever of another.
double glance_at(const brep::Skin& skin) {
  double sum = 0, weight = 1;
  const auto take = [&](const std::vector<brep::Ring>& rings) {
    for (const brep::Ring& ring : rings)
      for (const gp_Pnt& p : ring) sum += weight * p.X() + p.Y() + 2 * p.Z(), weight += 0.5;
  };
  for (const brep::Flat& flat : skin.flats) take(flat.rings);
  for (const brep::Round& round : skin.rounds) take(round.rings);
  return sum;
}

}  // namespace

std::optional<std::size_t> Memory::number_of(const brep::Skin& skin) {
  const double glance = glance_at(skin);
  if (closed_ && !is_glanced(glance)) return std::nullopt;
  if (!tells_all(skin)) return std::nullopt;
  if (!closed_) glances_.insert(glance);
  Question all{""};
  all.of(skin.flats.size());
  for (const brep::Flat& flat : skin.flats) {
    add(all, flat.normal.XYZ());
    add(all, flat.rings);
    all.of(flat.curves.size());
    for (const brep::Curve& curve : flat.curves) add(all, curve.box, curve.about);
  }
  for (const brep::Round& round : skin.rounds) {
    add(all, round.rings);
    add(all, round.box, round.about);
  }
  const auto known = number_known(all.bytes());
  if (known || closed_) return known;
  return numbers_.emplace(all.bytes(), count()).first->second;
}

std::optional<std::size_t> Memory::number_known(const std::string& solid) const {
  if (const auto it = numbers_.find(solid); it != numbers_.end()) return it->second;
  return under_ ? under_->number_known(solid) : std::nullopt;
}

bool Memory::is_glanced(double glance) const {
  return glances_.count(glance) > 0 || (under_ && under_->is_glanced(glance));
}

const std::any* Memory::answer_to(const Question& question) const {
  if (const auto it = answers_.find(question.bytes()); it != answers_.end()) return &it->second;
  return under_ ? under_->answer_to(question) : nullptr;
}

}  // namespace fallwright::measure
