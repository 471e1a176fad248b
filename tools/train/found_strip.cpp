#include "tools/train/found_strip.h"

#include <opencv2/imgproc.hpp>

#include "matcher/belly/find_belly.h"
#include "matcher/pattern/examine.h"
#include "matcher/photo/decode.h"

namespace evet::train {
namespace {

// On the strip's own pixels: 255 where plainly seen belly skin lies, where any belly skin does, and how dark.
struct TrueSkin {
  cv::Mat1f seen, belly, dark;
};

TrueSkin true_skin(const render::Truth& truth, const StripMap& photo_from_strip) {
  TrueSkin out;
  for (cv::Mat1f* plane : {&out.seen, &out.belly, &out.dark}) *plane = cv::Mat1f(kStripRows, kStripCols, 0.F);
  const cv::Rect picture({}, truth.belly.size());
  for (int r = 0; r < kStripRows; ++r)
    for (int c = 0; c < kStripCols; ++c) {
      const cv::Point2d at = photo_from_strip.at((r + 0.5) / kStripRows, (c + 0.5) / kStripCols * 2 - 1);
      const cv::Point pixel(cvFloor(at.x), cvFloor(at.y));
      if (!picture.contains(pixel) || truth.belly(pixel) == 0) continue;
      out.belly(r, c) = 255;
      out.seen(r, c) = truth.clear(pixel);
      out.dark(r, c) = truth.dark(pixel);
    }
  return out;
}

cv::Mat on_map(const cv::Mat& plane) {
  cv::Mat out;
  cv::resize(plane, out, {kMapCols, kMapRows}, 0, 0, cv::INTER_AREA);
  return out;
}

}  // namespace

std::optional<StripSample> cut_as_found(const render::CaptureSpec& spec,
                                        const render::RenderedPhoto& rendered) {
  const auto file = render::to_camera_jpeg(rendered.bgr, 92, 1, "2031-05-14T22:41:07");
  const Photo photo = decode_photo({reinterpret_cast<const std::byte*>(file.data()), file.size()},
                                   "rendered photo", ExamineOptions{}.decode);
  const BellyFinding found = find_belly(photo);
  const std::optional<StripFit> fit = found.usable() ? found.fit : std::nullopt;
  if (!fit || !found.strip) return std::nullopt;

  cv::Mat3b bgr = found.strip->bgr.clone();
  cv::Mat1b beyond;  // the picture's edge, as the spot map treats it
  cv::inRange(bgr, cv::Scalar::all(0), cv::Scalar::all(0), beyond);
  bgr.setTo(cv::Scalar::all(128), beyond);
  const cv::Mat3b small = on_map(bgr);
  const TrueSkin skin = true_skin(rendered.truth, fit->photo_from_strip);
  const cv::Mat1f seen = on_map(skin.seen), belly = on_map(skin.belly), dark = on_map(skin.dark);
  StripSample sample;
  for (int r = 0; r < kMapRows; ++r)
    for (int c = 0; c < kMapCols; ++c) {
      for (int k = 2; k >= 0; --k) sample.rgb.push_back(small(r, c)[k]);
      sample.valid.push_back(seen(r, c) > 127 ? 255 : 0);
      sample.dark.push_back(belly(r, c) > 0 ? cv::saturate_cast<std::uint8_t>(255 * dark(r, c) / belly(r, c))
                                            : std::uint8_t{0});
    }
  add_facts(sample, spec, rendered.truth);
  return sample;
}

}  // namespace evet::train
