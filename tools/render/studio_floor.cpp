// The floor under the animal, its light, and the animal's shadow on it.
#include <algorithm>

#include "tools/render/blur.h"
#include "tools/render/studio.h"

namespace evet::render {

Vec3 Studio::illumination(int x, int y) const {
  const float half = static_cast<float>(framed_->camera.diagonal() / 2);
  const Vec2 place{(static_cast<float>(x) + 0.5f - 0.5f * static_cast<float>(spec_.size.width)) / half,
                   (static_cast<float>(y) + 0.5f - 0.5f * static_cast<float>(spec_.size.height)) / half};
  const float beam = light_.beam(place);
  Vec3 sum = light_.ambient * (0.4f + 0.6f * beam) + light_.key * (beam * light_.direction.z);
  for (const Light& other : light_.others) sum += other.key * (other.beam(place) * other.direction.z);
  return sum;
}

void Studio::lay_floor() {
  const cv::Size size = spec_.size;
  picture_.create(size);
  glare_ = cv::Mat1f(size, 0.0f);
  const Camera& camera = framed_->camera;
  const float footprint = static_cast<float>(1 / camera.px_per_unit());
  // Places on the floor and the light there vary slowly: exact on a grid of 16 px, bilinear between.
  constexpr int kStep = 16;
  const int cols = size.width / kStep + 2, rows = size.height / kStep + 2;
  std::vector<Vec2> places(static_cast<std::size_t>(rows * cols));
  std::vector<Vec3> lights(places.size());
  for (int j = 0; j < rows; ++j)
    for (int i = 0; i < cols; ++i) {
      const auto k = static_cast<std::size_t>(j * cols + i);
      places[k] = camera.on_plane({i * kStep + 0.5, j * kStep + 0.5});
      lights[k] = illumination(i * kStep, j * kStep);
    }
  for (int y = 0; y < size.height; ++y) {
    const int j = y / kStep;
    const float fy = static_cast<float>(y - j * kStep) / kStep;
    float* out = picture_.ptr<float>(y);
    for (int i = 0; i + 1 < cols; ++i) {
      const auto k = static_cast<std::size_t>(j * cols + i), below = k + static_cast<std::size_t>(cols);
      const Vec2 left = places[k] + (places[below] - places[k]) * fy,
                 right = places[k + 1] + (places[below + 1] - places[k + 1]) * fy;
      const Vec3 lit_left = mix(lights[k], lights[below], fy),
                 lit_right = mix(lights[k + 1], lights[below + 1], fy);
      for (int x = i * kStep; x < std::min(size.width, (i + 1) * kStep); ++x) {
        const float fx = static_cast<float>(x - i * kStep) / kStep;
        const Vec3 colour =
            background_.albedo(left + (right - left) * fx, footprint) * mix(lit_left, lit_right, fx);
        out[3 * x] = std::max(0.0f, colour.x);
        out[3 * x + 1] = std::max(0.0f, colour.y);
        out[3 * x + 2] = std::max(0.0f, colour.z);
      }
    }
  }
}

void Studio::cast_shadow() {
  const Camera& camera = framed_->camera;
  const double unit = camera.px_per_unit();
  // At a quarter of the size when large: shadows are smooth.
  const int reduce = std::clamp(static_cast<int>(unit * light_.shadow_softness / 4), 1, 8);
  const cv::Size small(spec_.size.width / reduce + 1, spec_.size.height / reduce + 1);
  cv::Mat1f cast(small, 0.0f), contact;
  for (const auto* raster : {&*body_, &*limbs_}) {
    const cv::Rect w = raster->window();
    for (int y = w.y; y < w.y + w.height; ++y)
      for (int x = w.x; x < w.x + w.width; ++x)
        if (raster->at(x, y).part != Part::none) cast(y / reduce, x / reduce) = 1;
  }
  contact = cast.clone();
  gaussian_blur(contact, 0.035 * unit / reduce);
  gaussian_blur(cast, std::max(0.5, light_.shadow_softness * unit / reduce));
  const float height = animal_.half_width * static_cast<float>(framed_->pose.height);
  const float z = std::max(0.35f, light_.direction.z);
  const int dx = static_cast<int>(std::lround(-light_.direction.x / z * height * unit / reduce)),
            dy = static_cast<int>(std::lround(-light_.direction.y / z * height * unit / reduce));
  for (int y = 0; y < spec_.size.height; ++y)
    for (int x = 0; x < spec_.size.width; ++x) {
      const int sx = std::clamp(x / reduce - dx, 0, small.width - 1),
                sy = std::clamp(y / reduce - dy, 0, small.height - 1);
      const float keep =
          (1 - light_.shadow_strength * 0.8f * cast(sy, sx)) * (1 - 0.5f * contact(y / reduce, x / reduce));
      if (keep < 0.999f) picture_(y, x) *= keep;
    }
}

}  // namespace evet::render
