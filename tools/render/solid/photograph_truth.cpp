// What a photograph truly shows: where rays meet skin and limbs, whatever lies over them.
#include <limits>

#include "tools/render/solid/photographer.h"

namespace evet::render::solid {

namespace {

BodyPart part_named(Part part, float u) {
  switch (part) {
    case Part::none:
      return BodyPart::none;
    case Part::head:
      return BodyPart::head;
    case Part::trunk:
      return u < 0 ? BodyPart::head : u <= 1 ? BodyPart::trunk : BodyPart::tail;
    case Part::arm:
      return BodyPart::fore_limb;
    case Part::leg:
      return BodyPart::hind_limb;
    case Part::tail:
      break;
  }
  return BodyPart::tail;
}

}  // namespace

bool Photographer::covers_belly(const Flat& pixel, const Touch& skin) const {
  const Point way = lens_->way_of(pixel);
  if (scenery_.hidden_by_cover(lens_->eye(), way)) return true;
  Touch other;
  for (const Stage* stage : {&scenery_.limbs, &scenery_.things})
    if (stage->meet(lens_->eye(), way, other, skin.distance)) return true;
  return false;
}

float Photographer::share_covered() const {
  int belly = 0, hidden = 0;
  const float apart = std::max(3.0F, lens_->diagonal() / 140);
  const int rows = static_cast<int>(static_cast<float>(spec_.size.height) / apart),
            columns = static_cast<int>(static_cast<float>(spec_.size.width) / apart);
  for (int r = 0; r <= rows; ++r)
    for (int c = 0; c <= columns; ++c) {
      const Flat pixel(0.5F + static_cast<float>(c) * apart, 0.5F + static_cast<float>(r) * apart);
      Touch skin;
      if (!scenery_.trunk.meet(lens_->eye(), lens_->way_of(pixel), skin) || !on_belly(skin)) continue;
      ++belly;
      hidden += covers_belly(pixel, skin);
    }
  return belly > 0 ? static_cast<float>(hidden) / static_cast<float>(belly) : 0;
}

void Photographer::fill_truth() {
  Truth& t = photo_.truth;
  const float nan = std::numeric_limits<float>::quiet_NaN();
  for (cv::Mat1b* mask : {&t.animal, &t.part, &t.belly, &t.clear, &t.dark})
    *mask = cv::Mat1b(spec_.size, std::uint8_t{0});
  covered_ = cv::Mat1b(spec_.size, std::uint8_t{0});
  t.uv = cv::Mat2f(spec_.size, cv::Vec2f(nan, nan));
  const bool belly = shows_belly(spec_.subject);
  int area = 0, hidden = 0;
  for (int y = 0; y < spec_.size.height && counts_as_animal_; ++y)
    for (int x = 0; x < spec_.size.width; ++x) {
      const Flat pixel(static_cast<float>(x) + 0.5F, static_cast<float>(y) + 0.5F);
      const Point way = lens_->way_of(pixel);
      Touch skin, limb;
      const bool on_skin = scenery_.trunk.meet(lens_->eye(), way, skin),
                 on_limb = scenery_.limbs.meet(lens_->eye(), way, limb);
      if (!on_skin && !on_limb) continue;
      t.animal(y, x) = 255;
      const bool limb_first = on_limb && (!on_skin || limb.distance < skin.distance);
      const Part part =
          limb_first ? scenery_.limbs.meshes()[static_cast<std::size_t>(limb.mesh)].part : Part::trunk;
      t.part(y, x) = static_cast<std::uint8_t>(part_named(part, limb_first ? limb.place[0] : skin.place[0]));
      if (!on_skin || !belly || skin.place[0] < 0 || skin.place[0] > 1) continue;
      const float v = v_of(skin);
      t.uv(y, x) = {skin.place[0], v};
      if (std::abs(v) > 1) continue;
      t.belly(y, x) = 255;
      if (animal_.pattern.edge_distance(skin.place[0], v, state_.years) < 0) t.dark(y, x) = 255;
      ++area;
      if (covers_belly(pixel, skin)) {
        covered_(y, x) = 255;
        ++hidden;
      }
    }
  t.covered_share = area > 0 ? static_cast<double>(hidden) / area : 0;
  if (belly) {
    t.midline = midline_of(*body_, *lens_);
    t.length_px = length_of(t.midline);
    t.bend_deg = posture_.bend;
    t.roll = body_->roll_seen();
    for (const cv::Point2d& p : {t.midline.front(), t.midline.back()})
      t.cut_off = t.cut_off || p.x < 0 || p.y < 0 || p.x > spec_.size.width || p.y > spec_.size.height;
  }
  t.years = spec_.years;
  t.turn_deg = posture_.turn;
  t.tilt_deg = plan_.tilt;
  t.width_change = plan_.width_change;
  t.mechanism = animal_.rule;
  t.background = plan_.setting;
  t.light = plan_.lighting;
}

}  // namespace evet::render::solid
