#include "matcher/belly/fit_strip.h"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <vector>

#include "matcher/base/error.h"
#include "matcher/belly/messages.h"

namespace evet {
namespace {

constexpr int kTerms = StripMap::kBasis * StripMap::kPowers;
using Normal = Eigen::Matrix<double, 2 * kTerms, 2 * kTerms>;
using Right = Eigen::Matrix<double, 2 * kTerms, 1>;

struct Observation {
  cv::Point2d x;  // belly lengths from the centre
  double u, v;
  double error;   // expected, of u
  double weight;  // how far it is clear belly
  bool main_blob;
};

struct Observations {
  std::vector<Observation> all;
  cv::Point2d centre;
  double length = 1;  // a first guess, pixels
  bool one_blob = true;
};

// The largest connected region by belly probability: other regions join only where they agree with it.
cv::Mat1b largest_blob(const cv::Mat1f& p_belly, double min_p) {
  const cv::Mat1b mask = p_belly >= min_p;
  cv::Mat1i label;
  const int count = cv::connectedComponents(mask, label, 8, CV_32S);
  std::vector<double> mass(std::max(count, 1), 0.0);
  for (int y = 0; y < mask.rows; ++y)
    for (int x = 0; x < mask.cols; ++x)
      if (label(y, x) > 0) mass[label(y, x)] += p_belly(y, x);
  const auto best = std::max_element(mass.begin(), mass.end()) - mass.begin();
  if (best == 0) return cv::Mat1b::zeros(mask.size());
  return label == static_cast<int>(best);
}

Observations gather(const BodyCoordinates& k, const FitOptions& options) {
  Observations seen;
  const cv::Mat1b blob = largest_blob(k.p_belly, options.min_p_belly);
  for (int y = 0; y < k.uv.rows; ++y)
    for (int x = 0; x < k.uv.cols; ++x) {
      const double p = k.p_belly(y, x);
      const cv::Vec2f uv = k.uv(y, x);
      if (p < options.min_p_belly || !std::isfinite(uv[0]) || !std::isfinite(uv[1])) continue;
      if (uv[0] < StripMap::kUMin || uv[0] > StripMap::kUMax || std::abs(uv[1]) > 1.3) continue;
      const cv::Vec2d photo = k.photo_from_grid * cv::Vec3d(x + 0.5, y + 0.5, 1);
      const double error = k.error.empty() ? options.assumed_error : k.error(y, x);
      seen.all.push_back({{photo[0], photo[1]},
                          uv[0],
                          uv[1],
                          std::max(error, 1e-4),
                          p * (0.3 + 0.7 * k.p_clear(y, x)),
                          blob(y, x) != 0});
    }
  if (seen.all.empty()) return seen;
  seen.one_blob =
      std::all_of(seen.all.begin(), seen.all.end(), [](const Observation& o) { return o.main_blob; });
  // Centre and length by regression of position on u: enough to bring everything to belly lengths.
  double sw = 0, su = 0, suu = 0;
  cv::Point2d sx, sux;
  for (const Observation& o : seen.all) {
    if (!o.main_blob) continue;
    sw += o.weight, su += o.weight * o.u, suu += o.weight * o.u * o.u;
    sx += o.weight * o.x, sux += o.weight * o.u * o.x;
  }
  seen.centre = sx / sw;
  const double spread = suu / sw - su / sw * su / sw;
  const cv::Point2d slope = (sux / sw - su / sw * seen.centre) / std::max(spread, 1e-6);
  seen.length = std::max(std::hypot(slope.x, slope.y), 1.0);
  for (Observation& o : seen.all) o.x = (o.x - seen.centre) / seen.length;
  return seen;
}

// The prior: how far each power's coefficients may bend along u, and how large the higher ones may grow.
// In belly lengths; a half-width is about 0.14 of one.
Normal prior(double bend_prior, double stiffness) {
  Normal a = Normal::Zero();
  const double h = (StripMap::kUMax - StripMap::kUMin) / StripMap::kSegments;
  const double bend[StripMap::kPowers] = {bend_prior, 0.5 * bend_prior, 0.3 * bend_prior, 0.3 * bend_prior};
  const double size[StripMap::kPowers] = {1e3, 1.0, 0.06, 0.03};
  const double step[StripMap::kPowers] = {1e3, 0.6, 0.25, 0.15};  // of the first derivative
  for (int j = 0; j < StripMap::kPowers; ++j)
    for (int axis = 0; axis < 2; ++axis) {
      const auto at = [&](int i) { return 2 * (i * StripMap::kPowers + j) + axis; };
      // Second differences over h^2 are the second derivative at the knots; each knot stands for h of u.
      const double w2 = stiffness * h / (h * h * h * h * bend[j] * bend[j]);
      for (int i = 0; i + 2 < StripMap::kBasis; ++i) {
        const int n[3] = {at(i), at(i + 1), at(i + 2)};
        const double d[3] = {1, -2, 1};
        for (int p = 0; p < 3; ++p)
          for (int q = 0; q < 3; ++q) a(n[p], n[q]) += w2 * d[p] * d[q];
      }
      const double w1 = h / (h * h * step[j] * step[j]);
      for (int i = 0; i + 1 < StripMap::kBasis; ++i) {
        const int n[2] = {at(i), at(i + 1)};
        const double d[2] = {-1, 1};
        for (int p = 0; p < 2; ++p)
          for (int q = 0; q < 2; ++q) a(n[p], n[q]) += w1 * d[p] * d[q];
      }
      for (int i = 0; i < StripMap::kBasis; ++i) a(at(i), at(i)) += h / (size[j] * size[j]);
    }
  return a;
}

// Metric of a residual: inverse covariance of a position error that comes from errors of u and v. A floor
// keeps it sound where the map is still poor: half a percent of a length either way.
cv::Matx22d metric(const StripMap& map, const Observation& o) {
  const cv::Matx22d j = map.jacobian(o.u, o.v);
  const double su = o.error, sv = kVErrorPerU * o.error;
  const double a = j(0, 0) * su, b = j(0, 1) * sv, c = j(1, 0) * su, d = j(1, 1) * sv;
  const double floor = 0.25 * o.error * o.error + 1e-7;
  const double xx = a * a + b * b + floor, xy = a * c + b * d, yy = c * c + d * d + floor;
  const double det = xx * yy - xy * xy;
  return {yy / det, -xy / det, -xy / det, xx / det};
}

struct Solver {
  const std::vector<Observation>& observations;
  const FitOptions& options;
  Normal base;

