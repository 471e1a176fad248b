#include "matcher/pattern/describe.h"

#include <cmath>
#include <numeric>

#include "matcher/base/error.h"
#include "matcher/belly/messages.h"
#include "matcher/pattern/embedding_net.h"
#include "matcher/pattern/messages.h"

namespace evet {

std::vector<float> describe(const SpotMap& map) {
  cv::Mat1f dark, known;
  map.valid.convertTo(known, CV_32F, 1 / 255.0);
  if (cv::countNonZero(map.valid) == 0) return std::vector<float>(kDescriptorLength, 0.F);
  map.dark.convertTo(dark, CV_32F, 1 / 255.0, -0.5);
  std::vector<float> out = raw_embedding({dark.mul(known), known});
  if (out.size() != kDescriptorLength)
    throw Error(ErrorKind::unsupported, "embedding network", messages::kAnswersInAnotherShape,
                messages::kUse1X);
  const float length = std::sqrt(std::inner_product(out.begin(), out.end(), out.begin(), 0.F));
  for (float& x : out) x /= std::max(length, 1e-12F);
  return out;
}

double cosine_similarity(const std::vector<float>& a, const std::vector<float>& b) {
  return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

}  // namespace evet
