#include "matcher/base/error.h"

#include <gtest/gtest.h>

namespace evet {

TEST(Error, NamesItemWhatIsWrongAndWhatWouldBeRight) {
  const Error error(ErrorKind::bad_input, "line 7", "sex 'fermale' is not known",
                    "use female, male or unknown");
  EXPECT_STREQ(error.what(), "line 7: sex 'fermale' is not known; use female, male or unknown");
}

TEST(Error, EveryKindHasTheExitCodeThatTheCommandsPromise) {
  EXPECT_EQ(exit_code(ErrorKind::usage), 2);
  for (const ErrorKind kind : {ErrorKind::bad_input, ErrorKind::not_found, ErrorKind::conflict,
                               ErrorKind::unsupported, ErrorKind::too_large})
    EXPECT_EQ(exit_code(kind), 3) << name(kind);
  EXPECT_EQ(exit_code(ErrorKind::storage), 4);
}

}  // namespace evet
