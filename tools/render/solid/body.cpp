#include "tools/render/solid/body.h"

#include <Eigen/Geometry>
#include <array>

#include "tools/render/solid/texture_noise.h"

namespace evet::render::solid {

namespace {

constexpr float kTailFrom = 1.05F;

// The cross-section at u: half-widths to the side, to the belly and to the back.
struct Section {
  float wide, belly, back, belly_flat, back_flat;
};

// Monotone between its knots in value; smooth.
float eased_through(const std::vector<std::pair<float, float>>& knots, float u) {
  if (u <= knots.front().first) return knots.front().second;
  for (std::size_t i = 1; i < knots.size(); ++i)
    if (u < knots[i].first) {
      const auto slope = [&](std::size_t k) {
        if (k == 0 || k + 1 == knots.size()) return 0.0F;
        const float before = (knots[k].second - knots[k - 1].second) / (knots[k].first - knots[k - 1].first),
                    after = (knots[k + 1].second - knots[k].second) / (knots[k + 1].first - knots[k].first);
        return before * after <= 0 ? 0 : 2 * before * after / (before + after);  // Fritsch and Butland 1984
      };
      const float span = knots[i].first - knots[i - 1].first, t = (u - knots[i - 1].first) / span;
      const float a = slope(i - 1) * span, b = slope(i) * span, p = knots[i - 1].second, q = knots[i].second;
      return p + t * (a + t * (3 * (q - p) - 2 * a - b + t * (2 * (p - q) + a + b)));
    }
  return knots.back().second;
}

class Sections {
 public:
  Sections(const Build& b, const Posture& posture) : b_(b) {
    const float l = b.head_length, change = 1 + posture.width_change, end = 1 + b.tail_length;
    width_ = {{-l, 0.5F * b.head_width},
              {-0.72F * l, 0.82F * b.head_width},
              {-b.jaw_place * l, b.head_width},
              {-0.16F * l, 0.96F * std::max(b.neck, b.head_width * 0.93F)},
              {0.0F, b.neck},
              {0.1F, b.shoulder},
              {0.3F, 0.96F * change},
              {b.gut_place, (1 + b.gut) * change},
              {0.86F, b.hip},
              {0.96F, b.vent_width},
              {1.07F, 0.75F * b.vent_width + 0.25F * b.tail_width},
              {std::min(1.22F, 1 + 0.4F * b.tail_length), b.tail_width},
              {end, 0.25F * b.tail_width}};
    height_ = {{-l, 0.35F * b.head_height},       {-0.5F * l, b.head_height},
               {0.0F, 0.85F * b.neck * b.height}, {0.15F, b.shoulder * b.height},
               {b.gut_place, b.height},           {0.9F, 0.9F * b.hip * b.height},
               {1.02F, 0.62F * b.height},         {std::min(1.3F, 1 + 0.45F * b.tail_length), b.tail_height},
               {end, 0.3F * b.tail_height}};
  }
  Section at(float u) const {
    const float w = b_.half_width;
    Section s{eased_through(width_, u) * w, 0, 0, b_.belly_flat, b_.back_flat};
    s.belly = s.back = eased_through(height_, u) * w;
    // The snout closes round, the tail to a point or a blunt end.
    const float l = b_.head_length, nose = within((u + l) / (0.42F * l), 0, 1);
    const float close = std::pow(std::max(1e-4F, 1 - std::pow(1 - nose, b_.snout)), 1 / b_.snout);
    s.wide *= close;
    s.belly *= std::sqrt(close);
    s.back *= std::sqrt(close);
    const float end = 1 + b_.tail_length, left = within((end - u) / (0.9F * b_.tail_length), 0, 1);
    if (u > 1.02F) {
      const float taper = std::pow(left + 1e-4F, 0.5F * b_.tail_taper);
      s.wide *= blend(1.0F, taper, step(1.02F, 1.1F, u));
      s.belly *= blend(1.0F, taper, step(1.02F, 1.1F, u));
      s.back *= blend(1.0F, taper, step(1.02F, 1.1F, u));
    }
    const float tail = step(0.97F, 1.15F, u), head = 1 - step(-0.1F, 0.05F, u);
    s.belly_flat = blend(blend(s.belly_flat, 2.2F, head), 1.55F, tail);
    s.back_flat = blend(s.back_flat, 1.5F, tail);
    s.belly *= blend(0.92F, 1.0F, tail);
    return s;
  }

