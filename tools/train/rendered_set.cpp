#include "tools/train/rendered_set.h"

#include <atomic>
#include <cmath>
#include <exception>
#include <fstream>
#include <mutex>
#include <opencv2/imgproc.hpp>
#include <random>
#include <thread>

#include "matcher/base/error.h"
#include "matcher/belly/find_belly.h"

namespace evet::train {
namespace {

// A smooth random field over the strip: a constant part and a part that varies along and across.
cv::Mat1f smooth_field(std::mt19937_64& rng, float spread) {
  std::normal_distribution<float> normal(0.F, spread);
  cv::Mat1f coarse(5, 3), field;
  const float all = normal(rng);
  for (float& x : coarse) x = all + 0.6F * normal(rng);
  cv::resize(coarse, field, {kStripCols, kStripRows}, 0, 0, cv::INTER_CUBIC);
  return field;
}

// Photo position of every strip cell: truth pixels scattered onto the canvas, then averaged nearby.
struct Positions {
  cv::Mat2f photo;  // centres at +0.5
  cv::Mat1f support;
};
Positions positions(const cv::Mat2f& uv) {
  cv::Mat2f sum(kStripRows, kStripCols, cv::Vec2f(0, 0));
  cv::Mat1f weight(kStripRows, kStripCols, 0.F);
  for (int y = 0; y < uv.rows; ++y)
    for (int x = 0; x < uv.cols; ++x) {
      const cv::Vec2f at = uv(y, x);
      if (!(std::abs(at[1]) < 1) || !(at[0] > 0 && at[0] < 1)) continue;
      const int row = static_cast<int>(at[0] * kStripRows),
                col = static_cast<int>((at[1] + 1) / 2 * kStripCols);
      sum(row, col) += cv::Vec2f(static_cast<float>(x) + 0.5F, static_cast<float>(y) + 0.5F);
      weight(row, col) += 1;
    }
  cv::GaussianBlur(sum, sum, {}, 1.5);
  cv::GaussianBlur(weight, weight, {}, 1.5);
  for (int r = 0; r < kStripRows; ++r)
    for (int c = 0; c < kStripCols; ++c)
      if (weight(r, c) > 1e-3F) sum(r, c) *= 1 / weight(r, c);
  return {sum, weight};
}

template <class T>
void write(std::ofstream& file, const T& value) {
  file.write(reinterpret_cast<const char*>(&value), sizeof value);
}
template <class T>
void read(std::ifstream& file, T& value) {
  file.read(reinterpret_cast<char*>(&value), sizeof value);
}

constexpr std::uint64_t kMagic = 0x31746573746576eULL;

SetPhoto one(const SetSpec& spec, std::uint64_t world, std::uint32_t individual, std::uint32_t capture) {
  SetPhoto out;
  out.world = world, out.individual = individual, out.capture = capture;
  out.years = years_of(spec.difficulty, individual, capture, spec.captures);
  render::CaptureSpec wanted;
  wanted.world_seed = world, wanted.individual = individual, wanted.capture = capture;
  wanted.years = out.years, wanted.size = spec.photo, wanted.conditions.difficulty = spec.difficulty;
  const render::RenderedPhoto rendered = render::render(wanted);
  if (spec.source == StripSource::truth) {
    const std::uint64_t seed = (world * 1000003 + individual) * 1000003 + capture;
    out.strip = strip_from_truth(rendered, spec.wobble, seed);
    return out;
  }
  Photo photo;
  photo.bgr = rendered.bgr;
  BellyFinding found = find_belly(photo);
  out.p_head_right = found.coordinates.p_head_right;
  if (found.usable())
    out.strip = std::move(found.strip);
  else
    for (const QualityNote& note : found.notes)
      if (note.blocks && out.why_not.empty()) out.why_not = note.measure;
  return out;
}

}  // namespace

Strip strip_from_truth(const render::RenderedPhoto& photo, double wobble, std::uint64_t seed) {
  const Positions at = positions(photo.truth.uv);
  std::mt19937_64 rng(seed);
  const cv::Mat1f du = smooth_field(rng, static_cast<float>(wobble)),
                  dv = smooth_field(rng, static_cast<float>(8 * wobble));
  cv::Mat2f from(kStripRows, kStripCols, cv::Vec2f(-1, -1));
  cv::Mat1b seen(kStripRows, kStripCols, uchar{0});
  for (int r = 0; r < kStripRows; ++r)
    for (int c = 0; c < kStripCols; ++c) {
      const float row = static_cast<float>(r) + du(r, c) * kStripRows,
                  col = static_cast<float>(c) + dv(r, c) * kStripCols / 2;
      const int row0 = cvRound(row), col0 = cvRound(col);
      if (row0 < 0 || row0 >= kStripRows || col0 < 0 || col0 >= kStripCols) continue;
      if (at.support(row0, col0) < 0.1F) continue;
      from(r, c) = at.photo(row0, col0) - cv::Vec2f(0.5F, 0.5F);
      const int x = cvRound(from(r, c)[0]), y = cvRound(from(r, c)[1]);
      if (x < 0 || y < 0 || x >= photo.bgr.cols || y >= photo.bgr.rows) continue;
      seen(r, c) = photo.truth.clear(y, x);
    }
  Strip strip;
  cv::remap(photo.bgr, strip.bgr, from, {}, cv::INTER_LINEAR, cv::BORDER_CONSTANT, cv::Scalar());
  strip.valid = seen;
  return strip;
}

double years_of(render::Difficulty difficulty, std::uint32_t individual, std::uint32_t capture,
                std::uint32_t captures) {
  const double most = difficulty == render::Difficulty::gentle   ? 0.3
                      : difficulty == render::Difficulty::middle ? 1.2
                                                                 : 3.0;
  if (captures < 2) return 0;
  // Half of the animals come again at even intervals up to the whole span, the others within less of it.
  const double span = individual % 2 == 0 ? most : most * 0.4;
  return span * capture / (captures - 1);
}

std::vector<SetPhoto> rendered_set(const SetSpec& spec) {
  const size_t of_world = static_cast<size_t>(spec.individuals) * spec.captures;
  std::vector<SetPhoto> out(spec.worlds.size() * of_world);
  std::atomic<size_t> next{0};
  std::exception_ptr failed;
  std::mutex failing;
  std::vector<std::thread> threads;
  for (int t = 0; t < spec.threads; ++t)
    threads.emplace_back([&] {
      for (size_t i; (i = next++) < out.size();) try {
          const size_t within = i % of_world;
          out[i] = one(spec, spec.worlds[i / of_world], static_cast<std::uint32_t>(within / spec.captures),
                       static_cast<std::uint32_t>(within % spec.captures));
        } catch (...) {
          const std::lock_guard<std::mutex> lock(failing);
          failed = std::current_exception();
        }
    });
  for (std::thread& thread : threads) thread.join();
  if (failed) std::rethrow_exception(failed);
  return out;
}

void save_set(const std::vector<SetPhoto>& set, const std::string& path) {
  std::ofstream file(path, std::ios::binary);
  write(file, kMagic);
  write(file, set.size());
  for (const SetPhoto& photo : set) {
    write(file, photo.world), write(file, photo.individual), write(file, photo.capture),
        write(file, photo.years);
    write(file, photo.p_head_right);
    write(file, photo.why_not.size());
    file.write(photo.why_not.data(), static_cast<std::streamsize>(photo.why_not.size()));
    write(file, photo.strip.has_value());
    if (!photo.strip) continue;
    file.write(reinterpret_cast<const char*>(photo.strip->bgr.data), kStripRows * kStripCols * 3);
    file.write(reinterpret_cast<const char*>(photo.strip->valid.data), kStripRows * kStripCols);
  }
  if (!file.flush()) throw Error(ErrorKind::storage, path, "the set could not be written");
}

std::vector<SetPhoto> load_set(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw Error(ErrorKind::not_found, path, "there is no such file");
  std::uint64_t magic = 0;
  size_t count = 0;
  read(file, magic), read(file, count);
  if (magic != kMagic) throw Error(ErrorKind::bad_input, path, "it is not a set written by this program");
  std::vector<SetPhoto> out(count);
  for (SetPhoto& photo : out) {
    read(file, photo.world), read(file, photo.individual), read(file, photo.capture), read(file, photo.years);
    read(file, photo.p_head_right);
    size_t length = 0;
    read(file, length);
    photo.why_not.resize(length);
    file.read(photo.why_not.data(), static_cast<std::streamsize>(length));
    bool there = false;
    read(file, there);
    if (!there) continue;
    photo.strip.emplace(cv::Mat3b(kStripRows, kStripCols), cv::Mat1b(kStripRows, kStripCols));
    file.read(reinterpret_cast<char*>(photo.strip->bgr.data), kStripRows * kStripCols * 3);
    file.read(reinterpret_cast<char*>(photo.strip->valid.data), kStripRows * kStripCols);
  }
  if (!file) throw Error(ErrorKind::bad_input, path, "it ends before its last photo");
  return out;
}

}  // namespace evet::train