  // One weighted step. `robust_weight[i]` multiplies the observation's own; `g[i]` is its metric.
  StripMap solve(const std::vector<double>& robust_weight, const std::vector<cv::Matx22d>& g) const {
    Normal a = base;
    Right r = Right::Zero();
    for (size_t i = 0; i < observations.size(); ++i) {
      const Observation& o = observations[i];
      const double w = robust_weight[i] * o.weight / options.pixels_per_fact;
      if (w < 1e-6) continue;
      const StripMap::Local b = StripMap::local(o.u);
      double phi[16];
      double power = 1;
      for (int j = 0; j < StripMap::kPowers; ++j, power *= o.v)
        for (int p = 0; p < 4; ++p) phi[p * 4 + j] = b.value[p] * power;
      const int start = b.first * StripMap::kPowers;
      const cv::Matx22d m = g[i] * w;
      const double gx = m(0, 0) * o.x.x + m(0, 1) * o.x.y, gy = m(1, 0) * o.x.x + m(1, 1) * o.x.y;
      for (int p = 0; p < 16; ++p) {
        r(2 * (start + p)) += phi[p] * gx;
        r(2 * (start + p) + 1) += phi[p] * gy;
        for (int q = 0; q <= p; ++q) {
          const double pq = phi[p] * phi[q];
          a(2 * (start + p), 2 * (start + q)) += pq * m(0, 0);
          a(2 * (start + p), 2 * (start + q) + 1) += pq * m(0, 1);
          a(2 * (start + p) + 1, 2 * (start + q)) += pq * m(1, 0);
          a(2 * (start + p) + 1, 2 * (start + q) + 1) += pq * m(1, 1);
        }
      }
    }
    const Right solution = a.selfadjointView<Eigen::Lower>().ldlt().solve(r);
    StripMap map;
    for (int i = 0; i < StripMap::kBasis; ++i)
      for (int j = 0; j < StripMap::kPowers; ++j) {
        const int n = 2 * (i * StripMap::kPowers + j);
        map.c[i][j] = {solution(n), solution(n + 1)};
      }
    return map;
  }
};

struct Attempt {
  StripMap map;  // belly lengths
  std::vector<double> robust_weight;
};

Attempt attempt(const Observations& seen, const FitOptions& options, double stiffness, bool main_blob_first) {
  Solver solver{seen.all, options, prior(options.bend_prior, stiffness)};
  const size_t n = seen.all.size();
  std::vector<double> robust_weight(n);
  std::vector<cv::Matx22d> g(n);
  for (size_t i = 0; i < n; ++i) {
    robust_weight[i] = seen.all[i].main_blob || !main_blob_first ? 1 : 0;
    const double s = seen.all[i].error;
    g[i] = cv::Matx22d::eye() * (1 / (s * s));
  }
  Attempt out;
  out.map = solver.solve(robust_weight, g);
  for (int k = 0; k < options.iterations; ++k) {
    const double widen = std::max(1.0, 6.0 * std::pow(0.6, k));
    const double c2 = std::pow(options.loss_scale * widen, 2);
    for (size_t i = 0; i < n; ++i) {
      const Observation& o = seen.all[i];
      g[i] = metric(out.map, o);
      const cv::Point2d e = o.x - out.map.at(o.u, o.v);
      const double d2 =
          e.x * (g[i](0, 0) * e.x + g[i](0, 1) * e.y) + e.y * (g[i](1, 0) * e.x + g[i](1, 1) * e.y);
      robust_weight[i] = 1 / std::pow(1 + d2 / c2, 2);  // Geman-McClure
      if (k < 2 && main_blob_first && !o.main_blob) robust_weight[i] = 0;
    }
    out.map = solver.solve(robust_weight, g);
  }
  out.robust_weight = robust_weight;
  return out;
}

double agreeing(const Observations& seen, const Attempt& a) {
  double sum = 0;
  for (size_t i = 0; i < seen.all.size(); ++i) sum += seen.all[i].weight * a.robust_weight[i];
  return sum;
}

// Where skin was seen, the map must keep its handedness: head up, +v is right, so du x dv < 0 with y down.
double folded_share(const Observations& seen, const Attempt& a) {
  double folded = 0, all = 0;
  for (size_t i = 0; i < seen.all.size(); ++i) {
    const Observation& o = seen.all[i];
    const double w = o.weight * a.robust_weight[i];
    all += w;
    if (cv::determinant(a.map.jacobian(o.u, o.v)) >= 0) folded += w;
  }
  return all > 0 ? folded / all : 1;
}

}  // namespace

void FitOptions::check() const {
  if (!(min_p_belly > 0 && min_p_belly < 1))
    throw Error(ErrorKind::usage, "min_p_belly", messages::kIsNotBetween0And);
  if (!(assumed_error > 0) || !(pixels_per_fact > 0) || !(bend_prior > 0) || !(loss_scale > 0))
    throw Error(ErrorKind::usage, "strip fit", messages::kHasScaleIsNotPositive);
  if (iterations < 1) throw Error(ErrorKind::usage, "iterations", messages::kIsBelow1);
}

std::optional<StripFit> fit_strip(const BodyCoordinates& coordinates, const FitOptions& options) {
  options.check();
  if (coordinates.uv.empty()) return std::nullopt;
  const Observations seen = gather(coordinates, options);
  if (static_cast<int>(seen.all.size()) < options.min_pixels) return std::nullopt;

  Attempt best;
  double folded = 2;
  for (double stiffness : {1.0, 10.0, 100.0}) {  // a stiffer map folds less: take the softest that is sound
    // Regions cut apart by a finger belong together, a leaf does not: start from both views, keep what more
    // agree on.
    Attempt next = attempt(seen, options, stiffness, true);
    if (!seen.one_blob) {
      Attempt all = attempt(seen, options, stiffness, false);
      if (agreeing(seen, all) > agreeing(seen, next)) next = std::move(all);
    }
    const double next_folded = folded_share(seen, next);
    if (next_folded < folded) best = std::move(next), folded = next_folded;
    if (folded < 0.005) break;
  }

  StripFit fit;
  fit.folded_share = folded;
  double all = 0, in = 0, su = 0, sv = 0;
  std::vector<double> us;
  for (size_t i = 0; i < seen.all.size(); ++i) {
    const Observation& o = seen.all[i];
    all += o.weight;
    const double w = o.weight * best.robust_weight[i];
    in += w;
    const cv::Matx22d j = best.map.jacobian(o.u, o.v);
    const double det = cv::determinant(j);
    if (std::abs(det) < 1e-9) continue;
    const cv::Point2d e = o.x - best.map.at(o.u, o.v);
    const double eu = (j(1, 1) * e.x - j(0, 1) * e.y) / det, ev = (-j(1, 0) * e.x + j(0, 0) * e.y) / det;
    su += w * eu * eu, sv += w * ev * ev;
    if (best.robust_weight[i] > 0.5) us.push_back(o.u);
  }
  if (us.empty()) return std::nullopt;
  fit.inlier_share = in / all;
  fit.error_u = std::sqrt(su / in);
  fit.error_v = std::sqrt(sv / in);
  std::sort(us.begin(), us.end());
  fit.u_from = std::clamp(us[us.size() / 200], 0.0, 1.0);
  fit.u_to = std::clamp(us[us.size() - 1 - us.size() / 200], 0.0, 1.0);
  fit.photo_from_strip = best.map;
  for (auto& row : fit.photo_from_strip.c)
    for (cv::Vec2d& c : row) c *= seen.length;
  // The splines sum to one, so the centre is added to the v^0 coefficients alone.
  for (auto& row : fit.photo_from_strip.c) row[0] += cv::Vec2d(seen.centre.x, seen.centre.y);
  return fit;
}

}  // namespace evet