 private:
  const Build& b_;
  std::vector<std::pair<float, float>> width_, height_;
};

// Points of a section, evenly by arc length from s = -1 to 1, as (side, out) pairs.
void outline_of(const Section& section, int round, std::vector<Flat>& out) {
  constexpr int kFine = 56;
  std::array<Flat, kFine + 1> fine;
  std::array<float, kFine + 1> arc{};
  for (int i = 0; i <= kFine; ++i) {
    const float angle = kPi * static_cast<float>(i) / kFine, c = std::cos(angle),
                s = std::max(0.0F, std::sin(angle));
    const float power = 2 / (c > 0 ? section.belly_flat : section.back_flat);
    fine[static_cast<std::size_t>(i)] = {
        section.wide * std::pow(s, power),
        c > 0 ? section.belly * std::pow(c, power) : -section.back * std::pow(-c, power)};
    if (i > 0)
      arc[static_cast<std::size_t>(i)] =
          arc[static_cast<std::size_t>(i - 1)] +
          (fine[static_cast<std::size_t>(i)] - fine[static_cast<std::size_t>(i - 1)]).norm();
  }
  const std::size_t half = static_cast<std::size_t>(round) / 2;
  out.assign(2 * half + 1, Flat::Zero());
  std::size_t i = 0;
  for (std::size_t k = 0; k <= half; ++k) {
    const float want = arc.back() * static_cast<float>(k) / static_cast<float>(half);
    while (i + 2 < arc.size() && arc[i + 1] < want) ++i;
    const float t = within((want - arc[i]) / std::max(1e-9F, arc[i + 1] - arc[i]), 0, 1);
    const Flat p = blend<Flat>(fine[i], fine[i + 1], t);
    out[half + k] = p;
    out[half - k] = {-p[0], p[1]};
  }
}

// s halfway between the skin's outermost places to the left and to the right, for an
// outline turned by `angle`.
float middle_seen(const std::vector<Flat>& outline, float angle) {
  const float cosine = std::cos(angle), sine = std::sin(angle);
  std::size_t left = 0, right = 0;
  float least = 9, most = -9;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const float x = outline[k][0] * cosine + outline[k][1] * sine;
    if (x < least) least = x, left = k;
    if (x > most) most = x, right = k;
  }
  return static_cast<float>(left + right) / static_cast<float>(outline.size() - 1) - 1;
}

// The angle that brings the skin at `s` to the middle.
float angle_for(const std::vector<Flat>& outline, float s) {
  float low = -1.4F, high = 1.4F;
  for (int i = 0; i < 20; ++i) {
    const float middle = 0.5F * (low + high);
    (middle_seen(outline, middle) > s ? low : high) = middle;
  }
  return 0.5F * (low + high);
}

// Curvature along the spine, radians a belly length; over the trunk its magnitude integrates to the bend.
class Curvature {
 public:
  Curvature(const Build& build, const Posture& p, Dice& dice) : build_(build), posture_(p) {
    sign_ = dice.side();
    const int shape = dice.below(3);  // one bow, two, or anything
    even_ = shape == 0 ? 1 : shape == 1 ? dice.between(-0.25, 0.25) : dice.between(-1, 1);
    first_ = shape == 0 ? dice.between(-0.5, 0.5) : shape == 1 ? 1 : dice.between(-1, 1);
    second_ = shape == 2 ? dice.between(-1, 1) : dice.between(-0.2, 0.2);
    phase_ = dice.between(0, 2 * kPi);
    float sum = 0;
    for (int i = 0; i < 200; ++i) sum += std::abs(raw((static_cast<float>(i) + 0.5F) / 200)) / 200;
    scale_ = radians(p.bend) / std::max(1e-3F, sum);
  }
  float at(float u) const {
    if (u < 0)
      return radians(posture_.head_turn) / build_.head_length * 1.4F * step(-build_.head_length, 0, u);
    if (u <= 1) return scale_ * raw(u);
    const float t = (u - 1) / build_.tail_length;
    return (radians(posture_.tail_turn) * (0.3F + 1.4F * t) +
            radians(posture_.tail_wave) * 3 * std::cos(phase_ + 7 * t)) /
           build_.tail_length * step(0, 0.15F, t);
  }

 private:
  float raw(float u) const {
    return sign_ * (even_ + first_ * std::cos(kPi * u) + second_ * std::cos(2 * kPi * u));
  }
  const Build& build_;
  const Posture& posture_;
  float sign_, even_, first_, second_, phase_, scale_ = 0;
};

}  // namespace

Posture draw_posture(const Plan& plan, bool on_glass, Dice dice) {
  Posture p;
  const float loose = plan.gentle ? 0.4F : 1;
  p.bend = plan.bend;
  p.roll = plan.roll;
  p.turn = plan.turn;
  p.width_change = plan.width_change;
  p.head_turn = dice.between(-32, 32) * loose;
  p.tail_turn = (dice.odds(0.25) ? dice.between(-190, 190) : dice.between(-75, 75)) * loose;
  p.tail_wave = dice.between(-50, 50) * loose;
  p.tail_twist = dice.odds(0.6) ? dice.between(-100, 100) : dice.between(-20, 20);
  p.twist = dice.between(-12, 12) * loose;
  p.arch = dice.between(-0.02, 0.04) * loose;
  p.head_lift = dice.between(0, 0.07) * loose;
  p.on_glass = on_glass;
  p.press = dice.between(0.004, 0.035);
  return p;
}

