#include "matcher/pattern/pattern_code.h"

#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/pattern/masked_blur.h"

namespace evet {
namespace {

constexpr double kFineSigma = 2.5, kCoarseSigma = 5, kSlopeSigma = 4;  // map pixels; spots are 3 to 20 across
constexpr float kLeastSupport = 0.5F;  // of a filter's weight that must lie on valid skin
constexpr float kWeakest = 0.4F;       // of the filter's root mean square on this map

cv::Mat1f slope(const cv::Mat1f& blurred, int along_u) {
  cv::Mat1f out;
  const cv::Mat1f kernel = (cv::Mat1f(1, 5) << -0.25F, -0.25F, 0, 0.25F, 0.25F);
  if (along_u)
    cv::sepFilter2D(blurred, out, CV_32F, cv::Mat1f::ones(1, 1), kernel.t(), {-1, -1}, 0,
                    cv::BORDER_REPLICATE);
  else
    cv::sepFilter2D(blurred, out, CV_32F, kernel, cv::Mat1f::ones(1, 1), {-1, -1}, 0, cv::BORDER_REPLICATE);
  return out;
}

}  // namespace

BandResponses band_responses(const SpotMap& map) {
  const MaskedBlur fine = masked_blur(map, kFineSigma), middle = masked_blur(map, kCoarseSigma),
                   coarse = masked_blur(map, 2 * kCoarseSigma), base = masked_blur(map, kSlopeSigma);
  BandResponses out;
  out.value = {fine.value - middle.value, middle.value - coarse.value, slope(base.value, 1),
               slope(base.value, 0)};
  const std::array<const cv::Mat1f*, kCodeFilters> support = {&fine.support, &middle.support, &base.support,
                                                              &base.support};
  for (int f = 0; f < kCodeFilters; ++f) {
    double sum = 0, n = 1e-9;
    for (int row = 0; row < kMapRows; ++row)
      for (int col = 0; col < kMapCols; ++col) {
        float& value = out.value[f](row, col);
        if ((*support[f])(row, col) < kLeastSupport)
          value = 0;
        else
          sum += static_cast<double>(value) * value, n += 1;
      }
    out.weakest[f] = std::max(kWeakest * static_cast<float>(std::sqrt(sum / n)), 1e-4F);
  }
  return out;
}

PatternCode read_code(const BandResponses& responses, const Placement& placement) {
  PatternCode code;
  std::array<int, kCodeAlong> rows{};
  std::array<int, kCodeAcross> cols{};
  for (int i = 0; i < kCodeAlong; ++i)
    rows[i] = static_cast<int>(std::floor(placement.u((i + 0.5) / kCodeAlong) * kMapRows));
  for (int j = 0; j < kCodeAcross; ++j)
    cols[j] = static_cast<int>(std::floor((placement.v((j + 0.5) / kCodeAcross * 2 - 1) + 1) / 2 * kMapCols));
  for (int f = 0; f < kCodeFilters; ++f)
    for (int i = 0; i < kCodeAlong; ++i) {
      if (rows[i] < 0 || rows[i] >= kMapRows) continue;
      const float* line = responses.value[f][rows[i]];
      std::uint64_t bits = 0, known = 0;
      for (int j = 0; j < kCodeAcross; ++j) {
        if (cols[j] < 0 || cols[j] >= kMapCols) continue;
        const float value = line[cols[j]];
        bits |= static_cast<std::uint64_t>(value > 0) << j;
        known |= static_cast<std::uint64_t>(std::abs(value) >= responses.weakest[f]) << j;
      }
      const int first = (f * kCodeAlong + i) * kCodeAcross;
      code.bits[first / 64] |= (bits & known) << (first % 64);
      code.known[first / 64] |= known << (first % 64);
    }
  return code;
}

}  // namespace evet
