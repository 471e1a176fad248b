#include "matcher/pattern/describe.h"

#include <cmath>

#include "matcher/pattern/masked_blur.h"

namespace evet {

std::vector<float> describe(const SpotMap& map, const Placement& placement) {
  constexpr double kSigma = 6;  // map pixels: about half a grid step, so that small shifts change little
  const MaskedBlur smooth = masked_blur(map, kSigma);
  std::vector<float> out(static_cast<size_t>(kDescriptorAlong) * kDescriptorAcross, 0.F);
  std::vector<float> weight(out.size(), 0.F);
  double sum = 0, total = 1e-9;
  for (int i = 0; i < kDescriptorAlong; ++i)
    for (int j = 0; j < kDescriptorAcross; ++j) {
      const int row = static_cast<int>(std::floor(placement.u((i + 0.5) / kDescriptorAlong) * kMapRows));
      const int col = static_cast<int>(
          std::floor((placement.v((j + 0.5) / kDescriptorAcross * 2 - 1) + 1) / 2 * kMapCols));
      if (row < 0 || row >= kMapRows || col < 0 || col >= kMapCols) continue;
      const size_t at = static_cast<size_t>(i) * kDescriptorAcross + j;
      weight[at] = std::min(1.F, 1.5F * smooth.support(row, col));
      out[at] = smooth.value(row, col);
      sum += weight[at] * out[at];
      total += weight[at];
    }
  double squares = 0;
  for (size_t i = 0; i < out.size(); ++i) {
    out[i] = weight[i] * (out[i] - static_cast<float>(sum / total));
    squares += static_cast<double>(out[i]) * out[i];
  }
  const float scale = squares > 1e-12 ? static_cast<float>(1 / std::sqrt(squares)) : 0.F;
  for (float& x : out) x *= scale;
  return out;
}

}  // namespace evet
