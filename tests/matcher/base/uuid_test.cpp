#include "matcher/base/uuid.h"

#include <gtest/gtest.h>

#include <set>

#include "matcher/base/error.h"
#include "tests/matcher/base/still_env.h"

namespace evet {
namespace {

using testing_env::StillEnv;

TEST(Uuid, PutsTheTimeInFrontAsInRfc9562) {
  StillEnv env;
  env.clock.unix_ms = 0x017F22E279B0;  // 2022-02-22T19:22:22Z: RFC 9562, appendix A.6
  const std::string id = uuid7(env);
  EXPECT_EQ(id.substr(0, 15), "017f22e2-79b0-7");
  EXPECT_TRUE(is_uuid7(id));
}

TEST(Uuid, KnowsTheExampleOfRfc9562) {
  EXPECT_TRUE(is_uuid7("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"));  // appendix A.6, in lower case
  for (const char* wrong : {"", "017f22e2-79b0-4cc3-98c4-dc0c0c07398f",
                            "017F22E2-79B0-7CC3-98C4-DC0C0C07398F", "017f22e2-79b0-7cc3-c8c4-dc0c0c07398f",
                            "017f22e279b0-7cc3-98c4-dc0c0c07398f--", "017f22e2-79b0-7cc3-98c4-dc0c0c07398",
                            "017f22e2-79b0-7cc3-98c4-dc0c0c07398fa", "g17f22e2-79b0-7cc3-98c4-dc0c0c07398f"})
    EXPECT_FALSE(is_uuid7(wrong)) << wrong;
}

TEST(Uuid, SortsAfterThePreviousOneWhateverTheClockSays) {
  StillEnv env;
  std::string previous;
  std::set<std::string> all;
  for (int i = 0; i < 2000; ++i) {
    if (i == 1000) env.clock.unix_ms -= 3600 * 1000;  // the clock is set back an hour
    if (i == 1500) env.clock.unix_ms += 7200 * 1000;
    const std::string id = uuid7_after(env, previous);
    ASSERT_TRUE(is_uuid7(id)) << id;
    ASSERT_GT(id, previous);
    all.insert(id);
    previous = id;
  }
  EXPECT_EQ(all.size(), 2000u);
}

TEST(Uuid, CountsOnOverTheVersionAndVariantBits) {
  StillEnv env;
  EXPECT_EQ(uuid7_after(env, "ffffffff-0000-7000-8000-ffffffffffff"), "ffffffff-0000-7000-8001-000000000000");
  EXPECT_EQ(uuid7_after(env, "ffffffff-0000-7000-bfff-ffffffffffff"), "ffffffff-0000-7001-8000-000000000000");
  EXPECT_EQ(uuid7_after(env, "ffffffff-0000-7fff-bfff-ffffffffffff"), "ffffffff-0001-7000-8000-000000000000");
  EXPECT_THROW(uuid7_after(env, "ffffffff-ffff-7fff-bfff-ffffffffffff"), Error);
}

}  // namespace
}  // namespace evet
