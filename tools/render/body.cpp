#include "tools/render/body.h"

#include <array>

namespace evet::render {

namespace {

struct Knot {
  float u, value;
};

// Smooth curve through knots (cubic Hermite with finite-difference slopes), constant beyond them.
template <std::size_t N>
float through(const std::array<Knot, N>& knots, float u) {
  if (u <= knots.front().u) return knots.front().value;
  if (u >= knots.back().u) return knots.back().value;
  std::size_t i = 0;
  while (knots[i + 1].u < u) ++i;
  const auto slope = [&](std::size_t k) {
    const Knot &a = knots[k == 0 ? 0 : k - 1], &b = knots[std::min(k + 1, N - 1)];
    return (b.value - a.value) / (b.u - a.u);
  };
  const float span = knots[i + 1].u - knots[i].u, t = (u - knots[i].u) / span;
  const float t2 = t * t, t3 = t2 * t;
  return (2 * t3 - 3 * t2 + 1) * knots[i].value + (t3 - 2 * t2 + t) * span * slope(i) +
         (3 * t2 - 2 * t3) * knots[i + 1].value + (t3 - t2) * span * slope(i + 1);
}

// Half-width along the animal relative to its widest.
class WidthProfile {
 public:
  WidthProfile(const Individual& animal, const Pose& pose) : animal_(animal), pose_(pose) {
    const float l = animal.head_length, h = animal.head_width, t = animal.tail_width;
    side_ = static_cast<float>(pose.tail_on_side);
    knots_ = {{{-l * 0.80f, h * 0.62f},
               {-l * 0.50f, h},
               {-l * 0.22f, h * 0.97f},
               {-0.01f, 0.76f + 0.6f * animal.shoulder},
               {0.14f, 0.88f + animal.shoulder},
               {0.42f, 1.0f},
               {0.65f, 0.98f},
               {0.86f, 0.84f + animal.hip},
               {0.97f, 0.66f + 0.6f * animal.hip},
               {1.03f, 0.62f},
               {1.10f, t * 1.2f},
               {1.25f, t * (0.95f + 0.5f * side_)},
               {1.5f, t * (0.75f + 0.9f * side_)}}};
  }
  float operator()(float u) const {
    const float l = animal_.head_length, end = 1 + animal_.tail_length;
    float w = through(knots_, u);
    if (u < -l * 0.80f) {
      const float t = clamp01((u + l) / (l * 0.2f));
      w *= std::sqrt(std::max(0.0f, 1 - (1 - t) * (1 - t)));
    }
    if (u > 1.4f) w *= std::sqrt(clamp01((end - u) / (end - 1.4f)));
    // Feeding and eggs widen the trunk, not the head and the limbs' girdles as much.
    const float even = smooth_step(-0.05f, 0.2f, u) * (1 - smooth_step(0.9f, 1.1f, u));
    const float hind = std::exp(-12 * (u - 0.62f) * (u - 0.62f));
    const float g = static_cast<float>(pose_.gravid_shape);
    w *= 1 + static_cast<float>(pose_.width_change) * mix(even, hind, g);
    return std::max(w * animal_.half_width, 0.002f);
  }

 private:
  const Individual& animal_;
  const Pose& pose_;
  float side_;
  std::array<Knot, 13> knots_;
};

// Curvature along the trunk, signed, of unit integral of its magnitude.
class Bend {
 public:
  Bend(const Pose& pose, Rng rng)
      : shape_(pose.bend_shape),
        sign_(static_cast<float>(rng.sign())),
        place_(rng.uniformf(0.3, 0.7)),
        spread_(rng.uniformf(0.13, 0.19)),
        skew_(rng.uniformf(-0.6, 0.6)) {
    double sum = 0;
    for (int i = 0; i < 500; ++i) sum += std::abs(raw((static_cast<float>(i) + 0.5f) / 500)) / 500;
    scale_ = static_cast<float>(1 / sum);
  }
  float operator()(float u) const { return u < 0 || u > 1 ? 0 : raw(u) * scale_; }

