// Any bytes as the answer of a process that reads a database apart and was taken over: rows within bounds, an
// error that it may tell, or a broken line.
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cstdint>
#include <cstdlib>

#include "matcher/catalogue/apart_wire.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace evet;
  constexpr std::size_t kFits = 60'000, kAtMost = 2'000;
  int both[2];
  if (::socketpair(AF_UNIX, SOCK_STREAM, 0, both) != 0) return 0;
  const bool sent = ::write(both[0], data, std::min(size, kFits)) >= 0;
  ::close(both[0]);
  Line line(both[1]);
  std::size_t told = 0;
  std::int64_t last = INT64_MIN;
  try {
    if (!sent) throw LineBroken("");
    const auto error = listen(line, kAtMost,
                              {[&](StoredEntry stored) {
                                 if (stored.position <= last) std::abort();
                                 last = stored.position;
                                 told += stored.entry.body.size();
                               },
                               [&](ToldOf, std::string words) { told += words.size() / 16; }});
    if (error && (error->kind == ErrorKind::usage || error->words.find('\x1b') != std::string::npos))
      std::abort();
  } catch (const LineBroken&) {
  }
  if (told > kAtMost) std::abort();
  ::close(both[1]);
  return 0;
}
