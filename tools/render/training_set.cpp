#include "tools/render/training_set.h"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstring>
#include <fstream>
#include <nlohmann/json.hpp>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "tools/render/individual.h"
#include "tools/render/on_threads.h"
#include "tools/render/rng.h"

namespace evet::render {

namespace {

// A file of fixed-size records, written in any order.
class RecordFile {
 public:
  RecordFile(const std::filesystem::path& path, std::size_t record_bytes, std::size_t records)
      : path_(path), record_bytes_(record_bytes), file_(::open(path.c_str(), O_RDWR | O_CREAT, 0644)) {
    if (file_ < 0 || ::ftruncate(file_, static_cast<off_t>(record_bytes * records)) != 0)
      throw std::runtime_error("cannot write " + path.string());
  }
  RecordFile(const RecordFile&) = delete;
  RecordFile& operator=(const RecordFile&) = delete;
  ~RecordFile() {
    if (file_ >= 0) ::close(file_);
  }
  void write(std::size_t record, const void* data) {
    const char* from = static_cast<const char*>(data);
    for (std::size_t done = 0; done < record_bytes_;) {
      const ssize_t n = ::pwrite(file_, from + done, record_bytes_ - done,
                                 static_cast<off_t>(record * record_bytes_ + done));
      if (n <= 0) throw std::runtime_error("cannot write " + path_.string());
      done += static_cast<std::size_t>(n);
    }
  }
  std::uint8_t read_byte(std::size_t record) {
    std::uint8_t byte = 0;
    if (::pread(file_, &byte, 1, static_cast<off_t>(record * record_bytes_)) != 1)
      throw std::runtime_error("cannot read " + path_.string());
    return byte;
  }

