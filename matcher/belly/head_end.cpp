#include "matcher/belly/head_end.h"

#include <algorithm>
#include <cmath>

namespace evet {
namespace {

// Each belly cell votes by its distance from the middle over its expected error, neighbours voting as one.
double slope_of_u(const BodyCoordinates& k, double belly_share) {
  double mass = 0, my = 0, mu = 0;
  const auto each = [&](auto&& f) {
    for (int y = 0; y < k.uv.rows; ++y)
      for (int x = 0; x < k.uv.cols; ++x)
        if (k.p_belly(y, x) > 0.5f) f(y, k.uv(y, x)[0], k.p_belly(y, x) / (0.02 + k.error(y, x)));
  };
  each([&](int y, double u, double w) { mass += w, my += w * y, mu += w * u; });
  if (mass <= 0) return 0;
  my /= mass, mu /= mass;
  double along = 0, spread = 0, cells = 0;
  each([&](int y, double u, double w) {
    along += w * (y - my) * (u - mu);
    spread += w * (y - my) * (y - my);
    cells += 1;
  });
  const double slope = along / std::max(spread, 1e-9) * k.uv.rows * belly_share;  // 1 when all is well
  const double expected_error = cells / mass - 0.02;
  return 4 * slope * std::clamp(0.1 / std::max(expected_error, 0.005), 0.1, 4.0);
}

// Where a part lies along the belly: its mass before the upper end, behind the lower one, and its mean place.
struct Lie {
  double before = 0, behind = 0, mass = 0, place = 0;  // place: 0 the upper end, 1 the lower
};
Lie lie_of(const cv::Mat1f& p_part, double belly_share) {
  constexpr float kThere = 0.3f;
  constexpr double kMargin = 0.08;  // belly lengths by which an end may be misplaced
  Lie out;
  for (int y = 0; y < p_part.rows; ++y) {
    const double at = ((y + 0.5) / p_part.rows - 0.5) / belly_share + 0.5;
    double row = 0;
    for (int x = 0; x < p_part.cols; ++x)
      if (p_part(y, x) > kThere) row += p_part(y, x);
    out.mass += row, out.place += row * at;
    if (at < kMargin) out.before += row;
    if (at > 1 - kMargin) out.behind += row;
  }
  if (out.mass > 0) out.place /= out.mass;
  return out;
}

// Cells of a part that are as good as none: a hundredth of the belly's area.
double few(const BodyCoordinates& k, double belly_share) {
  return 0.01 * 0.25 * std::pow(belly_share * k.p_belly.rows, 2);
}

}  // namespace

HeadEvidence operator-(const HeadEvidence& of) {
  return {-of.coordinates, -of.head, -of.tail, -of.fore_limbs, -of.hind_limbs};
}

HeadEvidence mean_of(const HeadEvidence& a, const HeadEvidence& b) {
  return {(a.coordinates + b.coordinates) / 2, (a.head + b.head) / 2, (a.tail + b.tail) / 2,
          (a.fore_limbs + b.fore_limbs) / 2, (a.hind_limbs + b.hind_limbs) / 2};
}

HeadEvidence head_evidence(const BodyCoordinates& look, double belly_share) {
  HeadEvidence out;
  out.coordinates = slope_of_u(look, belly_share);
  if (look.p_head.empty()) return out;
  const double none = few(look, belly_share);
  const Lie head = lie_of(look.p_head, belly_share), tail = lie_of(look.p_tail, belly_share);
  out.head = (head.before - head.behind) / (head.before + head.behind + none);
  out.tail = (tail.behind - tail.before) / (tail.before + tail.behind + none);
  const auto limbs = [&](const cv::Mat1f& p) {
    const Lie lie = lie_of(p, belly_share);
    return std::clamp(2 * (lie.place - 0.5), -1.0, 1.0) * lie.mass / (lie.mass + none);
  };
  out.fore_limbs = -limbs(look.p_fore_limb);
  out.hind_limbs = limbs(look.p_hind_limb);
  return out;
}

double head_up_log_odds(const HeadEvidence& close, const HeadEvidence& wide) {
  // Beyond some steepness coordinates are no surer: a network that is wrong about a stranger is wrong aloud.
  const auto held = [](double coordinates) { return 8 * std::tanh(coordinates / 8); };
  return 0.298 * held(close.coordinates) + 0.150 * held(wide.coordinates) + 0.896 * close.head +
         0.058 * wide.head + 0.523 * wide.tail + 0.447 * wide.fore_limbs;
}

}  // namespace evet