Body::Body(const Animal& animal, const Posture& posture, Dice dice) : animal_(animal) {
  lay_spine(posture, dice.apart(1));
  wrap_skin(posture, dice.apart(2));
}

void Body::lay_spine(const Posture& posture, Dice dice) {
  const Build& b = animal_.build;
  const Curvature curvature(b, posture, dice);
  const auto ring = [](float u, const Flat& centre, float heading) {
    return Ring{u, Point(centre[0], centre[1], 0), Point(std::sin(heading), -std::cos(heading), 0),
                Point(std::cos(heading), std::sin(heading), 0)};
  };
  const auto walk = [&](float from, float to, std::vector<Ring>& out) {
    // Steps are finest at the snout and coarser on the tail.
    Flat centre(0, 0);
    float heading = 0, u = from;
    const float way = to > from ? 1.0F : -1.0F;
    while (way * (to - u) > 1e-5F) {
      const float size = u > 1.15F ? 0.022F : u < -0.75F * b.head_length ? 0.006F : 0.0125F;
      const float s = way * std::min({size, way * (to - u),
                                      way * ((way > 0 && u < kTailFrom - 1e-4F ? kTailFrom : to) - u)});
      const float turn = curvature.at(u + s / 2) * s, middle = heading + turn / 2;
      centre += s * Flat(std::sin(middle), -std::cos(middle));
      heading += turn;
      u += s;
      out.push_back(ring(u, centre, heading));
    }
  };
  std::vector<Ring> front;
  walk(0.5F, -b.head_length, front);
  rings_.assign(front.rbegin(), front.rend());
  rings_.push_back(ring(0.5F, Flat(0, 0), 0));
  walk(0.5F, 1 + b.tail_length, rings_);

  // Turned so that the chord from vent to throat points as wanted; its middle goes to the origin.
  const Point throat = spine(0), vent = spine(1), chord = throat - vent;
  const float now = std::atan2(chord[0], chord[1]), by = now - radians(posture.turn);
  const Point middle = 0.5F * (throat + vent);
  const Eigen::AngleAxisf turned(by, Point(0, 0, 1));
  for (Ring& r : rings_) {
    r.centre = turned * (r.centre - middle);
    r.along = turned * r.along;
    r.side = turned * r.side;
  }
}

void Body::wrap_skin(const Posture& posture, Dice dice) {
  const Build& b = animal_.build;
  const Sections sections(b, posture);
  std::vector<Flat> outline;
  outline_of(sections.at(0.5F), kRound * 4, outline);
  const float roll = angle_for(outline, -posture.roll * b.belly_share);

  const std::uint32_t seed = animal_.seed, own = dice.bits();
  const float fold_phase = dice.between(0, 6);
  float faced = 0;
  int counted = 0;
  skin_.reserve(rings_.size() * (kRound + 1));
  for (Ring& ring : rings_) {
    const float u = ring.u;
    outline_of(sections.at(u), kRound, outline);
    const float trunk = step(-0.1F, 0.1F, u) * (1 - step(0.9F, 1.05F, u));
    const float angle = roll + radians(posture.twist) * std::sin(kPi * (u - 0.5F)) * trunk +
                        radians(posture.tail_twist) * step(1.05F, 1.05F + 0.5F * b.tail_length, u);
    const float cosine = std::cos(angle), sine = std::sin(angle);
    float lowest = 9, highest = -9;
    std::vector<Flat> placed(outline.size());
    for (std::size_t k = 0; k < outline.size(); ++k) {
      const float s = 2 * static_cast<float>(k) / kRound - 1;
      Flat p = outline[k];
      const float reach = p.norm();
      float change = b.lumps * (wave(u * 6, s * 3.5F, seed) + 0.5F * wave(u * 13, s * 6, own)) * trunk;
      change += b.ribs * std::sin(u * 88 + fold_phase) * bell(std::abs(s) - 0.5F, 0.16F) * trunk;
      // The fold of the throat, a furrow across the front of the belly.
      const float fold = u - b.fold_curve * (1 - (s / 0.5F) * (s / 0.5F));
      change -= b.fold_depth * bell(fold, 0.012F) * step(0.6F, 0.4F, std::abs(s));
      change += 0.5F * b.fold_depth * bell(fold + 0.025F, 0.016F) * step(0.6F, 0.4F, std::abs(s));
      p *= 1 + change;
      // The swelling round the vent, cleft along the middle.
      const float swell =
          b.cloaca * bell(u - 1.02F, b.cloaca_length) * bell(s, 0.16F) * (1 - 0.35F * bell(s, 0.025F));
      p += (reach > 1e-6F ? Flat(p / reach) : Flat(0, 1)) * swell;
      placed[k] = {p[0] * cosine + p[1] * sine, -p[0] * sine + p[1] * cosine};
      lowest = std::min(lowest, placed[k][1]);
      highest = std::max(highest, placed[k][1]);
    }
    const float lift = posture.arch * std::sin(kPi * within(u, 0, 1)) * 1.0F +
                       posture.head_lift * step(0.1F, -b.head_length, u);
    const float base = posture.on_glass
                           ? kPane + posture.press * trunk - 0.02F * (1 - trunk) - highest - lift * 0.6F
                           : std::max(0.0F, lift) - lowest;
    ring.centre[2] = base;
    for (const Flat& p : placed) {
      Point at = ring.centre + ring.side * p[0] + Point(0, 0, p[1]);
      if (posture.on_glass && at[2] > kPane - 0.006F)
        at[2] = kPane - 0.006F * std::exp(-(at[2] - kPane + 0.006F) / 0.006F);
      skin_.push_back(at);
    }
    if (u > 0.1F && u < 0.9F) {
      faced += middle_seen(placed, 0) / b.belly_share;
      ++counted;
    }
  }
  roll_seen_ = counted > 0 ? -faced / static_cast<float>(counted) : 0;
}

