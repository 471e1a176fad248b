#include "matcher/search/strip_errors.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "matcher/base/error.h"

namespace evet {
namespace {

// Draws of one strip's errors as the covariance says.
Flow drawn(const StripErrors& errors, std::mt19937& rng) {
  std::normal_distribution<> normal;
  Flow out{};
  for (const std::vector<double>& mode : errors.modes) {
    const double much = normal(rng);
    for (int n = 0; n < kNodes; ++n)
      out[n] += cv::Vec2f(static_cast<float>(much * mode[2 * n]), static_cast<float>(much * mode[2 * n + 1]));
  }
  for (cv::Vec2f& f : out)
    f += cv::Vec2f(static_cast<float>(errors.rest * normal(rng)),
                   static_cast<float>(errors.rest / kHalfWidth * normal(rng)));
  return out;
}

TEST(StripErrors, TwoStripsOfOneAnimalStrainByOne) {
  const StripErrors& errors = shipped_strip_errors();
  std::mt19937 rng(3);
  double sum = 0;
  constexpr int kPairs = 400;
  for (int i = 0; i < kPairs; ++i) {
    Flow a = drawn(errors, rng);
    const Flow b = drawn(errors, rng);
    for (int n = 0; n < kNodes; ++n) a[n] -= b[n];
    sum += strain(a, errors);
  }
  // The mean of chi-square over its degrees of freedom, 72: standard error sqrt(2 / 72 / 400) = 0.008.
  EXPECT_NEAR(sum / kPairs, 1, 0.04);
}

TEST(StripErrors, AUsualErrorStrainsFarLessThanAnUnseenOneOfTheSameSize) {
  const StripErrors& errors = shipped_strip_errors();
  Flow usual{}, odd{};
  double size = 0;
  for (int n = 0; n < kNodes; ++n) {
    usual[n] = {static_cast<float>(errors.modes[0][2 * n]), static_cast<float>(errors.modes[0][2 * n + 1])};
    size += usual[n][0] * usual[n][0] + kHalfWidth * kHalfWidth * usual[n][1] * usual[n][1];
  }
  for (int n = 0; n < kNodes; ++n)
    odd[n] = {static_cast<float>(std::sqrt(size / kNodes) * (n % 2 == 0 ? 1 : -1)), 0.F};
  EXPECT_LT(20 * strain(usual, errors), strain(odd, errors));
}

TEST(StripErrors, AreTheSameReadAgain) {
  const StripErrors& shipped = shipped_strip_errors();
  const StripErrors again = parse_strip_errors(to_json(shipped), "written");
  ASSERT_EQ(again.modes.size(), shipped.modes.size());
  for (size_t k = 0; k < shipped.precision.size(); ++k)
    EXPECT_FLOAT_EQ(again.precision[k], shipped.precision[k]);
}

TEST(StripErrors, AFileThatIsNoneIsRefusedByName) {
  for (const char* text :
       {"{}", "nonsense", R"({"nodes":[9,3],"rest":0.004,"modes":[]})",
        R"({"nodes":[9,4],"rest":0,"modes":[]})", R"({"nodes":[9,4],"rest":0.004,"modes":[[1,2]]})"}) {
    try {
      parse_strip_errors(text, "errors.json");
      FAIL() << text;
    } catch (const Error& e) {
      EXPECT_EQ(e.kind(), ErrorKind::bad_input);
      EXPECT_NE(std::string(e.what()).find("errors.json"), std::string::npos);
    }
  }
}

}  // namespace
}  // namespace evet
