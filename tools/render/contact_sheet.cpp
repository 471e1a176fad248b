#include "tools/render/contact_sheet.h"

#include <cmath>
#include <opencv2/imgproc.hpp>

namespace evet::render {

cv::Mat3b overlay_truth(const RenderedPhoto& photo) {
  cv::Mat3b out = photo.bgr.clone();
  const Truth& t = photo.truth;
  for (int y = 0; y + 1 < out.rows; ++y)
    for (int x = 0; x + 1 < out.cols; ++x) {
      const cv::Vec2f &here = t.uv(y, x), &right = t.uv(y, x + 1), &down = t.uv(y + 1, x);
      cv::Vec3b& p = out(y, x);
      if (t.animal(y, x) != t.animal(y, x + 1) || t.animal(y, x) != t.animal(y + 1, x)) p = {255, 255, 0};
      if (t.dark(y, x) != t.dark(y, x + 1) || t.dark(y, x) != t.dark(y + 1, x)) p = {255, 0, 0};
      if (t.belly(y, x) && !t.clear(y, x)) p = p * 0.5 + cv::Vec3b(0, 0, 127);
      if (std::isnan(here[0]) || std::isnan(right[0]) || std::isnan(down[0])) continue;
      const auto crosses = [&](int k, double step) {
        return std::floor(here[k] / step) != std::floor(right[k] / step) ||
               std::floor(here[k] / step) != std::floor(down[k] / step);
      };
      if (crosses(0, 0.1)) p = {0, 255, 0};
      if (crosses(1, 0.5)) p = {255, 0, 255};
    }
  for (std::size_t i = 0; i < t.midline.size(); i += 8)
    cv::circle(out, t.midline[i], i == 0 ? 5 : 2, {255, 255, 255}, -1);
  return out;
}

cv::Mat3b contact_sheet(const std::vector<SheetCell>& cells, const SheetOptions& options) {
  std::vector<cv::Mat3b> tiles;
  cv::Size tile(0, 0);
  for (const SheetCell& cell : cells) {
    cv::Mat3b picture;
    std::string caption = cell.caption;
    if (options.skins) {
      const cv::Mat1b dark = skin_pattern(cell.spec.world_seed, cell.spec.individual, cell.spec.years,
                                          {160, 448}, cell.spec.conditions, cell.spec.world);
      picture = cv::Mat3b(dark.size(), cv::Vec3b(40, 140, 240));
      picture.setTo(cv::Vec3b(20, 20, 20), dark);
    } else {
      const RenderedPhoto photo = render(cell.spec);
      if (caption.empty()) caption = photo.truth.mechanism;
      picture = options.overlay ? overlay_truth(photo) : photo.bgr;
    }
    const cv::Point corner(4, picture.rows - 6);
    cv::putText(picture, caption, corner, cv::FONT_HERSHEY_PLAIN, 0.9, {255, 255, 255}, 2);
    cv::putText(picture, caption, corner, cv::FONT_HERSHEY_PLAIN, 0.9, {0, 0, 0}, 1);
    tile = {std::max(tile.width, picture.cols), std::max(tile.height, picture.rows)};
    tiles.push_back(picture);
  }
  const int columns = std::max(1, options.columns),
            rows = (static_cast<int>(tiles.size()) + columns - 1) / columns;
  cv::Mat3b sheet(rows * tile.height, columns * tile.width, cv::Vec3b(60, 60, 60));
  for (std::size_t i = 0; i < tiles.size(); ++i) {
    const int k = static_cast<int>(i);
    tiles[i].copyTo(
        sheet(cv::Rect(k % columns * tile.width, k / columns * tile.height, tiles[i].cols, tiles[i].rows)));
  }
  return sheet;
}

}  // namespace evet::render
