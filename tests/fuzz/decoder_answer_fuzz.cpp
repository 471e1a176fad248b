// Any bytes as the answer of a decoder that was taken over: a picture within what was asked for, an error, or a
// broken line.
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cstdint>
#include <cstdlib>

#include "matcher/photo/photo_wire.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace evet;
  constexpr std::size_t kFits = 60'000;  // in a socket that nobody reads
  if (size < 1) return 0;
  int both[2];
  if (::socketpair(AF_UNIX, SOCK_STREAM, 0, both) != 0) return 0;
  const bool sent = ::write(both[0], data + 1, std::min(size - 1, kFits)) >= 0;
  ::close(both[0]);
  Line line(both[1]);
  const DecodeOptions options{.max_megapixels = 0.01};
  try {
    if (!sent) throw LineBroken("");
    if (data[0] % 3 == 0) {
      const PhotoHeader header = get_header(line, options);
      if (header.camera.size() > 10'000) std::abort();
    } else if (data[0] % 3 == 1) {
      const Photo photo = get_photo(line, options);
      if (photo.bgr.total() > 10'000) std::abort();
    } else {
      if (get_error(line, "a photo").kind() == ErrorKind::storage) std::abort();
    }
  } catch (const LineBroken&) {
  }
  ::close(both[1]);
  return 0;
}
