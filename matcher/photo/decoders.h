// Pictures decoded where they can do no harm: in processes that hold no file, no network and no catalogue, with
// limits on memory, time and system calls (sandbox.h). A picture that kills or stalls its decoder is an Error
// like any damaged picture; the next one gets a new decoder.
//
// Each decoder serves one caller at a time and many pictures after each other. What comes back is not believed:
// sizes are bounded by what was asked for, words are bounded and printed plainly.
#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <span>
#include <string>
#include <vector>

#include "matcher/photo/confined.h"
#include "matcher/photo/decode_options.h"
#include "matcher/photo/photo.h"
#include "matcher/photo/sandbox.h"

namespace evet {

struct DecoderLimits {
  int seconds = 60;  // a picture
  SandboxLimits sandbox{};
};

class Decoders {
 public:
  using Grant = std::function<void(std::uint64_t bytes)>;
  struct Work {  // what a decoder does; others for tests
    std::function<PhotoHeader(std::span<const std::byte>, const DecodeOptions&)> header;
    std::function<Photo(std::span<const std::byte>, const DecodeOptions&, const Grant&)> decode;
  };
  static Work usual();

  // With a maker of their own. It forks: call it before the first thread. Errors: storage when no process can
  // be had.
  explicit Decoders(const DecoderLimits& limits = {}, Work work = usual());
  // With one that makes other processes as well: confined() at this place of its list.
  Decoders(std::shared_ptr<ConfinedMaker> maker, std::uint8_t kind, const DecoderLimits& limits = {});
  static ConfinedWork confined(const DecoderLimits& limits = {}, Work work = usual());
  ~Decoders();
  Decoders(const Decoders&) = delete;
  Decoders& operator=(const Decoders&) = delete;

  // Errors: those of decode_photo; bad_input when the decoder died of the picture or took too long.
  PhotoHeader header(std::span<const std::byte> file, const std::string& item, const DecodeOptions& options);
  Photo decode(std::span<const std::byte> file, const std::string& item, const DecodeOptions& options);

  // Those that decode_photo and read_photo_header use in this process; nullptr: they decode in it.
  static Decoders* in_use();
  static void use(Decoders* decoders);

 private:
  template <class Result>
  Result ask(std::span<const std::byte> file, const std::string& item, const DecodeOptions& options,
             bool pixels, const std::function<Result(Line&)>& answer);
  std::unique_ptr<Confined> take();
  void put_back(std::unique_ptr<Confined> decoder);

  DecoderLimits limits_;
  std::shared_ptr<ConfinedMaker> maker_;
  std::uint8_t kind_ = 0;
  std::mutex mutex_;
  std::vector<std::unique_ptr<Confined>> idle_;  // before their maker goes
};

}  // namespace evet
