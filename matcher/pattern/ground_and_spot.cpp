#include "matcher/pattern/ground_and_spot.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <opencv2/imgproc.hpp>
#include <vector>

namespace evet {
namespace {

constexpr int kTerms = 15;           // of the lighting field: products of Legendre polynomials up to degree 4
constexpr double kMinSpread = 0.12;  // natural log units; skin is never more even than this

struct Sample {
  std::array<double, kTerms> basis;
  cv::Vec2d colour;
  int row, col;
};

std::array<double, kTerms> basis_at(double u, double v) {  // u, v in [-1, 1]
  const auto legendre = [](double x) {
    return std::array<double, 5>{1, x, (3 * x * x - 1) / 2, (5 * x * x - 3) * x / 2,
                                 ((35 * x * x - 30) * x * x + 3) / 8};
  };
  const auto pu = legendre(u), pv = legendre(v);
  std::array<double, kTerms> out{};
  int n = 0;
  for (int i = 0; i < 5; ++i)
    for (int j = 0; i + j < 5; ++j) out[n++] = pu[i] * pv[j];
  return out;
}

struct Gaussian {
  cv::Vec2d mean;
  cv::Matx22d precision;
  double log_norm = 0;  // log share - log sqrt det covariance
};

struct Mixture {
  Gaussian ground, spot;
  cv::Vec<double, kTerms> field;  // without a constant: that belongs to the means
  double log_likelihood = -std::numeric_limits<double>::infinity();
};

double lighting(const Mixture& m, const Sample& s) {
  double sum = 0;
  for (int k = 1; k < kTerms; ++k) sum += m.field[k] * s.basis[k];
  return sum;
}
cv::Vec2d relit(const Mixture& m, const Sample& s) {
  const double light = lighting(m, s);
  return {s.colour[0] - light, s.colour[1]};  // a colour cast is one for the whole belly
}
double log_density(const Gaussian& g, const cv::Vec2d& x) {
  const cv::Vec2d d = x - g.mean;
  return g.log_norm - 0.5 * d.dot(g.precision * d);
}

Gaussian weighted_gaussian(const std::vector<cv::Vec2d>& x, const std::vector<double>& w, double total) {
  double sum = 1e-9;
  cv::Vec2d mean(0, 0);
  for (size_t i = 0; i < x.size(); ++i) sum += w[i], mean += w[i] * x[i];
  mean *= 1 / sum;
  double a = 0, b = 0, c = 0;
  for (size_t i = 0; i < x.size(); ++i) {
    const cv::Vec2d d = x[i] - mean;
    a += w[i] * d[0] * d[0], b += w[i] * d[0] * d[1], c += w[i] * d[1] * d[1];
  }
  a = a / sum + kMinSpread * kMinSpread, b /= sum, c = c / sum + kMinSpread * kMinSpread;
  const double det = a * c - b * b;
  // A share is kept off zero, so that a nearly plain belly still has a class for its few dots.
  const double share = std::max(sum / total, 0.01);
  return {mean, cv::Matx22d(c, -b, -b, a) * (1 / det), std::log(share) - 0.5 * std::log(det)};
}

// Least squares for the field, weighted by how sure each class is of its brightness.
void fit_field(Mixture& m, const std::vector<Sample>& samples, const std::vector<double>& p_spot) {
  constexpr int kFree = kTerms - 1;
  cv::Matx<double, kFree, kFree> normal = cv::Matx<double, kFree, kFree>::zeros();
  cv::Vec<double, kFree> right = cv::Vec<double, kFree>::all(0);
  for (size_t i = 0; i < samples.size(); ++i) {
    const Sample& s = samples[i];
    const double wg = (1 - p_spot[i]) * m.ground.precision(0, 0), ws = p_spot[i] * m.spot.precision(0, 0);
    const double target = wg * (s.colour[0] - m.ground.mean[0]) + ws * (s.colour[0] - m.spot.mean[0]);
    for (int a = 0; a < kFree; ++a) {
      right[a] += target * s.basis[a + 1];
      for (int b = a; b < kFree; ++b) normal(a, b) += (wg + ws) * s.basis[a + 1] * s.basis[b + 1];
    }
  }
  for (int a = 0; a < kFree; ++a) {
    for (int b = 0; b < a; ++b) normal(a, b) = normal(b, a);
    normal(a, a) += 0.002 * static_cast<double>(samples.size());  // bare patches must not bend the field
  }
  const cv::Vec<double, kFree> solved = normal.solve(right, cv::DECOMP_CHOLESKY);
  for (int a = 0; a < kFree; ++a) m.field[a + 1] = solved[a];
}

Mixture fit(const std::vector<Sample>& samples, std::vector<double> p_spot, int iterations) {
  Mixture m;
  m.field = cv::Vec<double, kTerms>::all(0);
  std::vector<cv::Vec2d> x(samples.size());
  std::vector<double> p_ground(samples.size());
  for (int round = 0; round < iterations; ++round) {
    for (int inner = 0; inner < 2; ++inner) {  // means and field lean on each other
      for (size_t i = 0; i < samples.size(); ++i) x[i] = relit(m, samples[i]), p_ground[i] = 1 - p_spot[i];
      m.ground = weighted_gaussian(x, p_ground, static_cast<double>(samples.size()));
      m.spot = weighted_gaussian(x, p_spot, static_cast<double>(samples.size()));
      if (inner == 0) fit_field(m, samples, p_spot);
    }
    m.log_likelihood = 0;
    for (size_t i = 0; i < samples.size(); ++i) {
      const double g = log_density(m.ground, x[i]), s = log_density(m.spot, x[i]);
      const double top = std::max(g, s), sum = top + std::log(std::exp(g - top) + std::exp(s - top));
      m.log_likelihood += sum;
      p_spot[i] = std::exp(s - sum);
      // Beyond both means the nearer class is meant, however wide the other one is.
      if (x[i][0] < m.spot.mean[0] && x[i][0] < m.ground.mean[0]) p_spot[i] = std::max(p_spot[i], 0.5);
    }
  }
  return m;
}

// First guesses of which samples are spots: each start is an upper limit on brightness relative to the
// brightest skin nearby, or on hue relative to the belly's own range.
std::vector<std::vector<double>> starts(const LogColours& colours, const std::vector<Sample>& samples) {
  cv::Mat1f bright(colours.colour.size(), -20.F);
  for (const Sample& s : samples) bright(s.row, s.col) = static_cast<float>(s.colour[0]);
  cv::Mat1f nearby;
  cv::dilate(bright, nearby, cv::getStructuringElement(cv::MORPH_ELLIPSE, {41, 61}));
  cv::blur(nearby, nearby, {15, 25});
  std::vector<double> hue;
  for (const Sample& s : samples) hue.push_back(s.colour[1]);
  std::sort(hue.begin(), hue.end());
  const double low = hue[hue.size() / 50], high = hue[hue.size() - 1 - hue.size() / 50];
  std::vector<std::vector<double>> out;
  for (const double drop : {0.7, 1.4}) {
    std::vector<double> p;
    for (const Sample& s : samples) p.push_back(s.colour[0] < nearby(s.row, s.col) - drop ? 0.95 : 0.05);
    out.push_back(std::move(p));
  }
  std::vector<double> p;
  for (const Sample& s : samples) p.push_back(s.colour[1] < (low + high) / 2 ? 0.95 : 0.05);
  out.push_back(std::move(p));
  return out;
}

}  // namespace

cv::Mat1b darkness(const LogColours& colours, const SpotMapOptions& options) {
  cv::Mat1b dark(colours.colour.size(), uchar{0});
  std::vector<Sample> samples, sparse;
  for (int row = 0; row < dark.rows; ++row)
    for (int col = 0; col < dark.cols; ++col)
      if (colours.valid(row, col)) {
        samples.push_back({basis_at((row + 0.5) / dark.rows * 2 - 1, (col + 0.5) / dark.cols * 2 - 1),
                           colours.colour(row, col), row, col});
        if (row % 2 == 0 && col % 2 == 0) sparse.push_back(samples.back());
      }
  if (sparse.size() < 64) return dark;  // too little skin to tell two classes apart

  Mixture best;
  for (std::vector<double>& start : starts(colours, sparse)) {
    Mixture m = fit(sparse, std::move(start), options.iterations);
    if (m.spot.mean[0] > m.ground.mean[0]) std::swap(m.spot, m.ground);
    const double contrast = m.ground.mean[0] - m.spot.mean[0];
    if (contrast >= options.min_contrast && m.log_likelihood > best.log_likelihood) best = m;
  }
  if (!std::isfinite(best.log_likelihood)) return dark;  // one class only: no spots

  // Along the line that separates the classes best, 0 at ground and 1 at spot; then back from logarithms, so
  // that a pixel half covered by a spot reads one half.
  const cv::Vec2d gap = best.spot.mean - best.ground.mean;
  const cv::Vec2d direction = (best.ground.precision + best.spot.precision) * gap;
  const double contrast = -gap[0], full = 1 - std::exp(-contrast);
  for (const Sample& s : samples) {
    const double t = direction.dot(relit(best, s) - best.ground.mean) / direction.dot(gap);
    const double share = (1 - std::exp(-contrast * std::clamp(t, 0.0, 1.0))) / full;
    dark(s.row, s.col) = static_cast<uchar>(std::lround(255 * std::clamp((share - 0.1) / 0.8, 0.0, 1.0)));
  }
  return dark;
}

}  // namespace evet
