#include "tools/render/solid/shading.h"

#include <Eigen/Geometry>
#include <limits>
#include <opencv2/imgproc.hpp>

#include "tools/render/solid/texture_noise.h"

namespace evet::render::solid {

namespace {

constexpr int kOpenCells = 88;
constexpr float kOpenReach = 1.9F;  // belly lengths from the middle that the ground's openness is known for

Point at_height(const Point& eye, const Point& way, float height) {
  return eye + way * ((height - eye[2]) / way[2]);
}
Point mirrored(const Point& way, const Point& normal) {
  return way - 2 * way.dot(normal) * normal;
}
// Share of light that a film of water throws back (Schlick 1994, index 1.33).
float film(float cosine) {
  const float m = 1 - within(cosine, 0, 1);
  return 0.02F + 0.98F * m * m * m * m * m;
}

}  // namespace

bool Net::on_thread(const Point& at) const {
  const float p = (at[0] * std::cos(turn) + at[1] * std::sin(turn)) / pitch,
              q = (at[1] * std::cos(turn) - at[0] * std::sin(turn)) / pitch;
  const float dp = std::abs(p + 0.06F * std::sin(q * 3) - std::round(p + 0.06F * std::sin(q * 3))),
              dq = std::abs(q + 0.06F * std::sin(p * 3) - std::round(q + 0.06F * std::sin(p * 3)));
  return std::min(dp, dq) < 0.5F * thread;
}

bool Scenery::meet(const Point& eye, const Point& way, Touch& touch, const Mesh** mesh) const {
  float nearest = std::numeric_limits<float>::infinity();
  for (const Stage* stage : {&trunk, &limbs, &things})
    if (stage->meet(eye, way, touch, nearest)) {
      nearest = touch.distance;
      *mesh = &stage->meshes()[static_cast<std::size_t>(touch.mesh)];
    }
  return std::isfinite(nearest);
}

bool Scenery::blocked(const Point& from, const Point& way, float far) const {
  return trunk.blocked(from, way, far) || limbs.blocked(from, way, far) || things.blocked(from, way, far);
}

void Scenery::measure_openness(int rays, const Dice& dice) {
  const auto blocks = [this](const Point& from, const Point& way, float far) {
    return blocked(from, way, far);
  };
  trunk.measure_openness(rays, 0.8F, ground.level, blocks, dice.apart(1));
  limbs.measure_openness(rays, 0.8F, ground.level, blocks, dice.apart(2));
  things.measure_openness(rays, 0.8F, ground.level, blocks, dice.apart(3));
  Dice own = dice.apart(4);
  ground_open_.create(kOpenCells, kOpenCells);
  for (int r = 0; r < kOpenCells; ++r)
    for (int c = 0; c < kOpenCells; ++c) {
      const Point from((static_cast<float>(c) + own.unit()) / kOpenCells * 2 * kOpenReach - kOpenReach,
                       (static_cast<float>(r) + own.unit()) / kOpenCells * 2 * kOpenReach - kOpenReach,
                       ground.level + 1e-3F);
      int free = 0;
      for (int k = 0; k < rays; ++k) {
        const float angle = 2 * kPi * (static_cast<float>(k) + own.unit()) / static_cast<float>(rays),
                    r2 = own.unit(), radius = std::sqrt(r2);
        free += !blocked(from, {radius * std::cos(angle), radius * std::sin(angle), std::sqrt(1 - r2)}, 1.2F);
      }
      ground_open_(r, c) = static_cast<float>(free) / static_cast<float>(rays);
    }
  cv::GaussianBlur(ground_open_, ground_open_, {}, 0.9);
}

float Scenery::ground_openness(const Flat& place) const {
  const Flat p =
      (place + Flat::Constant(kOpenReach)) * (kOpenCells / (2 * kOpenReach)) - Flat::Constant(0.5F);
  if (p[0] < 0 || p[1] < 0 || p[0] >= kOpenCells - 1 || p[1] >= kOpenCells - 1) return 1;
  const int c = static_cast<int>(p[0]), r = static_cast<int>(p[1]);
  const float fc = p[0] - static_cast<float>(c), fr = p[1] - static_cast<float>(r);
  return blend(blend(ground_open_(r, c), ground_open_(r, c + 1), fc),
               blend(ground_open_(r + 1, c), ground_open_(r + 1, c + 1), fc), fr);
}

float Scenery::drop_at(const Point& at, Flat* tilt) const {
  if (!pane || pane->drops <= 0) return 0;
  const float x = at[0] / pane->drop_pitch, y = at[1] / pane->drop_pitch;
  const Scatter s = scatter(x, y, pane->seed);
  if (chance_of(s.number, 1) >= pane->drops) return 0;
  const float radius = 0.1F + 0.3F * chance_of(s.number, 2) * chance_of(s.number, 3);
  if (s.first >= radius) return 0;
  if (tilt != nullptr) {
    const float e = 0.02F;
    *tilt =
        Flat(scatter(x + e, y, pane->seed).first - s.first, scatter(x, y + e, pane->seed).first - s.first) /
        e * (s.first / radius);
  }
  return 1 - s.first / radius;
}

bool Scenery::hidden_by_cover(const Point& eye, const Point& way) const {
  if (pane && drop_at(at_height(eye, way, pane->height), nullptr) > 0) return true;
  return net && net->on_thread(at_height(eye, way, net->height));
}

Seen Scenery::lit(const Surface& surface, const Point& at, const Point& way, float open,
                  Spread& spread) const {
  Seen seen;
  const Point& n = surface.normal;
  const float facing = std::max(0.05F, -n.dot(way));
  seen.light = surface.albedo * lighting.sky_on(n) * open;
  for (const Lamp& lamp : lighting.lamps) {
    const Point axis = lamp.at.normalized(), right = axis.cross(Point(0.3F, 0.9F, 0.1F)).normalized(),
                other = axis.cross(right);
    const auto towards = [&] {
      const float turn = 2 * kPi * spread.next(),
                  r = lamp.radius * std::sqrt(blend(lamp.hole * lamp.hole, 1.0F, spread.next()));
      return Point(lamp.at + right * (r * std::cos(turn)) + other * (r * std::sin(turn)) - at);
    };
    const auto is_dark = [&](const Point& to) {
      const float far = to.norm();
      return blocked(at + n * 4e-3F + to * (2e-3F / far), to / far, far);
    };
    const Point to = towards();
    const float far = to.norm();
    const Point l = to / far;
    const float level = n.dot(l), wrapped = (level + surface.bleed) / (1 + surface.bleed);
    if (wrapped <= 0) continue;
    // Two rays tell light from shadow; where they differ, it is half shadow and takes more.
    int dark = is_dark(to), cast = 1;
    if (lamp.radius > 0.02F * far) {
      dark += is_dark(towards());
      cast = 2;
      if (dark == 1)
        for (; cast < 7; ++cast) dark += is_dark(towards());
    }
    if (dark == cast) continue;
    const float lit_share = static_cast<float>(cast - dark) / static_cast<float>(cast);
    const Colour arriving = lamp.arriving(at) * lit_share;
    seen.light += surface.albedo * arriving * wrapped;
    if (surface.gloss > 0 && level > 0) {
      // Mirrored lobe (Trowbridge and Reitz 1975), widened by the lamp's size.
      const Point h = (l - way).normalized();
      const float wide = within(surface.spread * surface.spread + 0.4F * lamp.radius / far, 0.02F, 1),
                  w2 = wide * wide;
      const float nh = within(n.dot(h), 0, 1), d = nh * nh * (w2 - 1) + 1;
      const float lobe =
          w2 / (d * d) * film(-way.dot(h)) * surface.gloss * 0.25F * level / std::max(0.15F, level * facing);
      const Colour shine = arriving * std::min(lobe, 12.0F);
      seen.light += shine;
      seen.mirrored += luminance(shine);
    }
  }
  if (surface.gloss > 0) {
    const Point back = mirrored(way, n);
    const Colour shine =
        lighting.sky(back) * (film(facing) * surface.gloss * open * open * (1 - 0.6F * surface.spread));
    seen.light += shine;
    seen.mirrored += luminance(shine);
  }
  return seen;
}

Seen Scenery::look(const Point& eye, Point way, Spread& spread) const {
  Seen front;
  float through = 1;
  if (net) {
    const Point at = at_height(eye, way, net->height);
    if (net->on_thread(at)) {
      Surface thread;
      thread.albedo = net->colour;
      thread.normal = Point(0, 0, 1);
      return lit(thread, at, way, 1, spread);
    }
  }
  Point from = eye;
  if (pane) {
    const Point at = at_height(eye, way, pane->height);
    Flat tilt(0, 0);
    const float drop = drop_at(at, &tilt);
    const Point n = Point(0.8F * tilt[0], 0.8F * tilt[1], 1).normalized();
    const float share = 2 * film(-way.dot(n)) * pane->mirror;
    Surface glass;
    glass.albedo = Colour::Zero();
    glass.normal = n;
    glass.gloss = 2 * pane->mirror;
    glass.spread = drop > 0 ? 0.15F : 0.08F;
    front = lit(glass, at, way, 1, spread);
    front.light += lighting.sky_on(Point(0, 0, 1)) * pane->haze;
    through = 1 - std::min(0.9F, share) - pane->haze;
    if (drop > 0) {
      way = (way - 0.35F * Point(tilt[0], tilt[1], 0)).normalized();
      through *= 0.9F;
    }
    from = at - way * 1e-3F;
  }
  Touch touch;
  const Mesh* mesh = nullptr;
  Seen behind;
  if (meet(from, way, touch, &mesh) && mesh != nullptr) {
    behind = lit(mesh->look(touch), touch.at, way, touch.open, spread);
  } else {
    const Point at = at_height(from, way, ground.level);
    const Flat place(at[0], at[1]);
    behind = lit(ground.at(place), at, way, ground_openness(place), spread);
  }
  return {front.light + through * behind.light, front.mirrored + through * behind.mirrored};
}

}  // namespace evet::render::solid