 private:
  std::filesystem::path path_;
  std::size_t record_bytes_;
  int file_;
};

template <class T>
float index_in(const std::vector<T>& all, const T& one) {
  const auto at = std::find(all.begin(), all.end(), one);
  return at == all.end() ? -1.0f : static_cast<float>(at - all.begin());
}

nlohmann::json description(const TrainingOptions& o) {
  const int n = o.samples;
  const auto array = [](const char* dtype, std::vector<int> shape) {
    return nlohmann::json{{"dtype", dtype}, {"shape", std::move(shape)}};
  };
  return {
      {"format", 1},
      {"world_seed", o.world_seed},
      {"first_individual", o.first_individual},
      {"samples", n},
      {"captures_per_individual", o.captures_per_individual},
      {"long_side_px", o.long_side_px},
      {"wild_share", o.wild_share},
      {"arrays",
       {{"input.bin", array("uint8", {n, kInputSide, kInputSide, 3})},
        {"shares.bin", array("uint8", {n, kTargetSide, kTargetSide, 4})},
        {"uv.bin", array("float16", {n, kTargetSide, kTargetSide, 2})},
        {"facts.bin", array("float32", {n, kFacts})}}},
      {"shares", {"belly", "clear", "animal", "dark"}},
      {"facts",
       {"individual", "capture", "years", "wild", "difficulty", "subject", "mechanism", "background", "light",
        "length_share", "bend_deg", "roll", "covered_share", "width_px", "height_px", "cut_off"}},
      {"mechanisms", mechanisms()},
      {"backgrounds", backgrounds()},
      {"lights", lights()},
      {"without",
       {{"mechanisms", o.conditions.without_mechanisms},
        {"backgrounds", o.conditions.without_backgrounds},
        {"lights", o.conditions.without_lights}}}};
}

std::uint16_t half_bits(float value) {
  const cv::float16_t half(value);
  return half.bits();
}

}  // namespace

void TrainingOptions::check() const {
  if (conditions.foreign)
    throw std::invalid_argument(
        "a training set draws no foreign conditions: they are kept back for scores; leave out --foreign");
  if (samples < 1) throw std::invalid_argument("samples is at least 1");
  if (captures_per_individual < 1) throw std::invalid_argument("captures per individual is at least 1");
  if (long_side_px < kInputSide || long_side_px > 4000)
    throw std::invalid_argument("the long side is 256 to 4000 px");
  if (wild_share < 0 || wild_share > 1) throw std::invalid_argument("the wild share is 0 to 1");
  if (threads < 1 || threads > 256) throw std::invalid_argument("threads is 1 to 256");
}

CaptureSpec training_spec(const TrainingOptions& options, int sample) {
  Rng rng(mix64(mix64(options.world_seed, 0x7a1),
                options.first_individual * 64ULL * 1024 + static_cast<std::uint64_t>(sample)));
  CaptureSpec spec;
  spec.world_seed = options.world_seed;
  spec.individual =
      options.first_individual + static_cast<std::uint32_t>(sample / options.captures_per_individual);
  spec.capture = static_cast<std::uint32_t>(sample % options.captures_per_individual);
  spec.conditions = options.conditions;
  spec.conditions.wild = rng.chance(options.wild_share);
  const double d = rng.uniform();
  spec.conditions.difficulty = d < 0.2   ? Difficulty::gentle
                               : d < 0.5 ? Difficulty::middle
                                         : Difficulty::hardest;
  // A span of up to three years between an individual's captures.
  spec.years = spec.capture == 0 ? 0 : rng.uniform(0, 3);
  const double s = rng.uniform();
  spec.subject = s < 0.88   ? Subject::belly
                 : s < 0.91 ? Subject::back
                 : s < 0.93 ? Subject::empty_tray
                 : s < 0.95 ? Subject::leaf
                 : s < 0.98 ? Subject::small_newt
                            : Subject::blurred;
  const int long_side = options.long_side_px;
  const int short_side = static_cast<int>(long_side * (rng.chance(0.6)   ? 0.75
                                                       : rng.chance(0.5) ? 0.6667
                                                       : rng.chance(0.5) ? 0.5625
                                                                         : 1.0));
  spec.size = rng.chance(0.7) ? cv::Size(long_side, short_side) : cv::Size(short_side, long_side);
  return spec;
}

namespace {

// Scaled by area averaging to the long side, centred on grey.
struct Letterbox {
  double scale;
  cv::Size fitted;
  cv::Point corner;
};

Letterbox letterbox_of(cv::Size picture) {
  Letterbox box;
  box.scale = static_cast<double>(kInputSide) / std::max(picture.width, picture.height);
  box.fitted = {static_cast<int>(std::lround(picture.width * box.scale)),
                static_cast<int>(std::lround(picture.height * box.scale))};
  box.corner = {(kInputSide - box.fitted.width) / 2, (kInputSide - box.fitted.height) / 2};
  return box;
}

std::vector<std::uint8_t> input_of(const cv::Mat3b& picture, const Letterbox& box) {
  cv::Mat3b input(kInputSide, kInputSide, cv::Vec3b(128, 128, 128)), small;
  cv::resize(picture, small, box.fitted, 0, 0, cv::INTER_AREA);
  small.copyTo(input(cv::Rect(box.corner, box.fitted)));
  cv::cvtColor(input, input, cv::COLOR_BGR2RGB);
  return {input.ptr<std::uint8_t>(), input.ptr<std::uint8_t>() + input.total() * 3};
}

constexpr int kCells = kTargetSide * kTargetSide;
struct Cell {
  float all = 0, belly = 0, clear = 0, animal = 0, dark = 0, trunk = 0, u = 0, v = 0;
};

// Each target cell gathers the truth of the photo's pixels that fall into it.
std::vector<Cell> cells_of(const RenderedPhoto& photo, const Letterbox& box) {
  const Truth& t = photo.truth;
  std::vector<Cell> cells(kCells);
  const double to_cell = box.scale * kTargetSide / kInputSide;
  const double x_of = static_cast<double>(box.corner.x) * kTargetSide / kInputSide,
               y_of = static_cast<double>(box.corner.y) * kTargetSide / kInputSide;
  for (int y = 0; y < photo.bgr.rows; ++y) {
    const int row = std::min(kTargetSide - 1, static_cast<int>((y + 0.5) * to_cell + y_of));
    for (int x = 0; x < photo.bgr.cols; ++x) {
      Cell& cell = cells[static_cast<std::size_t>(
          row * kTargetSide + std::min(kTargetSide - 1, static_cast<int>((x + 0.5) * to_cell + x_of)))];
      cell.all += 1;
      if (!t.animal(y, x)) continue;
      cell.animal += 1;
      const cv::Vec2f& uv = t.uv(y, x);
      if (!std::isnan(uv[0])) {
        cell.trunk += 1;
        cell.u += uv[0];
        cell.v += uv[1];
      }
      if (!t.belly(y, x)) continue;
      cell.belly += 1;
      cell.clear += t.clear(y, x) != 0;
      cell.dark += t.dark(y, x) != 0;
    }
  }
  return cells;
}

}  // namespace

TrainingSample to_sample(const CaptureSpec& spec, const RenderedPhoto& photo) {
  const Truth& t = photo.truth;
  TrainingSample out;
  const Letterbox box = letterbox_of(photo.bgr.size());
  out.input = input_of(photo.bgr, box);
  const std::vector<Cell> cells = cells_of(photo, box);
  out.shares.resize(kCells * 4);
  out.uv.assign(kCells * 2, half_bits(0));
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const Cell& c = cells[i];
    const auto byte = [](float part, float whole) {
      return static_cast<std::uint8_t>(whole > 0 ? 255 * part / whole + 0.5f : 0.0f);
    };
    out.shares[4 * i] = byte(c.belly, c.all);
    out.shares[4 * i + 1] = byte(c.clear, c.all);
    out.shares[4 * i + 2] = byte(c.animal, c.all);
    out.shares[4 * i + 3] = byte(c.dark, c.belly);
    if (c.trunk > 0) {
      out.uv[2 * i] = half_bits(c.u / c.trunk);
      out.uv[2 * i + 1] = half_bits(c.v / c.trunk);
    }
  }
  const double diagonal = std::hypot(photo.bgr.cols, photo.bgr.rows);
  out.facts = {static_cast<float>(spec.individual),
               static_cast<float>(spec.capture),
               static_cast<float>(spec.years),
               spec.conditions.wild ? 1.0f : 0.0f,
               static_cast<float>(spec.conditions.difficulty),
               static_cast<float>(spec.subject),
               index_in(mechanisms(), t.mechanism),
               index_in(backgrounds(), t.background),
               index_in(lights(), t.light),
               static_cast<float>(t.length_px / diagonal),
               static_cast<float>(t.bend_deg),
               static_cast<float>(t.roll),
               static_cast<float>(t.covered_share),
               static_cast<float>(photo.bgr.cols),
               static_cast<float>(photo.bgr.rows),
               t.cut_off ? 1.0f : 0.0f};
  return out;
}

