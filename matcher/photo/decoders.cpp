#include "matcher/photo/decoders.h"

#include <algorithm>
#include <atomic>
#include <opencv2/core/utility.hpp>
#include <optional>

#include "matcher/base/error.h"
#include "matcher/photo/decode_budget.h"
#include "matcher/photo/decode_here.h"
#include "matcher/photo/messages.h"
#include "matcher/photo/photo_wire.h"
#include "matcher/photo/read_file.h"

namespace evet {
namespace {

std::atomic<Decoders*> used{nullptr};

enum class Said : std::uint8_t { done, error, wants_room };

// One picture, from request to answer.
void serve_one(Line& line, const Decoders::Work& work) {
  const bool pixels = line.get_value<std::uint8_t>() != 0;
  DecodeOptions options;
  options.max_megapixels = line.get_value<double>();
  options.enough_long_side_px = line.get_value<std::int32_t>();
  std::vector<std::byte> file(line.get_value<std::uint64_t>());
  line.get(file.data(), file.size());
  std::optional<Photo> photo;
  PhotoHeader header;
  try {
    if (pixels)
      photo = work.decode(file, options, [&](std::uint64_t bytes) {
        line.put_value(Said::wants_room);
        line.put_value(bytes);
        line.get_value<std::uint8_t>();
      });
    else
      header = work.header(file, options);
  } catch (const LineBroken&) {
    throw;
  } catch (const Error& error) {
    line.put_value(Said::error);
    return put_error(line, error.kind(), error.reason());
  } catch (const std::exception&) {  // std::bad_alloc, and OpenCV's word for it
    line.put_value(Said::error);
    return put_error(line, ErrorKind::too_large,
                     {messages::kDecodingTakesMuchMemory, messages::kExportItSmaller});
  }
  line.put_value(Said::done);
  if (photo)
    put_photo(line, *photo);
  else
    put_header(line, header);
}

void be_decoder(Line& line, const DecoderLimits& limits, const Decoders::Work& work) {
  cv::setNumThreads(1);
  confine(limits.sandbox);
  for (;;) serve_one(line, work);
}

Error died(const std::string& item) {
  return {ErrorKind::bad_input, item, messages::kBytesStoppedDecoderPictureIs,
          messages::kCopyFromCamerasCardAgain};
}
Error too_slow(const std::string& item, int seconds) {
  return {ErrorKind::bad_input, item,
          Message(messages::kDecodingTakesLongerThanS, {{"seconds", std::to_string(seconds)}}),
          messages::kCopyFromCamerasCardAgainOr};
}

}  // namespace

Decoders::Work Decoders::usual() {
  return {[](std::span<const std::byte> file, const DecodeOptions& options) {
            return read_header_here(file, {}, options);
          },
          [](std::span<const std::byte> file, const DecodeOptions& options, const Grant& grant) {
            return decode_here(file, {}, options, grant);
          }};
}

ConfinedWork Decoders::confined(const DecoderLimits& limits, Work work) {
  return [limits, work = std::move(work)](Line& line) { be_decoder(line, limits, work); };
}

Decoders::Decoders(const DecoderLimits& limits, Work work)
    : limits_(limits),
      maker_(std::make_shared<ConfinedMaker>(std::vector{confined(limits, std::move(work))})) {}
Decoders::Decoders(std::shared_ptr<ConfinedMaker> maker, std::uint8_t kind, const DecoderLimits& limits)
    : limits_(limits), maker_(std::move(maker)), kind_(kind) {}

Decoders::~Decoders() {
  if (in_use() == this) use(nullptr);
}

Decoders* Decoders::in_use() {
  return used;
}
void Decoders::use(Decoders* decoders) {
  used = decoders;
}

std::unique_ptr<Confined> Decoders::take() {
  const std::lock_guard lock(mutex_);
  if (idle_.empty()) return maker_->make(kind_);
  auto one = std::move(idle_.back());
  idle_.pop_back();
  return one;
}
void Decoders::put_back(std::unique_ptr<Confined> decoder) {
  const std::lock_guard lock(mutex_);
  idle_.push_back(std::move(decoder));
}

template <class Result>
Result Decoders::ask(std::span<const std::byte> file, const std::string& item, const DecodeOptions& options,
                     bool pixels, const std::function<Result(Line&)>& answer) {
  if (file.size() > kMaxPhotoBytes) throw Error(ErrorKind::too_large, item, messages::kFileIsLargerThanAny);
  auto decoder = take();
  Line& line = decoder->line;
  std::optional<DecodeShare> share;
  try {
    line.allow_seconds(limits_.seconds);
    line.put_value<std::uint8_t>(pixels);
    line.put_value<double>(options.max_megapixels);
    line.put_value<std::int32_t>(options.enough_long_side_px);
    line.put_value<std::uint64_t>(file.size());
    line.put(file.data(), file.size());
    auto said = line.get_value<std::uint8_t>();
    if (pixels && said == static_cast<std::uint8_t>(Said::wants_room)) {
      share.emplace(std::min(line.get_value<std::uint64_t>(), DecodeShare::kAll));
      line.allow_seconds(limits_.seconds);  // who waits for room has not been slow
      line.put_value<std::uint8_t>(1);
      said = line.get_value<std::uint8_t>();
    }
    if (said == static_cast<std::uint8_t>(Said::error)) {
      const Error error = get_error(line, item);
      put_back(std::move(decoder));
      throw error;
    }
    if (said != static_cast<std::uint8_t>(Said::done)) throw LineBroken("it says what no decoder says");
    Result result = answer(line);
    put_back(std::move(decoder));
    return result;
  } catch (const LineTooSlow&) {
    throw too_slow(item, limits_.seconds);
  } catch (const LineBroken&) {
    throw died(item);
  }
}

PhotoHeader Decoders::header(std::span<const std::byte> file, const std::string& item,
                             const DecodeOptions& options) {
  return ask<PhotoHeader>(file, item, options, false, [&](Line& from) { return get_header(from, options); });
}
Photo Decoders::decode(std::span<const std::byte> file, const std::string& item,
                       const DecodeOptions& options) {
  return ask<Photo>(file, item, options, true, [&](Line& from) { return get_photo(from, options); });
}

}  // namespace evet
