#include "matcher/pattern/spot_map.h"

#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/belly/messages.h"
#include "matcher/pattern/messages.h"
#include "matcher/pattern/spot_net.h"

namespace evet {
namespace {

void check_size(const Strip& strip) {
  const cv::Size canvas(kStripCols, kStripRows);
  if (strip.bgr.size() != canvas || strip.valid.size() != canvas)
    throw Error(ErrorKind::bad_input, "strip", messages::kIsNotOfSizeAll, messages::kGiveRowsAndColumnsWith);
}

// The strip on the map's frame as the network wants it.
std::vector<cv::Mat1f> network_input(const Strip& strip) {
  cv::Mat3b bgr = strip.bgr.clone();
  cv::Mat1b beyond;  // the picture's edge: black without any noise
  cv::inRange(bgr, cv::Scalar::all(0), cv::Scalar::all(0), beyond);
  bgr.setTo(cv::Scalar::all(128), beyond);
  cv::Mat3f exact, small;
  bgr.convertTo(exact, CV_32F, 1 / 255.0);
  cv::resize(exact, small, {kMapCols, kMapRows}, 0, 0, cv::INTER_AREA);
  std::vector<cv::Mat1f> planes(3);
  for (int k = 0; k < 3; ++k) cv::extractChannel(small, planes[k], 2 - k);
  return planes;
}

}  // namespace

void SpotMapOptions::check() const {
  if (min_p_seen < 0 || min_p_seen > 1) throw Error(ErrorKind::usage, "spot map", messages::kMinPSeenMustLie);
  if (min_valid_share <= 0 || min_valid_share > 1)
    throw Error(ErrorKind::usage, "spot map", messages::kMinValidShareMustLie);
}

SpotMap make_spot_map(const Strip& strip, const SpotMapOptions& options) {
  options.check();
  check_size(strip);
  cv::Mat1b share;
  cv::resize(strip.valid, share, {kMapCols, kMapRows}, 0, 0, cv::INTER_AREA);
  const std::vector<float> logits = spot_logits(network_input(strip));
  constexpr size_t kCells = static_cast<size_t>(kMapRows) * kMapCols;
  if (logits.size() != 2 * kCells)
    throw Error(ErrorKind::unsupported, "spot network", messages::kAnswersInAnotherShape, messages::kUse1X2X);
  const auto probability = [&](size_t at) { return 1 / (1 + std::exp(-static_cast<double>(logits[at]))); };
  SpotMap map{cv::Mat1b(kMapRows, kMapCols, uchar{0}), cv::Mat1b(kMapRows, kMapCols, uchar{0})};
  for (size_t i = 0; i < kCells; ++i) {
    if (share.data[i] < 255 * options.min_valid_share || probability(kCells + i) < options.min_p_seen)
      continue;
    map.valid.data[i] = 255;
    map.dark.data[i] = static_cast<uchar>(std::lround(255 * probability(i)));
  }
  return map;
}

SpotMap turned(const SpotMap& map) {
  SpotMap out;
  cv::flip(map.dark, out.dark, -1);
  cv::flip(map.valid, out.valid, -1);
  return out;
}

}  // namespace evet