void Body::turn_by(float angle) {
  const Eigen::Matrix3f turned = Eigen::AngleAxisf(angle, Point(0, 0, 1)).toRotationMatrix();
  for (Ring& r : rings_) {
    r.centre = turned * r.centre;
    r.along = turned * r.along;
    r.side = turned * r.side;
  }
  for (Point& p : skin_) p = turned * p;
}

std::size_t Body::ring_before(float u) const {
  std::size_t low = 0, high = rings_.size() - 1;
  while (high - low > 1) {
    const std::size_t middle = (low + high) / 2;
    (rings_[middle].u <= u ? low : high) = middle;
  }
  return low;
}

Point Body::at(float u, float s) const {
  const std::size_t r = ring_before(u);
  const float fr = within((u - rings_[r].u) / (rings_[r + 1].u - rings_[r].u), 0, 1);
  const float col = within((s + 1) / 2 * kRound, 0, kRound - 0.001F);
  const auto c = static_cast<std::size_t>(col);
  const float fc = col - static_cast<float>(c);
  const auto corner = [&](std::size_t row, std::size_t k) { return skin_[row * (kRound + 1) + k]; };
  return blend<Point>(blend<Point>(corner(r, c), corner(r, c + 1), fc),
                      blend<Point>(corner(r + 1, c), corner(r + 1, c + 1), fc), fr);
}

Point Body::spine(float u) const {
  const std::size_t r = ring_before(u);
  const float t = within((u - rings_[r].u) / (rings_[r + 1].u - rings_[r].u), 0, 1);
  return blend<Point>(rings_[r].centre, rings_[r + 1].centre, t);
}
Point Body::along(float u) const {
  return rings_[ring_before(u)].along;
}
Point Body::side(float u) const {
  return rings_[ring_before(u)].side;
}
Mesh Body::part_of_skin(std::size_t first, std::size_t last) const {
  Mesh mesh;
  for (std::size_t r = first; r <= last; ++r)
    for (int k = 0; k <= kRound; ++k) {
      mesh.points.push_back(skin_[r * (kRound + 1) + static_cast<std::size_t>(k)]);
      mesh.places.emplace_back(rings_[r].u, 2 * static_cast<float>(k) / kRound - 1);
    }
  mesh.join_rows(static_cast<int>(last - first + 1), kRound + 1);
  mesh.smooth_normals();
  // The seam along the back belongs to both its sides.
  for (std::size_t r = 0; r <= last - first; ++r) {
    Point& a = mesh.normals[r * (kRound + 1)];
    Point& b = mesh.normals[r * (kRound + 1) + kRound];
    a = b = (a + b).normalized();
  }
  return mesh;
}

Mesh Body::trunk() const {
  Mesh mesh = part_of_skin(0, ring_before(kTailFrom + 1e-4F));
  mesh.part = Part::trunk;
  return mesh;
}
Mesh Body::tail() const {
  Mesh mesh = part_of_skin(ring_before(kTailFrom + 1e-4F), rings_.size() - 1);
  mesh.part = Part::tail;
  return mesh;
}

}  // namespace evet::render::solid
