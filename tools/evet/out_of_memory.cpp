#include "tools/evet/out_of_memory.h"

#include <unistd.h>

#include <cstdlib>
#include <exception>
#include <new>
#include <string_view>

#include "matcher/base/error.h"

namespace evet {
namespace {

constexpr std::string_view kSentence =
    "evet: memory ran out; nothing acknowledged is lost; try --threads 1\n";

[[noreturn]] void end() {
  try {
    if (std::current_exception()) std::rethrow_exception(std::current_exception());
  } catch (const std::bad_alloc&) {
    if (::write(STDERR_FILENO, kSentence.data(), kSentence.size()) >= 0)
      ::_exit(exit_code(ErrorKind::storage));
  } catch (...) {  // a mistake of ours, to be seen
  }
  std::abort();
}

}  // namespace

void end_plainly_without_memory() {
  std::set_terminate(end);
}

}  // namespace evet
