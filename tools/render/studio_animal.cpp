// Where skin and limbs are seen, how they look, and the truth of it.
#include <cmath>
#include <limits>
#include <opencv2/imgproc.hpp>

#include "tools/render/limbs.h"
#include "tools/render/noise.h"
#include "tools/render/studio.h"

namespace evet::render {

void Studio::add_limbs() {
  const Camera& camera = framed_->camera;
  covered_ = cv::Mat1b(spec_.size, std::uint8_t{0});
  if (!shows_animal(spec_.subject)) {
    body_.emplace(cv::Rect());
    limbs_.emplace(cv::Rect());
    return;
  }
  const Surface trunk = body_surface(framed_->body, camera);
  body_.emplace(window_of({trunk}, spec_.size));
  body_->surface(trunk);
  const auto skin_at = [&](int x, int y) -> const Fragment* {
    if (!body_->window().contains({x, y}) || body_->at(x, y).part == Part::none) return nullptr;
    return &body_->at(x, y);
  };
  const auto on_belly = [&](const Fragment& f) {
    return f.u >= 0 && f.u <= 1 && std::abs(framed_->body.v_of_s(f.s)) <= 1;
  };
  int area = 0;
  for (int y = body_->window().y; y < body_->window().br().y; ++y)
    for (int x = body_->window().x; x < body_->window().br().x; ++x)
      area += skin_at(x, y) && on_belly(*skin_at(x, y));
  // As many folded over the belly as the allowance bears; the others pass beneath it.
  for (int across = plan_.limbs_across; across >= 0; --across) {
    const Limbs limbs = draw_limbs(animal_, framed_->body, camera, across, rng_.fork(kLimbs));
    limbs_.emplace(window_of(limbs.surfaces, spec_.size));
    for (const Surface& s : limbs.surfaces) limbs_->surface(s);
    covered_.setTo(0);
    int hidden = 0;
    const cv::Rect w = limbs_->window();
    for (int y = w.y; y < w.br().y; ++y)
      for (int x = w.x; x < w.br().x; ++x) {
        Fragment& limb = limbs_->at(x, y);
        const Fragment* skin = skin_at(x, y);
        if (limb.part == Part::none || skin == nullptr) continue;
        const bool belly = on_belly(*skin), folded = limbs.folded[static_cast<std::size_t>(limb.u / 8)];
        if (limb.depth >= skin->depth || (belly && !folded)) {
          limb = Fragment{};
          continue;
        }
        covered_(y, x) = 255;
        hidden += belly;
      }
    if (hidden <= plan_.most_covered * area) break;
  }
}

void Studio::draw_animal() {
  const Camera& camera = framed_->camera;
  const Vec3 eye = camera.position();
  const float half = static_cast<float>(camera.diagonal() / 2);
  Rng rng = rng_.fork(kGlare);
  // Some animals have been dabbed dry or lie in the shade of a hand.
  const float wetness =
      static_cast<float>(0.05 + 0.5 * plan_.glare) * (rng.chance(0.4) ? rng.uniformf(0.15, 0.6) : 1.0f);
  const float roughness = rng.uniformf(0, 1.2),
              drops = plan_.glare > 0.3 ? rng.uniformf(0, 0.5) * static_cast<float>(plan_.glare) : 0.0f;
  const std::uint32_t seed = rng.next32();
  const cv::Rect window = body_->window() | limbs_->window();
  for (int y = window.y; y < window.y + window.height; ++y)
    for (int x = window.x; x < window.x + window.width; ++x) {
      const Fragment none;
      const cv::Point here(x, y);
      const Fragment& skin = body_->window().contains(here) ? body_->at(x, y) : none;
      const Fragment& limb = limbs_->window().contains(here) ? limbs_->at(x, y) : none;
      const Fragment& f = limb.depth < skin.depth ? limb : skin;
      if (f.part == Part::none) continue;
      const float v = framed_->body.v_of_s(f.s);
      const Skin::Sample sample = skin_->at(f, v);
      const Vec3 smooth_normal = normalised(f.normal);
      const Vec3 normal = normalised(f.normal + Vec3{sample.bump_x, sample.bump_y, 0});
      const Vec2 place{(static_cast<float>(x) + 0.5f - 0.5f * static_cast<float>(spec_.size.width)) / half,
                       (static_cast<float>(y) + 0.5f - 0.5f * static_cast<float>(spec_.size.height)) / half};
      const float beam = light_.beam(place);
      const float lambert = std::max(0.0f, dot(normal, light_.direction));
      // Skin scatters a little light round the edge of shadow.
      const float wrapped = std::max(lambert, 0.25f * (dot(smooth_normal, light_.direction) + 0.6f));
      Vec3 light = light_.ambient * ((0.4f + 0.6f * beam) * (0.55f + 0.45f * smooth_normal.z)) +
                   light_.key * (beam * wrapped);
      for (const Light& other : light_.others)
        light += other.key * (other.beam(place) * std::max(0.0f, dot(normal, other.direction)));
      light = light * (0.75f + 0.25f * clamp01(f.position.z / (animal_.half_width * 0.8f)));
      const Vec3 to_eye = normalised(eye - f.position);
      float shine =
          mirror_lobe(light_, normal, to_eye, roughness) * light_.highlight * wetness * sample.wet * beam;
      if (drops > 0 && f.part != Part::limb) {
        // Drops of water on the skin: a small bright point, a darker rim.
        const CellNoise drop = cell_noise(f.position.x * 16, f.position.y * 16, seed);
        const float r = 0.08f + 0.22f * hash_unit(drop.id, 2);
        if (hash_unit(drop.id, 1) < drops && drop.nearest < r) {
          light = light * (0.82f + 0.3f * drop.nearest / r);
          const float point = clamp01(1 - drop.nearest / (0.3f * r));
          shine += 1.5f * point * point * light_.highlight * beam;
        }
      }
      Vec3 mirrored = light_.key * shine;
      for (const Light& other : light_.others)
        mirrored += other.key * (mirror_lobe(other, normal, to_eye, roughness) * other.highlight * wetness *
                                 sample.wet * other.beam(place));
      const Vec3 colour = sample.albedo * light + mirrored;
      picture_(y, x) = {colour.x, colour.y, colour.z};
      glare_(y, x) = 0.3f * mirrored.x + 0.6f * mirrored.y + 0.1f * mirrored.z;
    }
}

namespace {

BodyPart body_part_of(const Fragment& f) {
  switch (f.part) {
    case Part::none:
      return BodyPart::none;
    case Part::head:
      return BodyPart::head;
    case Part::trunk:
      return BodyPart::trunk;
    case Part::tail:
      return BodyPart::tail;
    case Part::limb:
      return f.u < 16 ? BodyPart::fore_limb : BodyPart::hind_limb;  // eight ids a limb
  }
  return BodyPart::none;
}

}  // namespace

void Studio::fill_truth() {
  Truth& t = photo_.truth;
  const cv::Size size = spec_.size;
  const float nan = std::numeric_limits<float>::quiet_NaN();
  t.animal = cv::Mat1b(size, std::uint8_t{0});
  t.part = cv::Mat1b(size, std::uint8_t{0});
  t.belly = cv::Mat1b(size, std::uint8_t{0});
  t.dark = cv::Mat1b(size, std::uint8_t{0});
  t.uv = cv::Mat2f(size, cv::Vec2f(nan, nan));
  for (const auto* raster : {&*body_, &*limbs_}) {
    const cv::Rect w = raster->window();
    for (int y = w.y; y < w.y + w.height; ++y)
      for (int x = w.x; x < w.x + w.width; ++x) {
        const Fragment& f = raster->at(x, y);
        if (f.part == Part::none) continue;
        t.animal(y, x) = 255;
        t.part(y, x) = static_cast<std::uint8_t>(body_part_of(f));
        if (f.part == Part::limb || !shows_belly(spec_.subject) || f.u < 0 || f.u > 1) continue;
        const float v = framed_->body.v_of_s(f.s);
        t.uv(y, x) = {f.u, v};
        if (std::abs(v) > 1) continue;
        t.belly(y, x) = 255;
        if (skin_->is_dark(f.u, v)) t.dark(y, x) = 255;
      }
  }
  if (shows_belly(spec_.subject)) {
    belly_seen_ = cv::countNonZero(t.belly) > 0;
    t.midline = project_midline(framed_->body, framed_->camera);
    t.length_px = polyline_length(t.midline);
    t.bend_deg = framed_->pose.bend_deg;
    t.roll = framed_->pose.roll;
    for (const cv::Point2d& p : {t.midline.front(), t.midline.back()})
      t.cut_off = t.cut_off || p.x < 0 || p.y < 0 || p.x > size.width || p.y > size.height;
  }
  t.years = spec_.years;
  t.turn_deg = framed_->pose.turn_deg;
  t.tilt_deg = plan_.tilt_deg;
  t.width_change = plan_.pose.width_change;
  t.mechanism = animal_.mechanism;
  t.background = background_.name;
  t.light = light_.name;
}

float Studio::belly_brightness() const {
  double sum = 0;
  int n = 0;
  for (int y = 0; y < spec_.size.height; y += 3)
    for (int x = 0; x < spec_.size.width; x += 3)
      if (photo_.truth.animal(y, x)) {
        const cv::Vec3f& p = picture_(y, x);
        sum += std::min(1.5f, 0.3f * p[0] + 0.6f * p[1] + 0.1f * p[2]);
        ++n;
      }
  return n > 0 ? static_cast<float>(sum / n) : 0;
}

}  // namespace evet::render
