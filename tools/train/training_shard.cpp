#include "tools/train/training_shard.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "models/base/random.h"

namespace evet::train {
namespace {

enum Flag : std::uint8_t { belly = 1, animal = 2, clear = 4, known = 8, part = 16 };

cv::Mat letterboxed(const cv::Mat& from, cv::Size inner, int side, const cv::Scalar& padding,
                    int how = cv::INTER_AREA) {
  cv::Mat reduced;
  cv::resize(from, reduced, inner, 0, 0, how);
  cv::Mat canvas(side, side, from.type(), padding);
  reduced.copyTo(
      canvas(cv::Rect((side - inner.width) / 2, (side - inner.height) / 2, inner.width, inner.height)));
  return canvas;
}

float place(const std::vector<std::string>& names, const std::string& name, render::World world) {
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return -1.F;
  return static_cast<float>(found - names.begin()) + (world == render::World::solid ? kSolidNames : 0.F);
}

template <typename T>
void put(std::ofstream& out, const std::vector<T>& values) {
  out.write(reinterpret_cast<const char*>(values.data()),
            static_cast<std::streamsize>(values.size() * sizeof(T)));
}

}  // namespace

Draw draw(std::uint32_t shard, std::uint32_t index, bool tuning) {
  models::Random dice((std::uint64_t{shard} << 32 | std::uint64_t{index} << 1 | (tuning ? 1 : 0)) *
                      0x9E3779B97F4A7C15ULL);
  Draw drawn;
  render::CaptureSpec& spec = drawn.spec;
  spec.world_seed = tuning ? 100 + dice.below(100) : 1 + dice.below(99);
  spec.individual = dice.below(1'000'000);
  spec.capture = dice.below(8);
  spec.years = spec.capture * dice.uniform();

  const double kind = dice.uniform();
  spec.conditions.difficulty = kind < 0.10   ? render::Difficulty::gentle
                               : kind < 0.45 ? render::Difficulty::middle
                                             : render::Difficulty::hardest;
  spec.conditions.wild = kind >= 0.70;

  // Backs and small newts are nearest to bellies, so they are shown most often of what is none.
  const double subject = dice.uniform();
  spec.subject = subject < 0.10   ? render::Subject::back
                 : subject < 0.20 ? render::Subject::small_newt
                 : subject < 0.22 ? render::Subject::empty_tray
                 : subject < 0.26 ? render::Subject::leaf
                 : subject < 0.28 ? render::Subject::blurred
                                  : render::Subject::belly;

  const cv::Size shapes[] = {{4, 3}, {3, 2}, {16, 9}, {1, 1}, {3, 4}, {2, 3}};
  constexpr double up_to[] = {0.50, 0.70, 0.76, 0.82, 0.94, 1.0};
  const double pick = dice.uniform();
  std::size_t shape = 0;
  while (pick >= up_to[shape]) ++shape;
  drawn.oversampling = dice.uniform() < 0.8 ? 1.0 : 1.5;
  const double unit = kPicture * drawn.oversampling / std::max(shapes[shape].width, shapes[shape].height);
  spec.size = {cvRound(shapes[shape].width * unit), cvRound(shapes[shape].height * unit)};
  spec.world = dice.uniform() < 0.5 ? render::World::drawn : render::World::solid;
  return drawn;
}

// Flags and coordinates of each cell, from masks and coordinates over the letterbox's inside of `half` a size.
void pack_truth(Sample& sample, const render::Truth& truth, cv::Size half) {
  const cv::Mat masks[] = {letterboxed(truth.belly, half, kTruth, 0),
                           letterboxed(truth.animal, half, kTruth, 0),
                           letterboxed(truth.clear, half, kTruth, 0)};
  // The mean over the pixels where u and v are known, not over the holes.
  cv::Mat uv = truth.uv.clone();
  cv::Mat1f weight(uv.size(), 1.F);
  uv.forEach<cv::Vec2f>([&](cv::Vec2f& value, const int* at) {
    if (!std::isfinite(value[0]) || !std::isfinite(value[1])) {
      value = {0, 0};
      weight(at[0], at[1]) = 0;
    }
  });
  const cv::Mat2f uv_small = letterboxed(uv, half, kTruth, 0);
  const cv::Mat1f weight_small = letterboxed(weight, half, kTruth, 0);

  const cv::Mat1b parts = letterboxed(truth.part, half, kTruth, 0, cv::INTER_NEAREST);

  sample.flags.resize(static_cast<std::size_t>(kTruth) * kTruth);
  sample.uv.resize(sample.flags.size() * 2);
  for (int y = 0; y < kTruth; ++y)
    for (int x = 0; x < kTruth; ++x) {
      const std::size_t at = static_cast<std::size_t>(y) * kTruth + x;
      auto flags = static_cast<std::uint8_t>(parts(y, x) * Flag::part);
      for (int plane = 0; plane < 3; ++plane)
        if (masks[plane].at<std::uint8_t>(y, x) > 127) flags |= static_cast<std::uint8_t>(1 << plane);
      const float w = weight_small(y, x);
      if (w > 0.5F) {
        flags |= Flag::known;
        for (int k = 0; k < 2; ++k)
          sample.uv[2 * at + k] = cv::saturate_cast<std::int16_t>(uv_small(y, x)[k] / w * kUvScale);
      }
      sample.flags[at] = flags;
    }
}

void pack_facts(Sample& sample, const render::CaptureSpec& spec, const render::Truth& truth, double scale,
                cv::Size inner) {
  sample.facts.assign(kFacts, 0.F);
  sample.facts[kDifficulty] = spec.conditions.wild ? 3.F : static_cast<float>(spec.conditions.difficulty);
  sample.facts[kSubject] = static_cast<float>(spec.subject);
  sample.facts[kMechanism] = place(render::mechanisms(spec.world), truth.mechanism, spec.world);
  sample.facts[kBackground] = place(render::backgrounds(spec.world), truth.background, spec.world);
  sample.facts[kLight] = place(render::lights(spec.world), truth.light, spec.world);
  sample.facts[kWorldSeed] = static_cast<float>(spec.world_seed);
  sample.facts[kIndividual] = static_cast<float>(spec.individual);
  sample.facts[kCapture] = static_cast<float>(spec.capture);
  sample.facts[kLength] = static_cast<float>(truth.length_px * scale);
  sample.facts[kBend] = static_cast<float>(truth.bend_deg);
  sample.facts[kRoll] = static_cast<float>(truth.roll);
  sample.facts[kWidth] = static_cast<float>(inner.width);
  sample.facts[kHeight] = static_cast<float>(inner.height);
  sample.facts[kWorldKind] = static_cast<float>(spec.world);
  for (std::size_t i = 0; i < truth.midline.size() && i < kMidlinePoints; ++i) {
    sample.facts[kMidline + 2 * i] =
        static_cast<float>(truth.midline[i].x * scale + (kPicture - inner.width) / 2.0);
    sample.facts[kMidline + 2 * i + 1] =
        static_cast<float>(truth.midline[i].y * scale + (kPicture - inner.height) / 2.0);
  }
}

Sample pack(const Draw& drawn, const render::RenderedPhoto& photo) {
  const cv::Size full = photo.bgr.size();
  const double scale = static_cast<double>(kPicture) / std::max(full.width, full.height);
  // Even sizes, so that picture and truth share their edges.
  const cv::Size half{std::max(1, cvRound(full.width * scale / 2)),
                      std::max(1, cvRound(full.height * scale / 2))};
  const cv::Size inner = half * 2;

  cv::Mat rgb;
  cv::cvtColor(photo.bgr, rgb, cv::COLOR_BGR2RGB);
  const cv::Mat picture = letterboxed(rgb, inner, kPicture, cv::Scalar::all(128));
  Sample sample;
  sample.picture.assign(picture.datastart, picture.dataend);
  pack_truth(sample, photo.truth, half);
  pack_facts(sample, drawn.spec, photo.truth, scale, inner);
  return sample;
}

void write_shard(const std::filesystem::path& path, const std::vector<Sample>& samples) {
  const std::filesystem::path partial = path.string() + ".part";
  std::ofstream out(partial, std::ios::binary);
  out.write("EVTRAIN1", 8);
  put(out, std::vector<std::int32_t>{static_cast<std::int32_t>(samples.size()), kPicture, kTruth, kFacts});
  for (const Sample& sample : samples) put(out, sample.picture);
  for (const Sample& sample : samples) put(out, sample.flags);
  for (const Sample& sample : samples) put(out, sample.uv);
  for (const Sample& sample : samples) put(out, sample.facts);
  out.close();
  if (!out) throw std::runtime_error(partial.string() + ": could not be written; is the disk full?");
  std::filesystem::rename(partial, path);
}

}  // namespace evet::train
