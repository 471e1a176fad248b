#include "tools/render/finish.h"

#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "tools/render/blur.h"
#include "tools/render/vec.h"

namespace evet::render {

namespace {

float read_channel(const cv::Mat3f& from, float x, float y, int channel) {
  const float cx = std::clamp(x, 0.0f, static_cast<float>(from.cols) - 1.001f),
              cy = std::clamp(y, 0.0f, static_cast<float>(from.rows) - 1.001f);
  const int ix = static_cast<int>(cx), iy = static_cast<int>(cy);
  const float fx = cx - static_cast<float>(ix), fy = cy - static_cast<float>(iy);
  return mix(mix(from(iy, ix)[channel], from(iy, ix + 1)[channel], fx),
             mix(from(iy + 1, ix)[channel], from(iy + 1, ix + 1)[channel], fx), fy);
}

std::array<float, 256> curve_of(const Finish& finish) {
  std::array<float, 256> curve{};
  const auto logistic = [](double x) { return 1 / (1 + std::exp(-8.5 * (x - 0.44))); };
  const double low = logistic(0), high = logistic(1);
  for (std::size_t i = 0; i < curve.size(); ++i) {
    double y = static_cast<double>(i) / 255;
    y += finish.crush * ((logistic(y) - low) / (high - low) - y);
    y += finish.fade * (0.2 + 0.66 * y - y);
    curve[i] = static_cast<float>(255 * y);
  }
  return curve;
}

}  // namespace

Finish draw_finish(Rng rng) {
  Finish finish;
  const int plain = rng.below(5);
  const auto weight = [&](int kind) {
    return kind == plain ? rng.uniform(0.7, 1) : rng.chance(0.3) ? rng.uniform(0.2, 0.5) : 0.0;
  };
  finish.halo = 2.1 * weight(0);
  finish.halo_share = rng.uniform(0.0022, 0.005);
  finish.crush = weight(1);
  finish.fade = weight(2);
  finish.rim = 0.85 * weight(3);
  finish.rim_start = rng.uniform(0.45, 0.7);
  finish.fringe = 0.005 * weight(4);
  return finish;
}

void through_lens(cv::Mat3f& light, const Finish& finish) {
  const float mx = 0.5f * static_cast<float>(light.cols - 1), my = 0.5f * static_cast<float>(light.rows - 1),
              half = std::hypot(mx, my);
  const float fringe = static_cast<float>(finish.fringe), rim = static_cast<float>(finish.rim),
              start = static_cast<float>(finish.rim_start);
  const cv::Mat3f plain = fringe > 0 ? light.clone() : light;
  for (int y = 0; y < light.rows; ++y)
    for (int x = 0; x < light.cols; ++x) {
      const float dx = static_cast<float>(x) - mx, dy = static_cast<float>(y) - my;
      cv::Vec3f& p = light(y, x);
      if (fringe > 0) {
        p[0] = read_channel(plain, mx + dx / (1 + fringe), my + dy / (1 + fringe), 0);
        p[2] = read_channel(plain, mx + dx * (1 + fringe), my + dy * (1 + fringe), 2);
      }
      if (rim > 0) p *= 1 - rim * smooth_step(start, 1.05f, std::hypot(dx, dy) / half);
    }
}

void finish_picture(cv::Mat3b& bgr, const Finish& finish) {
  const std::array<float, 256> curve = curve_of(finish);
  cv::Mat3f toned(bgr.size());
  for (int y = 0; y < bgr.rows; ++y)
    for (int x = 0; x < bgr.cols; ++x)
      for (int k = 0; k < 3; ++k) toned(y, x)[k] = curve[bgr(y, x)[k]];
  if (finish.halo > 0) {
    cv::Mat3f soft = toned.clone();
    gaussian_blur(soft, std::max(0.6, finish.halo_share * std::hypot(bgr.rows, bgr.cols)));
    toned += (toned - soft) * finish.halo;
  }
  toned.convertTo(bgr, CV_8U);
}

}  // namespace evet::render
