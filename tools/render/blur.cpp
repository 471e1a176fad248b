#include "tools/render/blur.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace evet::render {

namespace {

// One row of `n` pixels of `channels` floats, `taps` weights on each side of the middle one.
void convolve_row(const float* in, float* out, int n, int channels, const std::vector<float>& half_kernel) {
  const int radius = static_cast<int>(half_kernel.size()) - 1;
  const int total = n * channels;
  std::vector<float> padded(static_cast<std::size_t>((n + 2 * radius) * channels));
  for (int i = 0; i < radius; ++i)
    for (int c = 0; c < channels; ++c) {
      padded[static_cast<std::size_t>(i * channels + c)] = in[c];
      padded[static_cast<std::size_t>((n + radius + i) * channels + c)] = in[(n - 1) * channels + c];
    }
  std::copy(in, in + total, padded.begin() + radius * channels);
  const float* middle = padded.data() + radius * channels;
  for (int i = 0; i < total; ++i) out[i] = half_kernel[0] * middle[i];
  for (int k = 1; k <= radius; ++k) {
    const float w = half_kernel[static_cast<std::size_t>(k)];
    const float *left = middle - k * channels, *right = middle + k * channels;
    for (int i = 0; i < total; ++i) out[i] += w * (left[i] + right[i]);
  }
}

void kernel_blur(cv::Mat& picture, double sigma) {
  const int radius = std::max(1, static_cast<int>(std::ceil(3 * sigma)));
  std::vector<float> kernel;
  double sum = 0;
  for (int k = 0; k <= radius; ++k) {
    const double w = std::exp(-0.5 * k * k / (sigma * sigma));
    kernel.push_back(static_cast<float>(w));
    sum += k == 0 ? w : 2 * w;
  }
  for (float& w : kernel) w = static_cast<float>(w / sum);

  const int rows = picture.rows, channels = picture.channels(), total = picture.cols * channels;
  cv::Mat across(picture.size(), picture.type());
  for (int y = 0; y < rows; ++y)
    convolve_row(picture.ptr<float>(y), across.ptr<float>(y), picture.cols, channels, kernel);
  for (int y = 0; y < rows; ++y) {
    float* out = picture.ptr<float>(y);
    const float* middle = across.ptr<float>(y);
    for (int i = 0; i < total; ++i) out[i] = kernel[0] * middle[i];
    for (int k = 1; k <= radius; ++k) {
      const float w = kernel[static_cast<std::size_t>(k)];
      const float *up = across.ptr<float>(std::max(0, y - k)),
                  *down = across.ptr<float>(std::min(rows - 1, y + k));
      for (int i = 0; i < total; ++i) out[i] += w * (up[i] + down[i]);
    }
  }
}

void box_rows(cv::Mat& picture, int radius) {
  const int channels = picture.channels(), cols = picture.cols;
  const float scale = 1.0f / static_cast<float>(2 * radius + 1);
  std::vector<float> row(static_cast<std::size_t>(cols * channels));
  for (int y = 0; y < picture.rows; ++y) {
    float* p = picture.ptr<float>(y);
    std::copy(p, p + cols * channels, row.begin());
    for (int c = 0; c < channels; ++c) {
      const auto at = [&](int x) {
        return row[static_cast<std::size_t>(std::clamp(x, 0, cols - 1) * channels + c)];
      };
      double sum = 0;
      for (int x = -radius; x <= radius; ++x) sum += at(x);
      for (int x = 0; x < cols; ++x) {
        p[x * channels + c] = static_cast<float>(sum) * scale;
        sum += at(x + radius + 1) - at(x - radius);
      }
    }
  }
}

void box_cols(cv::Mat& picture, int radius) {
  const int rows = picture.rows, total = picture.cols * picture.channels();
  const float scale = 1.0f / static_cast<float>(2 * radius + 1);
  const cv::Mat source = picture.clone();
  std::vector<float> sum(static_cast<std::size_t>(total), 0.0f);
  const auto row = [&](int y) { return source.ptr<float>(std::clamp(y, 0, rows - 1)); };
  for (int y = -radius; y <= radius; ++y)
    for (int i = 0; i < total; ++i) sum[static_cast<std::size_t>(i)] += row(y)[i];
  for (int y = 0; y < rows; ++y) {
    float* out = picture.ptr<float>(y);
    const float *in = row(y + radius + 1), *gone = row(y - radius);
    float* s = sum.data();
    for (int i = 0; i < total; ++i) {
      out[i] = s[i] * scale;
      s[i] += in[i] - gone[i];
    }
  }
}

}  // namespace

void gaussian_blur(cv::Mat& picture, double sigma_px) {
  CV_Assert(picture.depth() == CV_32F);
  if (sigma_px < 0.2 || picture.empty()) return;
  if (sigma_px < 2) return kernel_blur(picture, sigma_px);
  // Three boxes of width w have variance (w^2 - 1) / 4.
  const int width = static_cast<int>(std::sqrt(4 * sigma_px * sigma_px + 1));
  const int small = std::max(1, (width - 1) / 2);
  const double have = ((2 * small + 1) * (2 * small + 1) - 1) / 12.0, want = sigma_px * sigma_px;
  // Some of the passes one wider, so that the variance comes out nearest.
  const double step = ((2 * small + 3) * (2 * small + 3) - 1) / 12.0 - have;
  const int wider = std::clamp(static_cast<int>(std::lround((want - 3 * have) / step)), 0, 3);
  for (int pass = 0; pass < 3; ++pass) {
    const int radius = small + (pass < wider ? 1 : 0);
    box_rows(picture, radius);
    box_cols(picture, radius);
  }
}

void motion_blur(cv::Mat& picture, double length_px, double angle_rad) {
  CV_Assert(picture.depth() == CV_32F);
  if (length_px < 0.7) return;
  const int taps = std::clamp(static_cast<int>(std::ceil(length_px)) + 1, 3, 25);
  const int rows = picture.rows, cols = picture.cols, channels = picture.channels(), total = cols * channels;
  const cv::Mat source = picture.clone();
  picture.setTo(0);
  for (int k = 0; k < taps; ++k) {
    const double t = (static_cast<double>(k) / (taps - 1) - 0.5) * length_px;
    const int dx = static_cast<int>(std::lround(t * std::cos(angle_rad)));
    const int dy = static_cast<int>(std::lround(t * std::sin(angle_rad)));
    const int first = std::clamp(-dx, 0, cols) * channels, last = std::clamp(cols - dx, 0, cols) * channels;
    for (int y = 0; y < rows; ++y) {
      const float* in = source.ptr<float>(std::clamp(y + dy, 0, rows - 1));
      float* out = picture.ptr<float>(y);
      for (int i = 0; i < first; ++i) out[i] += in[i % channels];
      for (int i = first; i < last; ++i) out[i] += in[i + dx * channels];
      for (int i = last; i < total; ++i) out[i] += in[(cols - 1) * channels + i % channels];
    }
  }
  picture *= 1.0 / taps;
}

}  // namespace evet::render
