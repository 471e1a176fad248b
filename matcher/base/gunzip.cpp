#include "matcher/base/gunzip.h"

#include <zlib.h>

#include <algorithm>
#include <memory>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"

namespace evet {

std::vector<std::byte> gunzip(std::span<const std::byte> packed, const std::string& item, size_t at_most) {
  const auto damaged = [&](const Message& how) {
    return Error(ErrorKind::bad_input, item, how, messages::kUseFileAsGzipWrote);
  };
  z_stream stream{};
  constexpr int kGzipOnly = 16 + MAX_WBITS;
  if (inflateInit2(&stream, kGzipOnly) != Z_OK)
    throw Error(ErrorKind::storage, item, messages::kThereIsNoMemoryUnpack);
  const std::unique_ptr<z_stream, int (*)(z_stream*)> at_the_end(&stream, inflateEnd);
  // zlib only reads there, though its interface predates const.
  stream.next_in = const_cast<Bytef*>(reinterpret_cast<const Bytef*>(packed.data()));
  stream.avail_in = static_cast<uInt>(packed.size());
  std::vector<std::byte> out;
  int state = Z_OK;
  while (state == Z_OK) {
    const size_t before = out.size(), room = std::min<size_t>(at_most + 1 - before, 1u << 20);
    if (room == 0) throw damaged({messages::kUnpacksToMore, {{"bytes", std::to_string(at_most)}}});
    out.resize(before + room);
    stream.next_out = reinterpret_cast<Bytef*>(out.data() + before);
    stream.avail_out = static_cast<uInt>(room);
    state = inflate(&stream, Z_NO_FLUSH);
    out.resize(before + room - stream.avail_out);
  }
  if (state == Z_BUF_ERROR) throw damaged(messages::kIsCutOff);
  if (state != Z_STREAM_END) throw damaged(messages::kNotWhatGzipWrote);
  if (out.size() > at_most) throw damaged({messages::kUnpacksToMore, {{"bytes", std::to_string(at_most)}}});
  return out;
}

}  // namespace evet
