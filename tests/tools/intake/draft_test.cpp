#include "tools/intake/draft.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "matcher/base/error.h"

namespace evet {
namespace {

using Names = std::vector<std::string>;

DraftPhoto photo(const std::string& name, const std::string& clock) {
  static int made = 0;
  std::string id(64, '0');
  const std::string number = std::to_string(++made);
  id.replace(64 - number.size(), number.size(), number);
  return {.name = name,
          .from = name,
          .id = PhotoId(id),
          .bytes = 7,
          .taken_at = clock.empty() ? "" : "2024-05-14T22:" + clock,
          .notes = {}};
}

std::vector<Names> groups(const Draft& draft) {
  std::vector<Names> out;
  for (const DraftCapture& capture : draft.captures) out.push_back(capture.photos);
  return out;
}

Draft three_animals() {
  Draft draft;
  for (const auto& [name, clock] : std::vector<std::pair<std::string, std::string>>{
           {"a1", "10:00"}, {"a2", "10:05"}, {"b1", "12:00"}, {"c1", "14:00"}, {"c2", "14:10"}})
    add_photo(draft, photo(name, clock));
  return draft;
}

TEST(Draft, GathersPhotosByTimeInWhateverOrderTheyCome) {
  const std::vector<Names> wanted{{"a1", "a2"}, {"b1"}, {"c1", "c2"}};
  EXPECT_EQ(groups(three_animals()), wanted);
  std::vector<DraftPhoto> photos = three_animals().photos;
  std::mt19937 random(7);
  for (int i = 0; i < 20; ++i) {
    std::shuffle(photos.begin(), photos.end(), random);
    Draft draft;
    for (const DraftPhoto& one : photos) add_photo(draft, one);
    EXPECT_EQ(groups(draft), wanted);
  }
}

TEST(Draft, WhatAPersonDraggedStaysWhereItIs) {
  Draft draft = three_animals();
  move_photos(draft, {"a2"}, draft.captures[1].key);
  EXPECT_EQ(groups(draft), (std::vector<Names>{{"a1"}, {"a2", "b1"}, {"c1", "c2"}}));
  move_photos(draft, {"b1"}, "");
  EXPECT_EQ(groups(draft), (std::vector<Names>{{"a1"}, {"a2"}, {"b1"}, {"c1", "c2"}}));
  set_gap(draft, 600);
  EXPECT_EQ(groups(draft), (std::vector<Names>{{"a1"}, {"a2"}, {"b1", "c1", "c2"}}))
      << "the captures of a person stay, what is near one joins it";
  add_photo(draft, photo("late", "10:06"));
  EXPECT_EQ(groups(draft)[1], (Names{"a2", "late"}));
}

TEST(Draft, APhotoThatComesLateJoinsTheCaptureThatWasWrittenOn) {
  Draft draft = three_animals();
  const std::string key = draft.captures[2].key;
  write_cell(draft, key, "sex", "female");
  add_photo(draft, photo("c3", "14:20"));
  EXPECT_EQ(draft.capture(key)->photos, (Names{"c1", "c2", "c3"}));
  EXPECT_EQ(draft.capture(key)->cells.at("sex"), "female");
  write_cell(draft, key, "sex", "");
  EXPECT_TRUE(draft.capture(key)->cells.empty());
}

TEST(Draft, LeftOutIsKeptAndComesBack) {
  Draft draft = three_animals();
  leave_out(draft, {"b1"}, true);
  EXPECT_EQ(groups(draft), (std::vector<Names>{{"a1", "a2"}, {"c1", "c2"}}));
  EXPECT_EQ(draft.photos.size(), 5u);
  leave_out(draft, {"b1"}, false);
  EXPECT_EQ(groups(draft), groups(three_animals()));
  move_photos(draft, {"c1"}, "");
  leave_out(draft, {"c1"}, true);
  EXPECT_EQ(draft.captures.size(), 3u) << "a capture without a photo is none";
}

TEST(Draft, RefusesWhatCannotBeAndStaysAsItWas) {
  Draft draft = three_animals();
  const nlohmann::json before = draft;
  EXPECT_THROW(move_photos(draft, {"a1", "nobody"}, ""), Error);
  EXPECT_THROW(move_photos(draft, {"a1"}, "k99"), Error);
  EXPECT_THROW(write_cell(draft, "", "colour", "red"), Error);
  EXPECT_THROW(write_cell(draft, "", "photo", "x.jpg"), Error);
  EXPECT_THROW(write_cell(draft, "", "site", "two\nlines"), Error);
  EXPECT_THROW(write_cell(draft, "", "site", std::string(kLongestCell + 1, 'x')), Error);
  EXPECT_THROW(write_cell(draft, "k99", "sex", "male"), Error);
  EXPECT_THROW(set_gap(draft, 0), Error);
  EXPECT_THROW(add_photo(draft, draft.photos[0]), Error);
  EXPECT_THROW(set_nothing_caught(draft, true), Error);
  EXPECT_EQ(nlohmann::json(draft), before);
}

TEST(Draft, ANightWithoutACatchIsOneRowUntilAPhotoComes) {
  Draft draft;
  set_nothing_caught(draft, true);
  set_nothing_caught(draft, true);
  ASSERT_EQ(draft.captures.size(), 1u);
  EXPECT_TRUE(draft.captures[0].nothing_caught);
  add_photo(draft, photo("a1", "10:00"));
  EXPECT_EQ(groups(draft), (std::vector<Names>{{"a1"}}));
}

TEST(Draft, ComesBackFromItsTextAsItWas) {
  Draft draft = three_animals();
  write_cell(draft, "", "site", "Alder Fen");
  write_cell(draft, draft.captures[0].key, "notes", "a \"quoted\" word, and Ü");
  move_photos(draft, {"c2"}, "");
  leave_out(draft, {"b1"}, true);
  draft.photos[0].judged = true, draft.photos[0].notes = {{"glare_share", "tilt the tray", false}};
  const nlohmann::json text = draft;
  EXPECT_EQ(nlohmann::json(draft_from(nlohmann::json::parse(text.dump()))), text);
}

TEST(Draft, AHostileTextIsRefused) {
  const nlohmann::json good = three_animals();
  EXPECT_NO_THROW(draft_from(good));
  const auto refused = [&](const std::string& at, const nlohmann::json& value) {
    nlohmann::json bad = good;
    bad[nlohmann::json::json_pointer(at)] = value;
    EXPECT_THROW(draft_from(bad), Error) << at;
  };
  refused("/version", 2);
  refused("/photos/0/name", "../../etc/passwd");
  refused("/photos/0/name", "/etc/passwd");
  refused("/photos/0/name", "a2");
  refused("/photos/0/id", "../../etc");
  refused("/photos/0/bytes", -1);
  refused("/photos", "none");
  refused("/captures/0/photos/0", "nobody");
  refused("/captures/1/photos/0", "a1");
  refused("/captures/0/cells", {{"colour", "red"}});
  refused("/common", {{"site", 7}});
  refused("/gap_seconds", 0);
  EXPECT_THROW(draft_from(nlohmann::json::array()), Error);
  EXPECT_THROW(draft_from(nullptr), Error);
}

TEST(Draft, NamesFromOutsideAreMadeSafe) {
  EXPECT_EQ(safe_photo_name("DCIM/100/IMG 1.JPG"), "IMG 1.JPG");
  EXPECT_EQ(safe_photo_name("C:\\card\\IMG 1.JPG"), "IMG 1.JPG");
  EXPECT_EQ(safe_photo_name("../../.profile"), "profile");
  EXPECT_EQ(safe_photo_name("Über Ei.heic"), "Über Ei.heic");
  EXPECT_EQ(safe_photo_name(std::string("a\nb\0c.jpg", 9)), "a_b_c.jpg");
  EXPECT_EQ(safe_photo_name("gpj.\xE2\x80\xAEtxt.jpg"), "gpj._txt.jpg");
  EXPECT_EQ(safe_photo_name("\xff\xfe.jpg"), "__.jpg");
  const std::string longest = safe_photo_name(std::string(300, 'x') + "é.jpg");
  EXPECT_LE(longest.size(), 100u);
  EXPECT_TRUE(longest.ends_with("é.jpg"));
  for (const char* none : {"", "...", "/", "a/", "none", "NONE", "  "})
    EXPECT_THROW(safe_photo_name(none), Error) << none;
}

TEST(Draft, ANameThatIsTakenGetsANumber) {
  Draft draft;
  add_photo(draft, photo("IMG 1.jpg", ""));
  EXPECT_EQ(free_name(draft, "IMG 2.jpg"), "IMG 2.jpg");
  EXPECT_EQ(free_name(draft, "img 1.JPG"), "img 1 (2).JPG");
  add_photo(draft, photo("IMG 1 (2).jpg", ""));
  EXPECT_EQ(free_name(draft, "IMG 1.jpg"), "IMG 1 (3).jpg");
}

TEST(Draft, HoldsNoMorePhotosThanItsBound) {
  Draft draft;
  for (std::size_t i = 0; i < kMostDraftPhotos; ++i)
    draft.photos.push_back(photo("p" + std::to_string(i), ""));
  EXPECT_THROW(add_photo(draft, photo("one more", "")), Error);
}

}  // namespace
}  // namespace evet
