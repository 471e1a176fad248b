#include "matcher/belly/measure_quality.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/belly/glare.h"
#include "matcher/belly/messages.h"

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
  const char *why, *what_to_do;
};
UnseenWords words_of(const UnseenShares& unseen, bool turned) {
  const double most = std::max({unseen.outside, unseen.covered, unseen.elsewhere, unseen.glare});
  if (most <= 0)
    return {"",
            "clear fingers, net and leaves away, keep throat and vent in the picture, and photograph again "
            "before release"};
  if (most == unseen.outside)
    return {"lies beyond the edge of the picture",
            "keep throat and vent in the picture, and photograph again before release"};
  if (most == unseen.covered)
    return {"has something lying over it",
            "clear fingers, net and leaves away, and photograph again before release"};
  if (most == unseen.glare)
    return {"is hidden by reflected light",
            "tilt the tray or shade the lamp, and photograph again before release"};
  if (turned) return {"is turned away", "photograph again when the animal lies flat or shows the other side"};
  return {"could not be made out",
          "photograph the animal whole, straighter and square on, or mark the midline by hand"};
}

// "only 31 % of the belly is plainly seen, the rest lies beyond the edge of the picture"
std::string told_seen(double seen_share, const std::string& of_belly, const char* why) {
  const bool sees_some = std::lround(100 * seen_share) > 0;
  const std::string told = (sees_some ? "only " : "") + of_belly + " is plainly seen";
  return *why == 0 ? told : told + (sees_some ? ", the rest " : ", it ") + why;
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
  const auto say = [&](bool advice, bool block, const char* measure, const std::string& what,
                       const std::string& what_to_do) {
    if (advice || block) notes.push_back({measure, what + ": " + what_to_do, block});
  };
  // "12 % of the belly", and never "0 %" or "100 %" of it.
  const auto of_belly = [](double s, const char* none) {
    const long percent = std::lround(100 * s);
    return percent <= 0     ? std::string(none) + " of the belly"
           : percent >= 100 ? std::string("all of the belly")
                            : std::to_string(percent) + " % of the belly";
  };
  const UnseenWords of_unseen = words_of(unseen, q.roll > limits.roll_advice);
  say(false, q.p_belly < limits.p_belly_block, "p_belly", "it is not clear that this is a large newt's belly",
      "photograph the belly alone and whole, square on, and filling most of the picture");
  say(q.seen_share < limits.seen_advice, q.seen_share < limits.seen_block, "seen_share",
      told_seen(q.seen_share, of_belly(q.seen_share, "nothing"), of_unseen.why), of_unseen.what_to_do);
  say(q.glare_share > limits.glare_advice, q.glare_share > limits.glare_block, "glare_share",
      "reflected light hides " + of_belly(q.glare_share, "a little"),
      "tilt the tray or shade the lamp, and photograph again before release");
  say(q.sharpness < limits.sharpness_advice, q.sharpness < limits.sharpness_block, "sharpness",
      "the belly is blurred",
      "focus on the belly, hold the camera still or use more light, and photograph again before release");
  say(q.belly_length_px < limits.length_advice_px, q.belly_length_px < limits.length_block_px,
      "belly_length_px",
      "the belly is only " + std::to_string(static_cast<int>(std::lround(q.belly_length_px))) +
          " pixels long",
      "go closer, so that the animal fills the picture, and photograph again before release");
  say(q.dark_share > limits.dark_advice, q.dark_share > limits.dark_block, "dark_share",
      of_belly(q.dark_share, "a little") + " is too dark to tell spots from ground",
      "add light from the side, and photograph again before release");
  say(q.bend_deg > limits.bend_advice_deg, false, "bend_deg", "the animal is strongly bent",
      "wait a moment for it to straighten, and photograph again only if it does so quickly");
  say(q.roll > limits.roll_advice, false, "roll",
      "the animal lies on its side, so that part of the belly is out of sight",
      "take a second photo when it lies flat or shows the other side");
  std::stable_sort(notes.begin(), notes.end(),
                   [](const QualityNote& a, const QualityNote& b) { return a.blocks > b.blocks; });
  return notes;
}

}  // namespace evet
