// Things beside and over the animal, with their shadows, and images of the lamp in wet surfaces.
#include <cmath>

#include "tools/render/blur.h"
#include "tools/render/noise.h"
#include "tools/render/studio.h"

namespace evet::render {

Vec2 Studio::shadow_offset(float lift) const {
  const float reach =
      lift / std::max(0.35f, light_.direction.z) * static_cast<float>(framed_->camera.px_per_unit());
  return {-light_.direction.x * reach, -light_.direction.y * reach};
}

Studio::Cutout Studio::cut_out(const Thing& thing) const {
  const float reach = thing.reach * thing.unit_px, unit = static_cast<float>(framed_->camera.px_per_unit());
  const Vec2 offset = shadow_offset(thing.lift);
  const int pad = static_cast<int>(std::abs(offset.x) + std::abs(offset.y) +
                                   2 * std::min(light_.shadow_softness, 0.06f) * unit) +
                  2;
  const cv::Rect around(static_cast<int>(thing.centre.x - reach) - pad,
                        static_cast<int>(thing.centre.y - reach) - pad, static_cast<int>(2 * reach) + 2 * pad,
                        static_cast<int>(2 * reach) + 2 * pad);
  Cutout cutout;
  cutout.window = around & cv::Rect(-pad, -pad, spec_.size.width + 2 * pad, spec_.size.height + 2 * pad);
  if (cutout.window.empty()) return cutout;
  const cv::Rect& w = cutout.window;
  cutout.alpha = cv::Mat1f(w.size(), 0.0f);
  cutout.colours.create(w.size());
  const float cosine = std::cos(thing.angle) / thing.unit_px, sine = std::sin(thing.angle) / thing.unit_px;
  for (int y = 0; y < w.height; ++y)
    for (int x = 0; x < w.width; ++x) {
      const float dx = static_cast<float>(x + w.x) + 0.5f - thing.centre.x,
                  dy = static_cast<float>(y + w.y) + 0.5f - thing.centre.y;
      const Vec2 own{cosine * dx + sine * dy, cosine * dy - sine * dx};
      if (std::abs(own.x) > thing.reach || std::abs(own.y) > std::min(thing.reach, thing.reach_across))
        continue;
      Vec3 colour;
      const float a = thing.look(own, colour);
      if (a <= 0) continue;
      cutout.alpha(y, x) = a;
      cutout.colours(y, x) = {colour.x, colour.y, colour.z};
    }
  return cutout;
}

void Studio::lay(const Thing& thing, const Cutout& cutout) {
  if (cutout.window.empty()) return;
  const cv::Rect& w = cutout.window;
  cv::Mat1f shadow = cutout.alpha.clone();
  gaussian_blur(shadow,
                std::max(0.6, std::min(light_.shadow_softness, 0.06f) * framed_->camera.px_per_unit()));
  const Vec2 offset = shadow_offset(thing.lift);
  const int ox = static_cast<int>(std::lround(offset.x)), oy = static_cast<int>(std::lround(offset.y));
  const cv::Rect seen = w & cv::Rect({0, 0}, spec_.size);
  for (int y = seen.y; y < seen.y + seen.height; ++y)
    for (int x = seen.x; x < seen.x + seen.width; ++x) {
      const float a = cutout.alpha(y - w.y, x - w.x);
      const int sx = x - w.x - ox, sy = y - w.y - oy;
      if (sx >= 0 && sy >= 0 && sx < w.width && sy < w.height) {
        const float keep = 1 - 0.7f * light_.shadow_strength * shadow(sy, sx) * (1 - a);
        if (keep < 0.999f) picture_(y, x) *= keep;
      }
      if (a <= 0) continue;
      const Vec3 lit = illumination(x, y);
      const cv::Vec3f& c = cutout.colours(y - w.y, x - w.x);
      picture_(y, x) = picture_(y, x) * (1 - a) + cv::Vec3f(c[0] * lit.x, c[1] * lit.y, c[2] * lit.z) * a;
      glare_(y, x) *= 1 - a;
    }
}

ClutterScene Studio::clutter_scene() const {
  ClutterScene scene;
  scene.frame = {static_cast<float>(spec_.size.width), static_cast<float>(spec_.size.height)};
  scene.px_per_unit = static_cast<float>(framed_->camera.px_per_unit());
  scene.half_width_px = animal_.half_width * scene.px_per_unit;
  scene.belly_ground = look_.colours.ground;
  if (shows_animal(spec_.subject))
    for (const cv::Point2d& p : project_midline(framed_->body, framed_->camera))
      scene.midline.push_back({static_cast<float>(p.x), static_cast<float>(p.y)});
  return scene;
}

void Studio::cover() {
  if (plan_.most_covered <= 0 || !shows_animal(spec_.subject)) return;
  const cv::Mat1b& belly = photo_.truth.belly;
  const int allowed = static_cast<int>(plan_.most_covered * cv::countNonZero(belly));
  int hidden = cv::countNonZero(covered_ & belly);
  const std::vector<Thing> things =
      plan_.foreign
          ? draw_foreign_covering_clutter(clutter_scene(), plan_.clutter, rng_.fork(kCoverThings))
          : draw_covering_clutter(clutter_scene(), plan_.clutter, plan_.wild, rng_.fork(kCoverThings));
  for (const Thing& thing : things) {
    const Cutout cutout = cut_out(thing);
    const cv::Rect seen = cutout.window & cv::Rect({0, 0}, spec_.size);
    cv::Mat1b over(seen.size(), std::uint8_t{0});
    int more = 0;
    for (int y = 0; y < seen.height; ++y)
      for (int x = 0; x < seen.width; ++x)
        if (cutout.alpha(y + seen.y - cutout.window.y, x + seen.x - cutout.window.x) > 0.3f) {
          over(y, x) = 255;
          more += belly(y + seen.y, x + seen.x) && !covered_(y + seen.y, x + seen.x);
        }
    if (belly_seen_ && hidden + more > allowed) continue;
    hidden += more;
    if (!seen.empty()) covered_(seen).setTo(255, over);
    lay(thing, cutout);
  }
}

void Studio::add_reflections() {
  // Images of the lamp, its ring or a window in the water over everything, or in the box's floor.
  Rng rng = rng_.fork(kGlare).fork(1);
  if (!rng.chance(0.03 + 0.4 * plan_.glare * std::max(0.3f, background_.gloss))) return;
  const float unit = static_cast<float>(framed_->camera.px_per_unit());
  const int count = rng.between(1, 1 + static_cast<int>(2.5 * plan_.glare));
  const float tilt = rng.uniformf(0, kPi);
  for (int i = 0; i < count; ++i) {
    const Vec2 centre{rng.uniformf(0, 1) * static_cast<float>(spec_.size.width),
                      rng.uniformf(0, 1) * static_cast<float>(spec_.size.height)};
    const int kind = light_.ring ? 1 : rng.below(4);  // 0, 3 lamp, 1 ring, 2 window
    const float radius = unit * (kind == 2 ? rng.uniformf(0.15, 0.6) : rng.uniformf(0.02, 0.12));
    const float stretch = kind == 2 ? rng.uniformf(0.3, 1) : rng.uniformf(0.6, 1);
    const Turn turn(tilt + rng.uniformf(-0.2, 0.2));
    const float strength = (kind == 2 ? rng.uniformf(0.08, 0.4) : rng.uniformf(0.4, 1.6)) *
                           (0.4f + static_cast<float>(plan_.glare));
    const float edge = kind == 2 ? rng.uniformf(0.05, 0.3) : rng.uniformf(0.3, 0.9),
                warp = rng.uniformf(0, 0.18);
    const std::uint32_t seed = rng.next32();
    const float reach = radius * 2.2f;
    for (int y = std::max(0, static_cast<int>(centre.y - reach));
         y < std::min(spec_.size.height, static_cast<int>(centre.y + reach)); ++y)
      for (int x = std::max(0, static_cast<int>(centre.x - reach));
           x < std::min(spec_.size.width, static_cast<int>(centre.x + reach)); ++x) {
        Vec2 q = turn(Vec2{static_cast<float>(x), static_cast<float>(y)} - centre) * (1 / radius);
        q.y /= stretch;
        float d = kind == 2 ? std::max(std::abs(q.x), std::abs(q.y)) : length(q);
        if (d > 2.2f) continue;
        if (kind != 2) d *= 1 + warp * value_noise(q.x, q.y, seed);
        if (kind == 1) d = std::abs(d - 0.85f) * 7;
        const float add = strength * smooth_step(1 + edge, 1 - edge, d);
        if (add <= 0) continue;
        picture_(y, x) += cv::Vec3f(light_.key.x, light_.key.y, light_.key.z) * add;
        glare_(y, x) += add;
      }
  }
}

}  // namespace evet::render