int write_training_set(const std::filesystem::path& folder, const TrainingOptions& options) {
  options.check();
  std::filesystem::create_directories(folder);
  const std::string meta = description(options).dump(1);
  const std::filesystem::path meta_path = folder / "meta.json";
  if (std::filesystem::exists(meta_path)) {
    std::ifstream file(meta_path);
    const std::string there((std::istreambuf_iterator<char>(file)), {});
    if (there != meta)
      throw std::invalid_argument(folder.string() +
                                  " holds a set made with other options; use another folder");
  } else {
    std::ofstream(meta_path) << meta;
  }
  const auto n = static_cast<std::size_t>(options.samples);
  const std::size_t each = static_cast<std::size_t>(options.captures_per_individual),
                    groups = (n + each - 1) / each;
  RecordFile input(folder / "input.bin", kInputSide * kInputSide * 3, n),
      shares(folder / "shares.bin", kTargetSide * kTargetSide * 4, n);
  RecordFile uv(folder / "uv.bin", kTargetSide * kTargetSide * 4, n),
      facts(folder / "facts.bin", kFacts * 4, n), done(folder / "done.bin", 1, groups);
  std::atomic<int> rendered{0};
  on_threads(groups, options.threads, [&](std::size_t group) {
    if (done.read_byte(group) == 1) return;
    const std::size_t first = group * each, last = std::min(n, first + each);
    const CaptureSpec any = training_spec(options, static_cast<int>(first));
    const Individual animal = make_individual(any.world_seed, any.individual, any.conditions);
    for (std::size_t i = first; i < last; ++i) {
      const CaptureSpec spec = training_spec(options, static_cast<int>(i));
      const TrainingSample sample = to_sample(spec, render(animal, spec));
      input.write(i, sample.input.data());
      shares.write(i, sample.shares.data());
      uv.write(i, sample.uv.data());
      facts.write(i, sample.facts.data());
      ++rendered;
    }
    const std::uint8_t yes = 1;
    done.write(group, &yes);
  });
  return rendered;
}

}  // namespace evet::render
