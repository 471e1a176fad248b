#include "matcher/belly/measure_quality.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "matcher/base/error.h"
#include "matcher/belly/glare.h"
#include "matcher/belly/messages.h"
#include "matcher/belly/note_words.h"

namespace evet {
namespace {

constexpr int kTooDark = 28;  // of 255: the brightest ground near a pixel; below it spot and ground are one

double share(const cv::Mat1b& mask, const cv::Mat1b& of) {
  const int all = cv::countNonZero(of);
  return all > 0 ? static_cast<double>(cv::countNonZero(mask & of)) / all : 0;
}

double percentile(std::vector<float>& values, double p) {
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(p * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

// Steepest edges over the contrast they span: one over the width of an edge in canvas pixels. A small or
// blurred picture and a moved one all score low, a dim but sharp one does not.
double edge_strength(const Strip& strip) {
  cv::Mat1b grey, inside;
  cv::cvtColor(strip.bgr, grey, cv::COLOR_BGR2GRAY);
  cv::erode(strip.valid, inside, cv::Mat::ones(5, 5, CV_8U));
  cv::Mat1f soft, dx, dy, slope;
  grey.convertTo(soft, CV_32F);
  cv::GaussianBlur(soft, soft, {}, 0.8);  // sensor noise is not sharpness
  cv::Sobel(soft, dx, CV_32F, 1, 0, 3, 0.125);
  cv::Sobel(soft, dy, CV_32F, 0, 1, 3, 0.125);
  cv::magnitude(dx, dy, slope);
  std::vector<float> levels, slopes;
  for (int y = 0; y < inside.rows; ++y)
    for (int x = 0; x < inside.cols; ++x)
      if (inside(y, x)) levels.push_back(soft(y, x)), slopes.push_back(slope(y, x));
  if (levels.size() < 500) return 0;
  const double contrast = percentile(levels, 0.95) - percentile(levels, 0.05);
  return percentile(slopes, 0.98) / std::max(contrast, 4.0);
}

// What is said of the part of a belly that is not seen: why, and what to do about it.
struct UnseenWords {
  std::optional<Message> cause;
  Message advice;
};
UnseenWords words_of(const UnseenShares& unseen, bool turned) {
  const double most = std::max({unseen.outside, unseen.covered, unseen.elsewhere, unseen.glare});
  if (most <= 0) return {std::nullopt, messages::kClearAndKeepIn};
  if (most == unseen.outside) return {messages::kBeyondEdge, messages::kKeepEndsIn};
  if (most == unseen.covered) return {messages::kCovered, messages::kClearAway};
  if (most == unseen.glare) return {messages::kHiddenByGlare, messages::kShadeTheLamp};
  if (turned) return {messages::kTurnedAway, messages::kWaitUntilFlat};
  return {messages::kNotMadeOut, messages::kWholeOrByHand};
}

// "only 31 % of the belly is plainly seen, the rest lies beyond the edge of the picture: ..."
Message told_seen(double seen_share, const UnseenWords& unseen) {
  const bool sees_some = std::lround(100 * seen_share) > 0;
  std::vector<Message::Argument> what = {{"part", part_of_belly(seen_share, messages::kNothingOfBelly)},
                                         {"advice", unseen.advice}};
  if (!unseen.cause) return {sees_some ? messages::kSeenAlone : messages::kNotSeen, what};
  what.push_back({"cause", *unseen.cause});
  return {sees_some ? messages::kSeenBecause : messages::kNotSeenBecause, what};
}

}  // namespace

Quality measure_quality(const BodyCoordinates& coordinates, const StripFit& fit, const BellyShape& shape,
                        const Strip& strip) {
  Quality q;
  q.sharpness = edge_strength(strip);
  const cv::Mat1b glare = glare_mask(strip.bgr);
  q.glare_share = share(glare, strip.valid | glare);
  cv::Mat3b brightest;
  cv::dilate(strip.bgr, brightest, cv::Mat::ones(41, 41, CV_8U));
  cv::Mat1b lit;
  cv::cvtColor(brightest, lit, cv::COLOR_BGR2GRAY);
  q.dark_share = share(lit < kTooDark, strip.valid);
  q.seen_share =
      static_cast<double>(cv::countNonZero(strip.valid)) / static_cast<double>(strip.valid.total());
  q.belly_length_px = shape.length_px;
  q.bend_deg = shape.bend_deg;
  q.roll = std::abs(shape.roll);
  // A map that most pixels agree with is a belly's; a stray patch of warm colour has none.
  q.p_belly = coordinates.confidence * std::clamp(1.5 * fit.inlier_share, 0.0, 1.0);
  return q;
}

void QualityLimits::check() const {
  if (sharpness_block > sharpness_advice || glare_block < glare_advice || dark_block < dark_advice ||
      seen_block > seen_advice || length_block_px > length_advice_px)
    throw Error(ErrorKind::usage, "quality limits", messages::kBlockBeforeTheyAdvise,
                messages::kPutBlockingLimitBeyondAdvising);
}

std::vector<QualityNote> advise(const Quality& q, const UnseenShares& unseen, const QualityLimits& limits) {
  limits.check();
  std::vector<QualityNote> notes;
  const auto add = [&](bool advice, bool block, const char* measure, const Message& words) {
    if (advice || block) notes.push_back({measure, words.words(), block});
  };
  const auto say = [&](bool advice, bool block, const char* measure) {
    add(advice, block, measure, words_of_note(measure, block, q).value());
  };
  say(false, q.p_belly < limits.p_belly_block, "p_belly");
  add(q.seen_share < limits.seen_advice, q.seen_share < limits.seen_block, "seen_share",
      told_seen(q.seen_share, words_of(unseen, q.roll > limits.roll_advice)));
  say(q.glare_share > limits.glare_advice, q.glare_share > limits.glare_block, "glare_share");
  say(q.sharpness < limits.sharpness_advice, q.sharpness < limits.sharpness_block, "sharpness");
  say(q.belly_length_px < limits.length_advice_px, q.belly_length_px < limits.length_block_px,
      "belly_length_px");
  say(q.dark_share > limits.dark_advice, q.dark_share > limits.dark_block, "dark_share");
  say(q.bend_deg > limits.bend_advice_deg, false, "bend_deg");
  say(q.roll > limits.roll_advice, false, "roll");
  std::stable_sort(notes.begin(), notes.end(),
                   [](const QualityNote& a, const QualityNote& b) { return a.blocks > b.blocks; });
  return notes;
}

}  // namespace evet
