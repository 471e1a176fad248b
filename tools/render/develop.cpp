#include "tools/render/develop.h"

#include <array>

#include "tools/render/blur.h"
#include "tools/render/jpeg.h"

namespace evet::render {

namespace {

constexpr int kToneSteps = 4096;
constexpr float kToneTop = 4;  // linear light at the end of the table

std::vector<float> tone_table(const Development& how) {
  // Indexed by the square root of linear light, which spends the steps where the eye looks.
  std::vector<float> table(kToneSteps + 2);
  for (int i = 0; i < kToneSteps + 2; ++i) {
    const double root = std::sqrt(static_cast<double>(kToneTop)) * i / kToneSteps;
    double x = root * root;
    // A film-like shoulder keeps highlights from cutting off at once; without it they clip.
    const double rolled = x / (1 + 0.55 * x * x / (1 + x)) * 1.12;
    x = std::min(1.0, x + (std::min(rolled, 1.0) - x) * how.shoulder);
    double y = x <= 0.0031308 ? 12.92 * x : 1.055 * std::pow(x, 1 / 2.4) - 0.055;
    y = std::pow(y, how.gamma);
    // Contrast about middle grey, smooth at both ends.
    const double curve = y * y * (3 - 2 * y);
    y += (how.contrast - 1) * (curve - y) * 1.6;
    table[static_cast<std::size_t>(i)] = static_cast<float>(255 * std::clamp(y, 0.0, 1.0));
  }
  return table;
}

// Sum of four bytes of a hash, mean 0, deviation about 1.
inline float noise_of(std::uint32_t bits) {
  const int sum = static_cast<int>((bits & 255) + ((bits >> 8) & 255) + ((bits >> 16) & 255) + (bits >> 24));
  return static_cast<float>(sum - 510) * (1 / 147.8f);
}

}  // namespace

Development draw_development(const CapturePlan& plan, const Light& light, cv::Size size, Rng rng) {
  Development d;
  const double diagonal = std::hypot(size.width, size.height);
  d.blur_px = std::max(0.42, plan.blur * diagonal);
  d.motion_px = plan.motion * diagonal;
  d.motion_angle_rad = rng.uniform(0, kPi);
  // The camera undoes most of the light's colour, and errs.
  const Vec3 sum = light.key + light.ambient;
  const float mean = (sum.x + sum.y + sum.z) / 3;
  const double adapted = rng.uniform(0.55, 1) * (1 - 0.4 * plan.white_balance);
  const double warm = rng.uniform(-1, 1) * 0.35 * plan.white_balance,
               green = rng.uniform(-1, 1) * 0.14 * plan.white_balance;
  d.white_balance = {static_cast<float>(std::pow(mean / sum.x, adapted) * (1 + warm)),
                     static_cast<float>(std::pow(mean / sum.y, adapted) * (1 + green)),
                     static_cast<float>(std::pow(mean / sum.z, adapted) * (1 - warm))};
  d.vignette = rng.uniform(0, 0.35);
  d.veil = rng.chance(0.4) ? rng.uniform(0, 0.05) * (0.3 + plan.glare) : 0;
  d.noise = plan.noise;
  d.contrast = rng.uniform(0.85, 1.3);
  d.saturation = rng.uniform(0.8, 1.25);
  d.shoulder = rng.uniform(0, 1);
  d.sharpening = rng.chance(0.4) ? rng.uniform(0.2, 0.9) : 0;
  d.jpeg_quality = static_cast<int>(plan.jpeg_quality);
  if (plan.wild) {
    d.contrast = rng.uniform(0.6, 1.6);
    d.saturation = rng.uniform(0.0, 1.8);
    d.gamma = rng.uniform(0.7, 1.5);
    for (float* gain : {&d.white_balance.x, &d.white_balance.y, &d.white_balance.z})
      *gain *= rng.uniformf(0.65, 1.45);
    d.veil = rng.chance(0.3) ? rng.uniform(0, 0.15) : 0;
    d.vignette = rng.uniform(0, 0.7);
  }
  if (plan.foreign) {
    // In place of what the training's cameras do to edges, corners and tones.
    d.finish = draw_finish(rng.fork(1));
    d.sharpening = d.vignette = 0;
    d.contrast = 1;
    // They know these lights badly: half of the colour stays.
    for (float* gain : {&d.white_balance.x, &d.white_balance.y, &d.white_balance.z}) *gain = std::sqrt(*gain);
  }
  return d;
}

cv::Mat3b develop(cv::Mat3f& light, const Development& how, Rng rng) {
  const int rows = light.rows, cols = light.cols;
  if (how.finish) through_lens(light, *how.finish);
  gaussian_blur(light, how.blur_px);
  motion_blur(light, how.motion_px, how.motion_angle_rad);
  if (how.sharpening > 0) {
    cv::Mat3f soft = light.clone();
    gaussian_blur(soft, 0.0012 * std::hypot(rows, cols) + 0.5);
    const float k = static_cast<float>(how.sharpening);
    for (int y = 0; y < rows; ++y) {
      float* p = light.ptr<float>(y);
      const float* s = soft.ptr<float>(y);
      for (int i = 0; i < 3 * cols; ++i) p[i] = std::max(0.0f, p[i] + k * (p[i] - s[i]));
    }
  }
  const std::vector<float> table = tone_table(how);
  const float to_index = kToneSteps / std::sqrt(kToneTop);
  const float read = static_cast<float>(0.0012 + 0.012 * how.noise * how.noise),
              shot = static_cast<float>(0.004 + 0.055 * how.noise);
  const float veil = static_cast<float>(how.veil), saturation = static_cast<float>(how.saturation);
  const Vec3 gain = how.white_balance * static_cast<float>(how.exposure);
  const std::uint32_t seed = rng.next32();
  const float corner = 4.0f / static_cast<float>(rows * rows + cols * cols);

  cv::Mat3b out(rows, cols);
  for (int y = 0; y < rows; ++y) {
    const float* in = light.ptr<float>(y);
    std::uint8_t* to = out.ptr<std::uint8_t>(y);
    const float dy = static_cast<float>(y) + 0.5f - 0.5f * static_cast<float>(rows);
    for (int x = 0; x < cols; ++x, in += 3, to += 3) {
      const float dx = static_cast<float>(x) + 0.5f - 0.5f * static_cast<float>(cols);
      const float keep = 1 - static_cast<float>(how.vignette) * (dx * dx + dy * dy) * corner;
      float c[3] = {in[0] * gain.x * keep + veil, in[1] * gain.y * keep + veil, in[2] * gain.z * keep + veil};
      const float grey = 0.3f * c[0] + 0.6f * c[1] + 0.1f * c[2];
      std::uint32_t bits = lattice_hash(x, y, seed);
      for (int k = 0; k < 3; ++k) {
        float value = std::max(0.0f, grey + (c[k] - grey) * saturation);
        value += noise_of(bits) * std::sqrt(read * read + shot * shot * value * 0.3f);
        bits = bits * 0x9e3779b1U + 0x7f4a7c15U;
        bits ^= bits >> 15;
        bits *= 0x846ca68bU;
        bits ^= bits >> 13;
        const float place =
            std::min(std::sqrt(std::max(0.0f, value)) * to_index, static_cast<float>(kToneSteps));
        const int i = static_cast<int>(place);
        const float t = place - static_cast<float>(i);
        to[2 - k] = static_cast<std::uint8_t>(
            mix(table[static_cast<std::size_t>(i)], table[static_cast<std::size_t>(i) + 1], t) + 0.5f);
      }
    }
  }
  if (how.finish) finish_picture(out, *how.finish);
  return decode_jpeg(encode_jpeg(out, how.jpeg_quality));
}

}  // namespace evet::render
