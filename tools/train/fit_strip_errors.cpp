#include "tools/train/fit_strip_errors.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "matcher/belly/find_belly.h"
#include "matcher/pattern/examine.h"
#include "matcher/photo/decode.h"
#include "tools/render/on_threads.h"
#include "tools/train/messages.h"
#include "tools/train/rendered_set.h"

namespace evet::train {
namespace {

constexpr int kSize = 2 * kNodes;
constexpr int kAlong = 65, kAcross = 25;    // places read on a strip
constexpr double kMostU = 0.3, kMostV = 1;  // errors beyond are of another kind: a strip turned round
constexpr double kUneven = 0.05, kBent = 0.5, kTether = 1e-3;  // against the places' weight of 1 each

// Adds weight * (sum of terms)^2 to the normal equations.
void hold(Eigen::MatrixXd& normal, std::initializer_list<std::pair<int, double>> terms, double weight) {
  for (const auto& [a, x] : terms)
    for (const auto& [b, y] : terms) normal(a, b) += weight * x * y;
}

// None where the photo gives no usable strip.
std::optional<std::vector<double>> example_of(const render::RenderedPhoto& rendered) {
  const auto file = render::to_camera_jpeg(rendered.bgr, 95, 1, "2031-05-14T22:41:07");
  const Photo photo = decode_photo({reinterpret_cast<const std::byte*>(file.data()), file.size()},
                                   "rendered photo", ExamineOptions{}.decode);
  const BellyFinding found = find_belly(photo);
  const std::optional<StripFit> fit = found.usable() ? found.fit : std::nullopt;
  if (!fit) return std::nullopt;
  const render::Truth& truth = rendered.truth;
  return errors_at_nodes([&](double u, double v) -> std::optional<cv::Point2d> {
    const cv::Point2d at = fit->photo_from_strip.at(u, v);
    const cv::Point pixel(cvFloor(at.x), cvFloor(at.y));
    if (!cv::Rect({}, truth.belly.size()).contains(pixel) || !truth.belly(pixel)) return std::nullopt;
    const cv::Vec2f uv = truth.uv(pixel);
    if (std::isnan(uv[0])) return std::nullopt;
    return cv::Point2d(uv[0], uv[1]);
  });
}

}  // namespace

std::optional<std::vector<double>> errors_at_nodes(const TrueAt& true_at) {
  Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(kNodes, kNodes), right = Eigen::MatrixXd::Zero(kNodes, 2);
  int seen = 0;
  for (int i = 0; i < kAlong; ++i)
    for (int j = 0; j < kAcross; ++j) {
      const double u = (i + 0.5) / kAlong, v = (j + 0.5) / kAcross * 2 - 1;
      const std::optional<cv::Point2d> truth = true_at(u, v);
      if (!truth || std::abs(truth->x - u) > kMostU || std::abs(truth->y - v) > kMostV) continue;
      ++seen;
      const double x = u * (kNodesAlong - 1), y = (v + 1) / 2 * (kNodesAcross - 1);
      const int row = std::min(static_cast<int>(x), kNodesAlong - 2),
                col = std::min(static_cast<int>(y), kNodesAcross - 2), n = row * kNodesAcross + col;
      const double a = x - row, b = y - col;
      const std::array<std::pair<int, double>, 4> hat = {{{n, (1 - a) * (1 - b)},
                                                          {n + 1, (1 - a) * b},
                                                          {n + kNodesAcross, a * (1 - b)},
                                                          {n + kNodesAcross + 1, a * b}}};
      for (const auto& [p, wp] : hat) {
        right(p, 0) += wp * (truth->x - u), right(p, 1) += wp * (truth->y - v);
        for (const auto& [q, wq] : hat) normal(p, q) += wp * wq;
      }
    }
  if (4 * seen < kAlong * kAcross) return std::nullopt;
  for (int i = 0; i < kNodesAlong; ++i)
    for (int j = 0; j < kNodesAcross; ++j) {
      const int n = i * kNodesAcross + j, along = kNodesAcross;
      hold(normal, {{n, 1}}, kTether);
      if (i + 1 < kNodesAlong) hold(normal, {{n, 1}, {n + along, -1}}, kUneven);
      if (j + 1 < kNodesAcross) hold(normal, {{n, 1}, {n + 1, -1}}, kUneven);
      if (i + 2 < kNodesAlong) hold(normal, {{n, 1}, {n + along, -2}, {n + 2 * along, 1}}, kBent);
      if (j + 2 < kNodesAcross) hold(normal, {{n, 1}, {n + 1, -2}, {n + 2, 1}}, kBent);
    }
  const Eigen::MatrixXd nodes = normal.ldlt().solve(right);
  std::vector<double> out(kSize);
  for (int n = 0; n < kNodes; ++n) out[2 * n] = nodes(n, 0), out[2 * n + 1] = nodes(n, 1);
  return out;
}

StripErrors fit_strip_errors(const std::vector<std::vector<double>>& examples, int modes, double rest) {
  if (examples.size() < 2)
    throw Error(ErrorKind::bad_input, "strip errors", messages::kFewerThanTwoPhotosGave,
                messages::kRenderMore);
  Eigen::MatrixXd x(static_cast<Eigen::Index>(examples.size()), kSize);
  for (Eigen::Index i = 0; i < x.rows(); ++i)
    for (int k = 0; k < kSize; ++k)  // in lengths, so that along and across weigh alike
      x(i, k) = examples[static_cast<size_t>(i)][k] * (k % 2 == 0 ? 1 : kHalfWidth);
  x.rowwise() -= x.colwise().mean().eval();
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(x, Eigen::ComputeThinV);
  std::vector<std::vector<double>> kept;
  for (int m = 0; m < std::min<int>(modes, static_cast<int>(svd.singularValues().size())); ++m) {
    const double deviation = svd.singularValues()[m] / std::sqrt(static_cast<double>(x.rows() - 1));
    std::vector<double> mode(kSize);
    for (int k = 0; k < kSize; ++k) mode[k] = svd.matrixV()(k, m) * deviation / (k % 2 == 0 ? 1 : kHalfWidth);
    kept.push_back(std::move(mode));
  }
  return strip_errors(std::move(kept), rest);
}

std::vector<std::vector<double>> rendered_examples(std::uint64_t world, render::Difficulty difficulty,
                                                   std::uint32_t individuals, std::uint32_t captures,
                                                   int threads, render::World drawing) {
  std::vector<std::optional<std::vector<double>>> examples(static_cast<size_t>(individuals) * captures);
  render::on_threads(examples.size(), threads, [&](size_t i) {
    render::CaptureSpec spec;
    spec.world = drawing;
    spec.world_seed = world, spec.size = SetSpec{}.photo, spec.conditions.difficulty = difficulty;
    spec.individual = static_cast<std::uint32_t>(i) / captures;
    spec.capture = static_cast<std::uint32_t>(i) % captures;
    spec.years = years_of(difficulty, spec.individual, spec.capture, captures);
    examples[i] = example_of(render::render(spec));
  });
  std::vector<std::vector<double>> out;
  for (auto& example : examples)
    if (example) out.push_back(std::move(*example));
  return out;
}

}  // namespace evet::train
