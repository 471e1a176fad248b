// Rendered sets and their strips on disk: flat binary, read again by the same program only.
#include <cstring>
#include <fstream>

#include "matcher/base/error.h"
#include "tools/train/messages.h"
#include "tools/train/rendered_set.h"

namespace evet::train {
namespace {

constexpr std::uint64_t kMagic = 0x3474657374657665ULL;

class Writer {
 public:
  explicit Writer(const std::filesystem::path& path)
      : path_(path), file_(path.string() + ".part", std::ios::binary) {}
  void number(auto value) { file_.write(reinterpret_cast<const char*>(&value), sizeof value); }
  void bytes(const void* from, size_t count) {
    file_.write(static_cast<const char*>(from), static_cast<std::streamsize>(count));
  }
  void text(const std::string& value) { number(value.size()), bytes(value.data(), value.size()); }
  void strip(const Strip& strip) {
    bytes(strip.bgr.data, strip.bgr.total() * 3), bytes(strip.valid.data, strip.valid.total());
  }
  void facts(const PhotoFacts& f) {
    number(f.individual), number(f.plan.capture), number(f.plan.photo), number(f.plan.last),
        number(f.plan.years);
    text(f.mechanism), text(f.background), text(f.light);
  }
  // The file takes its name only when it is whole.
  void finish() {
    if (!file_.flush()) throw Error(ErrorKind::storage, path_.string(), messages::kSetCouldNotBeWritten);
    std::filesystem::rename(path_.string() + ".part", path_);
  }

 private:
  std::filesystem::path path_;
  std::ofstream file_;
};

class Reader {
 public:
  explicit Reader(const std::filesystem::path& path) : path_(path), file_(path, std::ios::binary) {
    std::uint64_t magic = 0;
    number(magic);
    if (magic != kMagic)
      throw Error(ErrorKind::bad_input, path.string(), messages::kIsNotSetWrittenBy, messages::kDelete);
  }
  void number(auto& value) { bytes(&value, sizeof value); }
  void bytes(void* to, size_t count) {
    if (!file_.read(static_cast<char*>(to), static_cast<std::streamsize>(count)))
      throw Error(ErrorKind::bad_input, path_.string(), messages::kEndsBeforeLastPhoto, messages::kDelete);
  }
  void text(std::string& value) {
    size_t length = 0;
    number(length);
    value.resize(length);
    bytes(value.data(), length);
  }
  PhotoFacts facts() {
    PhotoFacts f;
    number(f.individual), number(f.plan.capture), number(f.plan.photo), number(f.plan.last),
        number(f.plan.years);
    text(f.mechanism), text(f.background), text(f.light);
    return f;
  }
  Strip strip() {
    Strip out{cv::Mat3b(kStripRows, kStripCols), cv::Mat1b(kStripRows, kStripCols)};
    bytes(out.bgr.data, out.bgr.total() * 3), bytes(out.valid.data, out.valid.total());
    return out;
  }

 private:
  std::filesystem::path path_;
  std::ifstream file_;
};

void save(const std::vector<SetPhoto>& set, const std::filesystem::path& path) {
  Writer to(path);
  to.number(kMagic), to.number(set.size());
  for (const SetPhoto& p : set) {
    to.facts(p.facts);
    to.number(p.jpeg.size()), to.bytes(p.jpeg.data(), p.jpeg.size());
    to.strip(p.true_strip);
  }
  to.finish();
}

std::vector<SetPhoto> load_photos(const std::filesystem::path& path) {
  Reader from(path);
  size_t count = 0, length = 0;
  from.number(count);
  std::vector<SetPhoto> set(count);
  for (SetPhoto& p : set) {
    p.facts = from.facts();
    from.number(length);
    p.jpeg.resize(length);
    from.bytes(p.jpeg.data(), length);
    p.true_strip = from.strip();
  }
  return set;
}

void save(const std::vector<SetStrip>& set, const std::filesystem::path& path) {
  Writer to(path);
  to.number(kMagic), to.number(set.size());
  for (const SetStrip& s : set) {
    to.facts(s.facts);
    to.number(s.p_head_right), to.number(s.p_laid_right), to.text(s.why_not), to.number(s.strip.has_value());
    if (s.strip) to.strip(*s.strip);
  }
  to.finish();
}

std::vector<SetStrip> load_strips(const std::filesystem::path& path) {
  Reader from(path);
  size_t count = 0;
  from.number(count);
  std::vector<SetStrip> set(count);
  for (SetStrip& s : set) {
    bool there = false;
    s.facts = from.facts();
    from.number(s.p_head_right), from.number(s.p_laid_right), from.text(s.why_not), from.number(there);
    if (there) s.strip = from.strip();
  }
  return set;
}

}  // namespace

void keep_rendered(const SetSpec& spec, const std::filesystem::path& folder, int threads) {
  const std::filesystem::path path = folder / (spec.name() + ".photos");
  if (std::filesystem::exists(path)) return;
  std::filesystem::create_directories(folder);
  save(rendered_set(spec, threads), path);
}

std::vector<SetPhoto> kept_set(const SetSpec& spec, const std::filesystem::path& folder, int threads) {
  if (folder.empty()) return rendered_set(spec, threads);
  keep_rendered(spec, folder, threads);
  return load_photos(folder / (spec.name() + ".photos"));
}

std::vector<SetStrip> kept_strips(const SetSpec& spec, StripSource source,
                                  const std::filesystem::path& folder, int threads) {
  if (folder.empty()) return strips_of(rendered_set(spec, threads), source, threads);
  const std::filesystem::path path =
      folder / (spec.name() + (source == StripSource::truth ? ".true-strips" : ".found-strips"));
  if (std::filesystem::exists(path)) return load_strips(path);
  std::vector<SetStrip> set = strips_of(kept_set(spec, folder, threads), source, threads);
  save(set, path);
  return set;
}

}  // namespace evet::train
