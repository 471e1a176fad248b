#include "matcher/search/strip_errors.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "matcher/base/error.h"
#include "matcher/search/messages.h"

extern "C" const char evet_strip_errors[], evet_strip_errors_end[];  // weights.S

namespace evet {

using nlohmann::json;

StripErrors strip_errors(std::vector<std::vector<double>> modes, double rest) {
  constexpr int kSize = 2 * kNodes;
  cv::Mat1d covariance(kSize, kSize, 0.0);
  for (const std::vector<double>& mode : modes)
    for (int a = 0; a < kSize; ++a)
      for (int b = 0; b < kSize; ++b) covariance(a, b) += mode[a] * mode[b];
  for (int a = 0; a < kSize; ++a) {
    const double each = a % 2 == 0 ? rest : rest / kHalfWidth;
    covariance(a, a) += each * each;
  }
  const cv::Mat1d inverse = (2 * covariance).inv(cv::DECOMP_CHOLESKY);
  return {std::move(modes), rest, {inverse.begin(), inverse.end()}};
}

double strain(const Flow& flow, const StripErrors& errors) {
  constexpr int kSize = 2 * kNodes;
  double sum = 0;
  for (int a = 0; a < kSize; ++a) {
    double line = 0;
    for (int b = 0; b < kSize; ++b) line += errors.precision[a * kSize + b] * flow[b / 2][b % 2];
    sum += line * flow[a / 2][a % 2];
  }
  return sum / kSize;
}

StripErrors parse_strip_errors(std::string_view text, const std::string& item) {
  try {
    const json from = json::parse(text);
    if (from.at("nodes") != json{kNodesAlong, kNodesAcross})
      throw Error(ErrorKind::bad_input, item, messages::kWasFittedOnAnotherGrid, messages::kFitAgain);
    const auto modes = from.at("modes").get<std::vector<std::vector<double>>>();
    const double rest = from.at("rest");
    for (const std::vector<double>& mode : modes)
      if (mode.size() != 2 * kNodes)
        throw Error(ErrorKind::bad_input, item, messages::kModeHasWrongNumberOf, messages::kFitAgain);
    if (!(rest > 0)) throw Error(ErrorKind::bad_input, item, messages::kRestIsNotAbove0, messages::kFitAgain);
    return strip_errors(modes, rest);
  } catch (const json::exception& e) {
    throw Error(ErrorKind::bad_input, item, Message(messages::kIsNotFileOfStrip, {{"e", e.what()}}));
  }
}

std::string to_json(const StripErrors& errors) {
  json modes = json::array();
  for (const std::vector<double>& mode : errors.modes) {
    json rounded = json::array();
    for (const double x : mode) rounded.push_back(std::round(x * 1e5) / 1e5);
    modes.push_back(std::move(rounded));
  }
  return json{{"nodes", {kNodesAlong, kNodesAcross}}, {"rest", errors.rest}, {"modes", modes}}.dump() + "\n";
}

const StripErrors& shipped_strip_errors() {
  static const StripErrors errors =
      parse_strip_errors({evet_strip_errors, static_cast<size_t>(evet_strip_errors_end - evet_strip_errors)},
                         "models/weights/strip_errors.json");
  return errors;
}

}  // namespace evet
