#include "tools/words/names.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"

namespace evet {
namespace {

CaptureState capture(const std::string& id, const std::string& night, const std::string& name,
                     const std::string& photo) {
  CaptureState out;
  out.id = CaptureId(id);
  out.facts.night = night, out.facts.name = name;
  out.photos.push_back({PhotoId(id), photo, true});
  return out;
}

Identities three_captures() {
  Identities who;
  who.captures = {capture("id-1", "2031-05-01", "1", "a.jpg"), capture("id-2", "2031-05-02", "1", "b.jpg"),
                  capture("id-3", "2031-05-02", "c3", "c.jpg")};
  for (size_t i = 0; i < who.captures.size(); ++i) who.capture_at[who.captures[i].id] = i;
  return who;
}

TEST(Names, AreShortWhereThatIsPlainAndFindTheSameCaptureAgain) {
  const Identities who = three_captures();
  const Names names(who);
  EXPECT_EQ(names.of(who.captures[2]), "c3");
  EXPECT_EQ(names.of(who.captures[0]), "2031-05-01/1");
  for (const CaptureState& one : who.captures) {
    EXPECT_EQ(names.capture(names.of(one)).id, one.id);
    EXPECT_EQ(names.capture(one.id.value).id, one.id);
    EXPECT_EQ(names.capture(one.photos[0].name).id, one.id);
  }
}

TEST(Names, SayWhichWhereSeveralAreMeantAndWhatWasProbablyMeant) {
  const Identities who = three_captures();
  const Names names(who);
  try {
    names.capture("1");
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::conflict);
    EXPECT_THAT(error.what(), testing::HasSubstr("2031-05-01/1, 2031-05-02/1"));
  }
  EXPECT_THROW(names.capture("nobody"), Error);
}

TEST(Names, AreListedNightByNightAndNumbersByTheirValue) {
  const CaptureState second = capture("x", "2031-05-01", "c2", ""),
                     tenth = capture("a", "2031-05-01", "c10", "");
  EXPECT_TRUE(listed_before(second, tenth));
  EXPECT_FALSE(listed_before(tenth, second));
  EXPECT_TRUE(listed_before(tenth, capture("0", "2031-05-02", "c1", "")));
}

}  // namespace
}  // namespace evet
