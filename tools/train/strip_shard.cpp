#include "tools/train/strip_shard.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "models/base/random.h"

namespace evet::train {
namespace {

// Sums of what the photo's pixels give to the strip's: red, green, blue, clear, dark; and their weight.
struct Sums {
  std::vector<cv::Mat1f> planes = std::vector<cv::Mat1f>(5);
  cv::Mat1f weight = cv::Mat1f(kMapRows, kMapCols, 0.F);
  Sums() {
    for (cv::Mat1f& plane : planes) plane = cv::Mat1f(kMapRows, kMapCols, 0.F);
  }
};

Sums scatter(const render::RenderedPhoto& photo) {
  Sums sums;
  const render::Truth& truth = photo.truth;
  for (int y = 0; y < photo.bgr.rows; ++y)
    for (int x = 0; x < photo.bgr.cols; ++x) {
      const cv::Vec2f uv = truth.uv(y, x);
      if (truth.belly(y, x) == 0 || !std::isfinite(uv[0]) || !std::isfinite(uv[1])) continue;
      const float row = uv[0] * kMapRows - 0.5F, col = (uv[1] + 1) / 2 * kMapCols - 0.5F;
      const int r0 = cvFloor(row), c0 = cvFloor(col);
      const cv::Vec3b colour = photo.bgr(y, x);
      const float values[] = {static_cast<float>(colour[2]), static_cast<float>(colour[1]),
                              static_cast<float>(colour[0]), static_cast<float>(truth.clear(y, x)),
                              static_cast<float>(truth.dark(y, x))};
      for (int r = std::max(0, r0); r <= std::min(kMapRows - 1, r0 + 1); ++r)
        for (int c = std::max(0, c0); c <= std::min(kMapCols - 1, c0 + 1); ++c) {
          const float w =
              (1 - std::abs(row - static_cast<float>(r))) * (1 - std::abs(col - static_cast<float>(c)));
          sums.weight(r, c) += w;
          for (std::size_t k = 0; k < 5; ++k) sums.planes[k](r, c) += w * values[k];
        }
    }
  return sums;
}

template <typename T>
void put(std::ofstream& out, const std::vector<T>& values) {
  out.write(reinterpret_cast<const char*>(values.data()),
            static_cast<std::streamsize>(values.size() * sizeof(T)));
}

}  // namespace

std::pair<render::CaptureSpec, render::CaptureSpec> draw_pair(std::uint32_t shard, std::uint32_t index,
                                                              bool tuning) {
  models::Random dice(
      (0x57A1B5ULL << 40 | std::uint64_t{shard} << 16 | std::uint64_t{index} << 1 | (tuning ? 1U : 0U)) *
      0x9E3779B97F4A7C15ULL);
  render::CaptureSpec first;
  first.world_seed = tuning ? 100 + dice.below(100) : 1 + dice.below(99);
  first.individual = dice.below(1'000'000);
  render::CaptureSpec second = first;
  second.capture = 1 + dice.below(5);
  second.years = dice.uniform() < 0.5 ? dice.uniform() * 0.3 : dice.uniform() * 5;
  for (render::CaptureSpec* spec : {&first, &second}) {
    const double kind = dice.uniform();
    spec->conditions.difficulty = kind < 0.15   ? render::Difficulty::gentle
                                  : kind < 0.55 ? render::Difficulty::middle
                                                : render::Difficulty::hardest;
    spec->conditions.wild = kind >= 0.85;
    const int longest = 700 + static_cast<int>(dice.below(400));
    spec->size = {longest, longest * 3 / 4};
  }
  first.world = second.world = dice.uniform() < 0.5 ? render::World::drawn : render::World::solid;
  return {first, second};
}

void add_facts(StripSample& sample, const render::CaptureSpec& spec, const render::Truth& truth) {
  const cv::Mat1b pattern = render::skin_pattern(spec.world_seed, spec.individual, spec.years,
                                                 {kMapCols, kMapRows}, {}, spec.world);
  sample.pattern.assign(pattern.datastart, pattern.dataend);

  const std::vector<std::string> names = render::mechanisms(spec.world);
  sample.facts.assign(kStripFacts, 0.F);
  sample.facts[kStripDifficulty] =
      spec.conditions.wild ? 3.F : static_cast<float>(spec.conditions.difficulty);
  sample.facts[kStripMechanism] =
      static_cast<float>(std::find(names.begin(), names.end(), truth.mechanism) - names.begin());
  sample.facts[kStripWorldSeed] = static_cast<float>(spec.world_seed);
  sample.facts[kStripIndividual] = static_cast<float>(spec.individual);
  sample.facts[kStripYears] = static_cast<float>(spec.years);
  sample.facts[kStripLength] = static_cast<float>(truth.length_px);
  sample.facts[kStripRoll] = static_cast<float>(truth.roll);
  sample.facts[kStripWorldKind] = static_cast<float>(spec.world);
}

StripSample cut(const render::CaptureSpec& spec, const render::RenderedPhoto& photo) {
  Sums sums = scatter(photo);
  // Holes between the photo's pixels take what is around them.
  constexpr double spread = 1.2;
  cv::Mat1f near_weight;
  cv::GaussianBlur(sums.weight, near_weight, {0, 0}, spread);
  std::vector<cv::Mat1f> means(5);
  for (std::size_t k = 0; k < 5; ++k) {
    cv::Mat1f near_sum;
    cv::GaussianBlur(sums.planes[k], near_sum, {0, 0}, spread);
    means[k] = cv::Mat1f(kMapRows, kMapCols, 0.F);
    for (int r = 0; r < kMapRows; ++r)
      for (int c = 0; c < kMapCols; ++c)
        means[k](r, c) = sums.weight(r, c) >= 0.5F   ? sums.planes[k](r, c) / sums.weight(r, c)
                         : near_weight(r, c) > 0.02F ? near_sum(r, c) / near_weight(r, c)
                                                     : (k < 3 ? 128.F : 0.F);
  }
  StripSample sample;
  for (int r = 0; r < kMapRows; ++r)
    for (int c = 0; c < kMapCols; ++c) {
      for (std::size_t k = 0; k < 3; ++k)
        sample.rgb.push_back(cv::saturate_cast<std::uint8_t>(means[k](r, c)));
      sample.valid.push_back(means[3](r, c) > 127 ? 255 : 0);
      sample.dark.push_back(cv::saturate_cast<std::uint8_t>(means[4](r, c)));
    }
  add_facts(sample, spec, photo.truth);
  return sample;
}

void write_strip_shard(const std::filesystem::path& path, const std::vector<StripSample>& samples) {
  const std::filesystem::path partial = path.string() + ".part";
  std::ofstream out(partial, std::ios::binary);
  out.write("EVSTRIP1", 8);
  put(out,
      std::vector<std::int32_t>{static_cast<std::int32_t>(samples.size()), kMapRows, kMapCols, kStripFacts});
  for (const StripSample& sample : samples) put(out, sample.rgb);
  for (const StripSample& sample : samples) put(out, sample.valid);
  for (const StripSample& sample : samples) put(out, sample.dark);
  for (const StripSample& sample : samples) put(out, sample.pattern);
  for (const StripSample& sample : samples) put(out, sample.facts);
  out.close();
  if (!out) throw std::runtime_error(partial.string() + ": could not be written; is the disk full?");
  std::filesystem::rename(partial, path);
}

}  // namespace evet::train