 private:
  float raw(float u) const {
    switch (shape_) {
      case BendShape::c:
        return sign_ * (1 + skew_ * (2 * u - 1));
      case BendShape::s:
        return sign_ * (place_ - u) * (1.2f - std::abs(place_ - u));
      case BendShape::kink: {
        const float d = (u - place_) / spread_;
        return sign_ * (std::exp(-0.5f * d * d) + 0.02f);
      }
    }
    return 0;
  }
  BendShape shape_;
  float sign_, place_, spread_, skew_, scale_ = 1;
};

float signed_power(float x, double power) {
  return static_cast<float>(x < 0 ? -std::pow(-x, power) : std::pow(x, power));
}

}  // namespace

CrossSection::CrossSection(double flatness, double height) {
  // Superellipse on the belly side (flattened), ellipse on the back; tabulated finely, then by arc length.
  constexpr int kFine = 1600, kTable = 200;
  std::vector<Point> fine(kFine + 1);
  std::vector<double> arc(kFine + 1, 0.0);
  const auto place = [&](int i) {
    const double angle = kPi * i / kFine, exponent = angle < kPi / 2 ? 2 / flatness : 1.0;
    const float sine = static_cast<float>(std::max(0.0, std::sin(angle))),
                cosine = static_cast<float>(std::cos(angle));
    return Point{signed_power(sine, exponent), signed_power(cosine, exponent), 0, 1};
  };
  for (int i = 0; i <= kFine; ++i) {
    fine[static_cast<std::size_t>(i)] = place(i);
    if (i > 0) {
      const Point &a = fine[static_cast<std::size_t>(i - 1)], &b = fine[static_cast<std::size_t>(i)];
      arc[static_cast<std::size_t>(i)] =
          arc[static_cast<std::size_t>(i - 1)] + std::hypot(b.x - a.x, (b.z - a.z) * height);
    }
  }
  std::size_t i = 0;
  for (int k = 0; k <= kTable; ++k) {
    const double want = arc.back() * k / kTable;
    while (i + 2 < arc.size() && arc[i + 1] < want) ++i;
    const double t = std::clamp((want - arc[i]) / std::max(1e-12, arc[i + 1] - arc[i]), 0.0, 1.0);
    Point p{mix(fine[i].x, fine[i + 1].x, static_cast<float>(t)),
            mix(fine[i].z, fine[i + 1].z, static_cast<float>(t)), 0, 1};
    // Outward normal: the tangent turned by a quarter.
    const float tx = fine[i + 1].x - fine[i].x, tz = (fine[i + 1].z - fine[i].z) * static_cast<float>(height);
    const float n = std::max(1e-9f, std::sqrt(tx * tx + tz * tz));
    p.normal_x = -tz / n;
    p.normal_z = tx / n;
    half_.push_back(p);
  }
  half_.front().normal_x = 0;
  half_.front().normal_z = 1;
}

CrossSection::Point CrossSection::at(float s) const {
  const float place = std::min(std::abs(s), 0.9999f) * static_cast<float>(half_.size() - 1);
  const auto i = static_cast<std::size_t>(place);
  const float t = place - static_cast<float>(i);
  const Point &a = half_[i], &b = half_[i + 1];
  Point p{mix(a.x, b.x, t), mix(a.z, b.z, t), mix(a.normal_x, b.normal_x, t), mix(a.normal_z, b.normal_z, t)};
  if (s < 0) {
    p.x = -p.x;
    p.normal_x = -p.normal_x;
  }
  return p;
}

Body::Body(const Individual& animal, const Pose& pose, Rng rng)
    : section_(pose.flatness, pose.height), belly_share_(animal.belly_share), roll_(pose.roll) {
  const WidthProfile width(animal, pose);
  const Bend bend(pose, rng.fork(1));
  const float bend_rad = static_cast<float>(pose.bend_deg * kRadPerDeg);
  const float head_rad = static_cast<float>(pose.head_turn_deg * kRadPerDeg),
              tail_rad = static_cast<float>(pose.tail_turn_deg * kRadPerDeg);
  const float wave_rad = static_cast<float>(pose.tail_wave_deg * kRadPerDeg);
  const float head_end = -animal.head_length, tail_end = 1 + animal.tail_length;
  Rng phase_rng = rng.fork(2);
  const float phase = phase_rng.uniformf(0, 2 * kPi);
  const auto curvature = [&](float u) {
    if (u < 0) return head_rad / -head_end;
    if (u <= 1) return bend_rad * bend(u);
    const float t = (u - 1) / (tail_end - 1);
    return (tail_rad * (0.4f + 1.2f * t) + wave_rad * std::cos(phase + 7 * t)) / (tail_end - 1);
  };

  constexpr float kStep = 1.0f / 128;
  const auto make = [&](float u, Vec2 centre, float heading) {
    Ring ring{};
    ring.u = u;
    ring.centre = centre;
    ring.tangent = {std::sin(heading), std::cos(heading)};
    ring.side = {ring.tangent.y, -ring.tangent.x};
    ring.half_width = width(u);
    const float tail = smooth_step(1.0f, 1.15f, u) * static_cast<float>(1 - pose.tail_on_side);
    ring.half_height = ring.half_width * static_cast<float>(pose.height) * (1 + 0.8f * tail);
    ring.height_of_centre = ring.half_height;
    ring.width_slope = (width(u + 0.004f) - width(u - 0.004f)) / 0.008f;
    return ring;
  };
  // From the middle to both ends; within a step the heading is that of its middle.
  std::vector<Ring> front;
  Vec2 centre{};
  float heading = 0;
  for (float u = 0.5f; u > head_end;) {
    const float step = std::min(kStep, u - head_end);
    const float middle = heading - curvature(u - step / 2) * step / 2;
    heading -= curvature(u - step / 2) * step;
    centre = centre - Vec2{std::sin(middle), std::cos(middle)} * step;
    u -= step;
    front.push_back(make(u, centre, heading));
    if (step < kStep) break;
  }
  rings_.assign(front.rbegin(), front.rend());
  centre = {};
  heading = 0;
  rings_.push_back(make(0.5f, centre, heading));
  for (float u = 0.5f; u < tail_end;) {
    const float step = std::min(u < 1.2f ? kStep : 2 * kStep, tail_end - u);
    const float middle = heading + curvature(u + step / 2) * step / 2;
    heading += curvature(u + step / 2) * step;
    centre = centre + Vec2{std::sin(middle), std::cos(middle)} * step;
    u += step;
    rings_.push_back(make(u, centre, heading));
    if (step < kStep) break;
  }
  turn_to(pose.turn_deg);
}

void Body::turn_to(double turn_deg) {
  const Vec2 throat = ring_at(0).centre, vent = ring_at(1).centre;
  const double now = std::atan2(throat.x - vent.x, -(throat.y - vent.y));
  const double by = turn_deg * kRadPerDeg - now;
  const Vec2 middle = (throat + vent) * 0.5f;
  for (Ring& ring : rings_) {
    ring.centre = rotate(ring.centre - middle, by);
    ring.tangent = rotate(ring.tangent, by);
    ring.side = rotate(ring.side, by);
  }
}

Body::SkinPoint Body::point(const Ring& ring, float s) const {
  const CrossSection::Point p = section_.at(s);
  SkinPoint out;
  const float across = p.x * ring.half_width;
  out.position = {ring.centre.x + ring.side.x * across, ring.centre.y + ring.side.y * across,
                  ring.height_of_centre + p.z * ring.half_height};
  const float along = -ring.width_slope * (std::abs(p.normal_x) + 0.6f * std::max(0.0f, p.normal_z));
  out.normal = normalised({ring.side.x * p.normal_x + ring.tangent.x * along,
                           ring.side.y * p.normal_x + ring.tangent.y * along, p.normal_z});
  return out;
}

Ring Body::ring_at(double u) const {
  const float want = static_cast<float>(u);
  if (want <= rings_.front().u) return rings_.front();
  if (want >= rings_.back().u) return rings_.back();
  std::size_t i = 0;
  while (rings_[i + 1].u < want) ++i;
  const Ring &a = rings_[i], &b = rings_[i + 1];
  const float t = (want - a.u) / (b.u - a.u);
  Ring ring{};
  ring.u = want;
  ring.centre = a.centre + (b.centre - a.centre) * t;
  ring.tangent = a.tangent + (b.tangent - a.tangent) * t;
  ring.tangent = ring.tangent * (1 / length(ring.tangent));
  ring.side = {ring.tangent.y, -ring.tangent.x};
  ring.half_width = mix(a.half_width, b.half_width, t);
  ring.half_height = mix(a.half_height, b.half_height, t);
  ring.height_of_centre = mix(a.height_of_centre, b.height_of_centre, t);
  ring.width_slope = mix(a.width_slope, b.width_slope, t);
  return ring;
}

}  // namespace evet::render
