#include "matcher/base/moment.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

TEST(Moment, IsWrittenWithItsOffset) {
  EXPECT_EQ(to_text({0, 0}), "1970-01-01T00:00:00.000+00:00");
  EXPECT_EQ(to_text({0, 120}), "1970-01-01T02:00:00.000+02:00");
  EXPECT_EQ(to_text({0, -210}), "1969-12-31T20:30:00.000-03:30");
  EXPECT_EQ(to_text({-1, 0}), "1969-12-31T23:59:59.999+00:00");
}

TEST(Moment, ReadsTheExamplesOfRfc3339) {
  // RFC 3339, section 5.8.
  EXPECT_EQ(parse_instant("1985-04-12T23:20:50.52Z")->unix_ms, 482196050520);
  EXPECT_EQ(parse_instant("1996-12-19T16:39:57-08:00")->unix_ms, 851042397000);
  EXPECT_EQ(parse_instant("1996-12-19T16:39:57-08:00")->utc_offset_min, -480);
  EXPECT_EQ(parse_instant("1937-01-01T12:00:27.87+00:20")->unix_ms, -1041337172130);
  EXPECT_TRUE(parse_instant("1990-12-31T23:59:60Z"));  // a leap second
}

TEST(Moment, RoundTrips) {
  for (const std::int64_t ms : {0LL, 1935786847123LL, -62135596800000LL, 253402300799999LL})
    for (const int offset : {0, 60, -720, 840}) {
      if (ms != 253402300799999LL || offset <= 0) {  // years of four digits
        const auto back = parse_instant(to_text({ms, offset}));
        if (ms == -62135596800000LL && offset < 0) continue;
        ASSERT_TRUE(back) << to_text({ms, offset});
        EXPECT_EQ(back->unix_ms, ms);
        EXPECT_EQ(back->utc_offset_min, offset);
      }
    }
}

TEST(Moment, RefusesWhatIsNone) {
  for (const char* wrong :
       {"", "2031-05-14", "2031-05-14T22:41:07", "2031-05-14T22:41:07+0200", "2031-02-29T00:00:00Z",
        "2031-05-14T24:00:00Z", "2031-05-14T22:60:07Z", "2031-13-14T22:41:07Z", "2031-05-14T22:41:07Zx",
        "2031-05-14T22:41:07+25:00", "2031-05-14T22:41:07+02:60", "2031-05-14T22-41-07Z", "20310514T224107Z",
        "2031-05-14T22:41:07.Z+02:00"})
    EXPECT_FALSE(parse_instant(wrong)) << wrong;
}

TEST(Moment, CountsDaysOverLeapYears) {
  EXPECT_EQ(days_since_epoch("1970-01-01"), 0);
  EXPECT_EQ(days_since_epoch("2000-03-01") - days_since_epoch("2000-02-28"), 2);
  EXPECT_EQ(days_since_epoch("2100-03-01") - days_since_epoch("2100-02-28"), 1);
  EXPECT_TRUE(is_date("2032-02-29"));
  for (const char* wrong : {"2031-02-29", "2031-2-09", "2031-05-14 ", "31-05-2014", "2031/05/14", ""})
    EXPECT_FALSE(is_date(wrong)) << wrong;
}

}  // namespace
}  // namespace evet
