#include "matcher/search/align.h"

#include <algorithm>
#include <cmath>
#include <opencv2/core/hal/hal.hpp>
#include <opencv2/imgproc.hpp>
#include <vector>

#include "matcher/base/error.h"
#include "matcher/pattern/masked_blur.h"
#include "matcher/search/messages.h"

namespace evet {
namespace {

constexpr int kUnknowns = 2 * kNodes;
constexpr int kCoarsePixels = kMapRows / 4 * kMapCols / 4;

// Where a pixel centre lies in the node grid: cell and share of the way to the next node.
struct GridSpot {
  int cell;
  float share;
};
GridSpot grid_spot(double x01, int nodes) {
  const double x = std::clamp(x01, 0.0, 1.0) * (nodes - 1);
  const int cell = std::min(static_cast<int>(x), nodes - 2);
  return {cell, static_cast<float>(x - cell)};
}

struct Sampled {
  float dark = 0, weight = 0, du = 0, dv = 0;  // slopes in dark share per pixel
};
// Linear between pixel centres; nothing is known outside.
Sampled sample(const Level& level, float row, float col) {
  const int r = static_cast<int>(std::floor(row)), c = static_cast<int>(std::floor(col));
  if (r < 0 || c < 0 || r + 1 >= level.dark.rows || c + 1 >= level.dark.cols) return {};
  const float a = row - static_cast<float>(r), b = col - static_cast<float>(c);
  const float *d0 = level.dark[r] + c, *d1 = level.dark[r + 1] + c, *w0 = level.weight[r] + c,
              *w1 = level.weight[r + 1] + c;
  const float top = d0[0] + b * (d0[1] - d0[0]), bottom = d1[0] + b * (d1[1] - d1[0]);
  const float left = d0[0] + a * (d1[0] - d0[0]), right = d0[1] + a * (d1[1] - d0[1]);
  return {top + a * (bottom - top),
          (1 - a) * (w0[0] + b * (w0[1] - w0[0])) + a * (w1[0] + b * (w1[1] - w1[0])), bottom - top,
          right - left};
}

// The normal equations of one Gauss-Newton step on one level, in pixels of that level.
struct Equations {
  std::array<float, kUnknowns * kUnknowns> normal;
  std::array<float, kUnknowns> right;
};

// One pixel of the fixed map against the moving one: the four nodes around it and their shares, the slopes
// there, how far the maps differ, and how much that weighs.
struct Residual {
  std::array<int, 4> nodes;
  std::array<float, 4> hat;
  float slope_u, slope_v, difference, weight;
};

void add(const Residual& at, Equations& equations) {
  const float wuu = at.weight * at.slope_u * at.slope_u, wuv = at.weight * at.slope_u * at.slope_v,
              wvv = at.weight * at.slope_v * at.slope_v;
  for (int k = 0; k < 4; ++k) {
    equations.right[2 * at.nodes[k]] += at.weight * at.slope_u * at.hat[k] * at.difference;
    equations.right[2 * at.nodes[k] + 1] += at.weight * at.slope_v * at.hat[k] * at.difference;
    for (int l = 0; l < 4; ++l) {
      const float h = at.hat[k] * at.hat[l];
      float* line = equations.normal.data() + 2 * at.nodes[k] * kUnknowns + 2 * at.nodes[l];
      line[0] += wuu * h, line[1] += wuv * h;
      line += kUnknowns;
      line[0] += wuv * h, line[1] += wvv * h;
    }
  }
}

// Adds every pixel that both maps know; returns how much they weigh together.
float add_pixels(const Level& fixed, const Level& moving, const Alignment& alignment, Equations& equations) {
  const int rows = fixed.dark.rows, cols = fixed.dark.cols;
  const float per_u = static_cast<float>(rows), per_v = static_cast<float>(cols) / 2;
  std::vector<GridSpot> across(static_cast<size_t>(cols));
  for (int c = 0; c < cols; ++c) across[c] = grid_spot((c + 0.5) / cols, kNodesAcross);
  float total_weight = 0;
  for (int r = 0; r < rows; ++r) {
    const GridSpot along = grid_spot((r + 0.5) / rows, kNodesAlong);
    for (int c = 0; c < cols; ++c) {
      const float fixed_weight = fixed.weight(r, c);
      if (fixed_weight <= 0) continue;
      const int n00 = along.cell * kNodesAcross + across[c].cell;
      const float a = along.share, b = across[c].share;
      Residual at{{n00, n00 + 1, n00 + kNodesAcross, n00 + kNodesAcross + 1},
                  {(1 - a) * (1 - b), (1 - a) * b, a * (1 - b), a * b},
                  0,
                  0,
                  0,
                  0};
      float du = 0, dv = 0;
      for (int k = 0; k < 4; ++k)
        du += at.hat[k] * alignment.flow[at.nodes[k]][0], dv += at.hat[k] * alignment.flow[at.nodes[k]][1];
      const Sampled s =
          sample(moving, static_cast<float>(r) + du * per_u, static_cast<float>(c) + dv * per_v);
      at.weight = fixed_weight * s.weight;
      if (at.weight <= 0) continue;
      total_weight += at.weight;
      // The mean of both maps' slopes converges faster than either alone.
      at.slope_u = s.du, at.slope_v = s.dv;
      if (r > 0 && r + 1 < rows)
        at.slope_u = 0.5F * (at.slope_u + 0.5F * (fixed.dark(r + 1, c) - fixed.dark(r - 1, c)));
      if (c > 0 && c + 1 < cols)
        at.slope_v = 0.5F * (at.slope_v + 0.5F * (fixed.dark(r, c + 1) - fixed.dark(r, c - 1)));
      at.difference = fixed.dark(r, c) - s.dark;
      add(at, equations);
    }
  }
  return total_weight;
}

// Four pixels of a map twice as fine stand for one. `per`: pixels of the level to one of u, and of v.
void add_prior(const Level& fixed, const Level& moving, const Alignment& alignment, double unlike,
               const std::array<float, 2>& per, Equations& equations) {
  const std::vector<float>& precision = shipped_strip_errors().precision;
  const float weight =
      static_cast<float>(unlike * std::sqrt(fixed.variance * moving.variance) *
                         static_cast<double>(fixed.dark.rows * fixed.dark.cols) / kCoarsePixels);
  for (int a = 0; a < kUnknowns; ++a)
    for (int b = 0; b < kUnknowns; ++b) {
      const float m = weight * precision[a * kUnknowns + b] / per[a % 2];
      equations.normal[a * kUnknowns + b] += m / per[b % 2];
      equations.right[a] -= m * alignment.flow[b / 2][b % 2];
    }
}

// One Gauss-Newton step on one level.
void step(const Level& fixed, const Level& moving, Alignment& alignment, double unlike) {
  static thread_local Equations equations;
  equations.normal.fill(0), equations.right.fill(0);
  if (add_pixels(fixed, moving, alignment, equations) <= 0) return;
  const std::array<float, 2> per{static_cast<float>(fixed.dark.rows),
                                 static_cast<float>(fixed.dark.cols) / 2};
  add_prior(fixed, moving, alignment, unlike, per, equations);
  auto& [normal, right] = equations;
  if (!cv::hal::Cholesky32f(normal.data(), kUnknowns * sizeof(float), kUnknowns, right.data(), sizeof(float),
                            1))
    return;
  for (int p = 0; p < kNodes; ++p) {
    alignment.flow[p][0] += std::clamp(right[2 * p], -2.F, 2.F) / per[0];
    alignment.flow[p][1] += std::clamp(right[2 * p + 1], -2.F, 2.F) / per[1];
  }
}

// Of the dark share over the known pixels; never quite 0.
double variance_of(const Level& level) {
  const double n = std::max(cv::sum(level.weight)[0], 1.0), mean = level.dark.dot(level.weight) / n;
  const cv::Mat1f weighted = level.dark.mul(level.weight);
  return std::max(weighted.dot(level.dark) / n - mean * mean, 1e-3);
}

Level reduced(const SpotMap& map, int factor, double sigma) {
  cv::Mat1f weight, dark;
  map.valid.convertTo(weight, CV_32F, 1 / 255.0);
  map.dark.convertTo(dark, CV_32F, 1 / 255.0);
  dark = dark.mul(weight);
  const cv::Size size(kMapCols / factor, kMapRows / factor);
  Level out;
  cv::resize(weight, out.weight, size, 0, 0, cv::INTER_AREA);
  cv::resize(dark, out.dark, size, 0, 0, cv::INTER_AREA);
  out.dark = sigma > 0 ? masked_blur(out.dark, out.weight, sigma, cv::BORDER_REPLICATE).value
                       : weighted_mean(out.dark, out.weight);
  out.variance = variance_of(out);
  return out;
}

}  // namespace

void AlignOptions::check() const {
  if (coarse_steps < 0 || fine_steps < 0)
    throw Error(ErrorKind::usage, "alignment", messages::kStepsMustNotBeBelow);
  if (!(unlike > 0)) throw Error(ErrorKind::usage, "alignment", messages::kUnlikeMustBeAbove0);
}

AlignmentMaps alignment_maps(const SpotMap& map) {
  return {reduced(map, 4, 1.0), reduced(map, 2, 0.8)};
}

cv::Point2d Alignment::at(double u, double v) const {
  const GridSpot along = grid_spot(u, kNodesAlong), across = grid_spot((v + 1) / 2, kNodesAcross);
  const int n = along.cell * kNodesAcross + across.cell;
  const float a = along.share, b = across.share;
  const cv::Vec2f f = (1 - a) * ((1 - b) * flow[n] + b * flow[n + 1]) +
                      a * ((1 - b) * flow[n + kNodesAcross] + b * flow[n + kNodesAcross + 1]);
  return {u + f[0], v + f[1]};
}

Level drawn_onto(const Level& moving, const Alignment& alignment) {
  const int rows = moving.dark.rows, cols = moving.dark.cols;
  Level out{cv::Mat1f(rows, cols, 0.F), cv::Mat1f(rows, cols, 0.F)};
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < cols; ++c) {
      const cv::Point2d to = alignment.at((r + 0.5) / rows, (c + 0.5) / cols * 2 - 1);
      const Sampled s = sample(moving, static_cast<float>(to.x * rows - 0.5),
                               static_cast<float>((to.y + 1) / 2 * cols - 0.5));
      out.dark(r, c) = s.dark, out.weight(r, c) = s.weight;
    }
  return out;
}

