#include "tools/evet/out_of_memory.h"

#include <gtest/gtest.h>

#include <new>
#include <stdexcept>

namespace evet {
namespace {

template <class What>
void throw_one(const What& what) {
  throw what;
}
template <class What>
void throw_where_nothing_may(const What& what) noexcept {
  throw_one(what);
}

TEST(OutOfMemory, WhereNothingMayBeThrownItIsToldAndEndsWithCodeFour) {
  EXPECT_EXIT(
      {
        end_plainly_without_memory();
        throw_where_nothing_may(std::bad_alloc());
      },
      testing::ExitedWithCode(4), "memory ran out; nothing acknowledged is lost");
}

TEST(OutOfMemory, AnotherExceptionThereIsStillAnAbort) {
  EXPECT_EXIT(
      {
        end_plainly_without_memory();
        throw_where_nothing_may(std::logic_error("a mistake"));
      },
      testing::KilledBySignal(SIGABRT), "");
}

}  // namespace
}  // namespace evet
