#include "tools/render/solid/film.h"

#include <array>
#include <opencv2/imgproc.hpp>

#include "tools/render/jpeg.h"

namespace evet::render::solid {

namespace {

float brightness(const cv::Vec3f& p) {
  return 0.2126F * p[0] + 0.7152F * p[1] + 0.0722F * p[2];
}

// A disc or a bell, in pixels; both are met in lenses.
void blur_lens(cv::Mat3f& picture, float radius, bool disc) {
  if (radius < 0.3F) return;
  if (!disc || radius < 1) {
    cv::GaussianBlur(picture, picture, {}, std::max(0.3F, 0.6F * radius));
    return;
  }
  const int half = cvCeil(radius);
  cv::Mat1f kernel(2 * half + 1, 2 * half + 1);
  for (int y = -half; y <= half; ++y)
    for (int x = -half; x <= half; ++x)
      kernel(y + half, x + half) =
          within(radius + 0.5F - std::hypot(static_cast<float>(x), static_cast<float>(y)), 0, 1);
  kernel /= cv::sum(kernel)[0];
  cv::filter2D(picture, picture, -1, kernel, {-1, -1}, 0, cv::BORDER_REFLECT);
}

void blur_motion(cv::Mat3f& picture, float length, Dice& dice) {
  if (length < 0.7F) return;
  const float turn = dice.between(0, kPi), bow = dice.between(-0.4, 0.4);
  const int half = cvCeil(length / 2) + 1;
  cv::Mat1f kernel(2 * half + 1, 2 * half + 1, 0.F);
  constexpr int kSteps = 60;
  for (int i = 0; i < kSteps; ++i) {
    const float t = (static_cast<float>(i) + 0.5F) / kSteps - 0.5F;
    const float x = length * t, y = bow * length * (t * t - 0.08F);
    const float px = x * std::cos(turn) - y * std::sin(turn) + static_cast<float>(half),
                py = x * std::sin(turn) + y * std::cos(turn) + static_cast<float>(half);
    const int ix = cvRound(px), iy = cvRound(py);
    if (ix >= 0 && iy >= 0 && ix < kernel.cols && iy < kernel.rows) kernel(iy, ix) += 1;
  }
  kernel /= cv::sum(kernel)[0];
  cv::filter2D(picture, picture, -1, kernel, {-1, -1}, 0, cv::BORDER_REFLECT);
}

struct Tone {
  float gamma, contrast, toe, saturation;
  Colour balance;
};

std::array<float, 1024> curve_of(const Tone& tone) {
  std::array<float, 1024> curve{};
  for (std::size_t i = 0; i < curve.size(); ++i) {
    const float x = static_cast<float>(i) / 1023 * 1.6F;  // light up to 1.6 times white rolls off
    float y = x < 0.8F ? x : 0.8F + 0.2F * (1 - std::exp(-(x - 0.8F) / 0.2F));
    y = std::pow(y, 1 / tone.gamma);
    const float s = y * y * (3 - 2 * y);
    y = blend(y, s, tone.contrast);
    curve[i] = tone.toe + (1 - tone.toe) * y;
  }
  return curve;
}

void add_noise(cv::Mat3f& picture, float strength, Dice& dice) {
  if (strength <= 0) return;
  // Coarse noise as small sensors' pictures show after their own smoothing, a part of it colour.
  cv::Mat3f grain(picture.size());
  const float shot = 0.045F * strength, read = 0.012F * strength, colour = dice.between(0.2, 0.9);
  for (cv::Vec3f& g : grain) {
    // The sum of uniforms is near enough to a normal here and quicker.
    const auto normal = [&] { return (dice.unit() + dice.unit() + dice.unit() - 1.5F) * 2; };
    const float common = normal();
    for (int k = 0; k < 3; ++k) g[k] = blend(common, normal(), colour);
  }
  if (dice.odds(0.6)) {
    const float size = dice.between(0.4, 1.1);
    cv::GaussianBlur(grain, grain, {}, size);
    grain *= 1 + 1.6F * size;
  }
  for (int y = 0; y < picture.rows; ++y)
    for (int x = 0; x < picture.cols; ++x) {
      cv::Vec3f& p = picture(y, x);
      for (int k = 0; k < 3; ++k) p[k] += grain(y, x)[k] * (read + shot * std::sqrt(std::max(0.0F, p[k])));
    }
}

}  // namespace

float draw_exposure(const cv::Mat3f& light, const cv::Mat1b& animal, bool wild, Dice dice) {
  double all = 0, own = 0;
  int n = 0, m = 0;
  for (int y = 0; y < light.rows; y += 3)
    for (int x = 0; x < light.cols; x += 3) {
      const float b = std::min(3.0F, brightness(light(y, x)));
      all += b, ++n;
      if (animal(y, x)) own += b, ++m;
    }
  const float mean = static_cast<float>(all / std::max(1, n)),
              on_animal = m > 50 ? static_cast<float>(own / m) : mean;
  const float metered = std::pow(std::max(1e-3F, mean), 0.45F) * std::pow(std::max(1e-3F, on_animal), 0.55F);
  const float spread = wild ? 0.75F : 0.4F;
  return dice.between(0.16, 0.3) / metered * std::exp(dice.between(-spread, 0.8 * spread));
}

cv::Mat3b develop_film(const cv::Mat3f& light, float exposure, const Plan& plan, const Colour& lamp_colour,
                       Dice dice) {
  cv::Mat3f picture = light * exposure;
  const float diagonal = std::hypot(static_cast<float>(light.cols), static_cast<float>(light.rows));
  blur_lens(picture, plan.blur * diagonal, dice.odds(0.5));
  blur_motion(picture, plan.motion * diagonal, dice);

  Tone tone{};
  const float wild = plan.wild ? 1.0F : 0.0F;
  tone.gamma = dice.between(1.9 - 0.3 * wild, 2.4 + 0.4 * wild);
  tone.contrast = dice.between(0, 0.6 + 0.35 * wild);
  tone.toe = dice.odds(0.3) ? dice.between(0, 0.04 + 0.08 * wild) : 0;
  tone.saturation = dice.between(0.85 - 0.35 * wild, 1.3 + 0.3 * wild);
  // The camera takes most of the lamp's colour away, and errs.
  const float kept = dice.between(0, 0.5), cast = 0.22F * plan.colour_cast;
  tone.balance = (lamp_colour / lamp_colour.maxCoeff()).max(0.2F).pow(kept - 1);
  tone.balance *=
      Colour(1 + cast * dice.gauss(), 1 + 0.4F * cast * dice.gauss(), 1 + cast * dice.gauss()).max(0.4F);
  tone.balance /= luminance(tone.balance);

  const float dark_corners = dice.between(0, 0.35 + 0.25 * wild), noise = plan.noise;
  for (int y = 0; y < picture.rows; ++y)
    for (int x = 0; x < picture.cols; ++x) {
      const float dx = (static_cast<float>(x) - 0.5F * static_cast<float>(picture.cols)) / (0.5F * diagonal),
                  dy = (static_cast<float>(y) - 0.5F * static_cast<float>(picture.rows)) / (0.5F * diagonal);
      const float share = 1 - dark_corners * (dx * dx + dy * dy);
      cv::Vec3f& p = picture(y, x);
      for (int k = 0; k < 3; ++k) p[k] *= share * tone.balance[k];
    }
  add_noise(picture, noise, dice);
  const std::array<float, 1024> curve = curve_of(tone);
  cv::Mat3f shown(picture.size());
  for (int y = 0; y < picture.rows; ++y)
    for (int x = 0; x < picture.cols; ++x) {
      cv::Vec3f p = picture(y, x);
      const float grey = brightness(p);
      for (int k = 0; k < 3; ++k) {
        const float c = grey + tone.saturation * (p[k] - grey);
        p[k] = curve[static_cast<std::size_t>(within(c / 1.6F, 0, 1) * 1023)];
      }
      shown(y, x) = {255 * p[2], 255 * p[1], 255 * p[0]};
    }
  if (const float sharpen = dice.odds(0.7) ? dice.between(0, 0.9 + 1.1 * wild) : 0; sharpen > 0.05F) {
    cv::Mat3f soft;
    cv::GaussianBlur(shown, soft, {}, dice.between(0.6, 1.6));
    shown += sharpen * (shown - soft);
  }
  cv::Mat3b eight;
  shown.convertTo(eight, CV_8UC3);
  return decode_jpeg(encode_jpeg(eight, cvRound(plan.jpeg_quality)));
}

}  // namespace evet::render::solid