double masked_correlation(const Level& a, const Level& b) {
  double n = 0, sa = 0, sb = 0, saa = 0, sab = 0, sbb = 0;
  for (int r = 0; r < a.dark.rows; ++r)
    for (int c = 0; c < a.dark.cols; ++c) {
      const double w = a.weight(r, c) * b.weight(r, c), x = a.dark(r, c), y = b.dark(r, c);
      n += w, sa += w * x, sb += w * y, saa += w * x * x, sab += w * x * y, sbb += w * y * y;
    }
  if (n <= 0) return 0;
  const double va = saa - sa * sa / n, vb = sbb - sb * sb / n;
  return va > 1e-9 && vb > 1e-9 ? (sab - sa * sb / n) / std::sqrt(va * vb) : 0;
}

namespace {
void refine(const Level& fixed, const Level& moving, Alignment& alignment, int steps,
            const AlignOptions& options) {
  options.check();
  for (int i = 0; i < steps; ++i) step(fixed, moving, alignment, options.unlike);
  const Level drawn = drawn_onto(moving, alignment);
  alignment.correlation = masked_correlation(fixed, drawn);
  alignment.overlap = drawn.weight.dot(fixed.weight) / static_cast<double>(drawn.dark.total());
}
}  // namespace

Alignment align_coarse(const AlignmentMaps& fixed, const AlignmentMaps& moving, const Placement& start,
                       const AlignOptions& options) {
  Alignment out;
  for (int i = 0; i < kNodesAlong; ++i)
    for (int j = 0; j < kNodesAcross; ++j) {
      const double u = static_cast<double>(i) / (kNodesAlong - 1), v = 2.0 * j / (kNodesAcross - 1) - 1;
      out.flow[i * kNodesAcross + j] = {static_cast<float>(start.u(u) - u),
                                        static_cast<float>(start.v(v) - v)};
    }
  refine(fixed.coarse, moving.coarse, out, options.coarse_steps, options);
  return out;
}

void align_fine(const AlignmentMaps& fixed, const AlignmentMaps& moving, Alignment& alignment,
                const AlignOptions& options) {
  refine(fixed.fine, moving.fine, alignment, options.fine_steps, options);
}

}  // namespace evet
