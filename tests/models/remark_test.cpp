#include "models/base/remark.h"

#include <gtest/gtest.h>

namespace evet::models {
namespace {

constexpr auto kFew = MessageText("few", "fewer than {most} were caught");
constexpr auto kEnd = MessageText("end", "That is all.");

TEST(Remark, SaysNothingUntilItIsGivenAMessage) {
  Remark remark;
  EXPECT_TRUE(remark.empty());
  EXPECT_EQ(remark.words(), "");
  EXPECT_EQ(remark, Remark());
  remark = Message(kFew, {{"most", "five"}});
  EXPECT_FALSE(remark.empty());
  EXPECT_EQ(remark.code(), "few");
  EXPECT_EQ(remark.words(), "fewer than five were caught");
  EXPECT_FALSE(remark == Remark(Message(kFew, {{"most", "ten"}}))) << "the arguments count";
}

TEST(Sentences, AreSaidOnceAndOneAfterAnother) {
  Sentences list;
  for (const char* most : {"five", "ten", "five"}) add_once(list, {kFew, {{"most", most}}});
  list.push_back(kEnd);
  EXPECT_EQ(words(list), "fewer than five were caught fewer than ten were caught That is all.");
  EXPECT_EQ(each_in_words(list).size(), 3u);
}

TEST(Sentences, NamesAreListedWithAWordBeforeTheLast) {
  EXPECT_EQ(listed({}), "");
  EXPECT_EQ(listed({"sex"}), "sex");
  EXPECT_EQ(listed({"sex", "age"}), "sex and age");
  EXPECT_EQ(listed({"sex", "age", "site"}), "sex, age and site");
}

}  // namespace
}  // namespace evet::models
