#include "tools/intake/draft_folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "tests/tools/evet/try_evet.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using namespace try_out;
using testing::ElementsAre;
using testing::HasSubstr;

Bytes sample(const std::string& name) {
  return system_env().read_file(night_folder() / "photos" / name);
}
Arrival add(DraftFolder& folder, const std::string& sample_name, const std::string& as) {
  const Bytes bytes = sample(sample_name);
  return folder.add(bytes, as, look_at_photo(bytes, as));
}
std::vector<std::string> files_in(const fs::path& folder) {
  return fs::exists(folder) ? system_env().list_folder(folder) : std::vector<std::string>();
}
std::string thrown(const std::function<void()>& act) {
  try {
    act();
  } catch (const Error& error) {
    return error.what();
  }
  return "nothing was thrown";
}

TEST(DraftFolder, APhotoThatWasAcknowledgedIsThereAfterARestart) {
  const Pond pond(false);
  {
    DraftFolder folder(pond.path, system_env());
    EXPECT_EQ(add(folder, "A0000-0.jpg", "card/IMG 1.JPG").name, "IMG 1.JPG");
    EXPECT_EQ(add(folder, "A0001-0.jpg", "other/IMG 1.JPG").name, "IMG 1 (2).JPG");
    folder.change([](Draft& draft) { write_cell(draft, "", "site", "Alder Fen"); });
  }
  const DraftFolder folder(pond.path, system_env());
  ASSERT_EQ(folder.draft().photos.size(), 2u);
  EXPECT_EQ(folder.draft().common.at("site"), "Alder Fen");
  EXPECT_EQ(folder.read(folder.draft().photos[0]), sample("A0000-0.jpg"));
  EXPECT_THAT(folder.warnings(), testing::IsEmpty());
  EXPECT_EQ(Catalogue::open(pond.path, system_env()).ledger().size(), 1u) << "the catalogue knows of nothing";
}

TEST(DraftFolder, ThePhotoThatComesTwiceIsThereOnce) {
  const Pond pond(false);
  DraftFolder folder(pond.path, system_env());
  add(folder, "A0000-0.jpg", "IMG 1.JPG");
  const Arrival again = add(folder, "A0000-0.jpg", "copy of it.jpg");
  EXPECT_TRUE(again.again);
  EXPECT_EQ(again.name, "IMG 1.JPG");
  EXPECT_THAT(files_in(folder.photos()), ElementsAre("IMG 1.JPG"));
}

TEST(DraftFolder, WhatIsNoPictureIsRefusedByName) {
  const Bytes text = bytes("this is not a picture");
  EXPECT_THAT(thrown([&] { look_at_photo(text, "notes.jpg"); }), HasSubstr("notes.jpg"));
  Bytes cut = sample("A0000-0.jpg");
  cut.resize(cut.size() / 2);
  EXPECT_THAT(thrown([&] { look_at_photo(cut, "cut.jpg"); }), HasSubstr("cut.jpg"));
  EXPECT_THAT(thrown([&] { look_at_photo({}, "empty.jpg"); }), HasSubstr("empty.jpg"));
}

TEST(DraftFolder, AFullDiskLeavesTheDraftAsItWas) {
  // Each write fails in turn, until none is left to fail.
  for (int n = 0;; ++n) {
    ASSERT_LT(n, 20);
    const Pond pond(false);
    SteadyEnv env;
    DraftFolder folder(pond.path, env);
    add(folder, "A0000-0.jpg", "first.jpg");
    env.writes_until_failure = n;
    bool failed = false;
    try {
      add(folder, "A0001-0.jpg", "second.jpg");
    } catch (const Error& error) {
      failed = true;
      EXPECT_EQ(error.kind(), ErrorKind::storage);
    }
    env.writes_until_failure = -1;
    const std::size_t photos = failed ? 1 : 2;
    EXPECT_EQ(folder.draft().photos.size(), photos);
    EXPECT_EQ(DraftFolder(pond.path, env).draft().photos.size(), photos);
    EXPECT_EQ(add(folder, "A0001-0.jpg", "second.jpg").again, !failed) << "sent again, it is taken";
    EXPECT_EQ(folder.draft().photos.size(), 2u);
    if (!failed) {
      EXPECT_GT(n, 1) << "the photo and the draft are two writes";
      break;
    }
  }
}

TEST(DraftFolder, APhotoThatCameBeforeAKillIsFoundAgain) {
  const Pond pond(false);
  DraftFolder(pond.path, system_env()).change([](Draft& draft) { set_gap(draft, 20); });
  const fs::path photos = fs::path(pond.path) / "incoming" / "photos";
  fs::copy_file(night_folder() / "photos" / "A0000-0.jpg", photos / "IMG 1.jpg");
  write(photos / "half.jpg", "\xff\xd8\xff and no more");
  const DraftFolder folder(pond.path, system_env());
  ASSERT_EQ(folder.draft().photos.size(), 1u);
  EXPECT_EQ(folder.draft().photos[0].name, "IMG 1.jpg");
  EXPECT_EQ(folder.draft().gap_seconds, 20);
}

TEST(DraftFolder, ADraftThatCannotBeReadIsSetAsideAndThePhotosStay) {
  const Pond pond(false);
  {
    DraftFolder folder(pond.path, system_env());
    add(folder, "A0000-0.jpg", "IMG 1.JPG");
  }
  write(fs::path(pond.path) / "incoming" / "evening.json", "{ half a dra");
  const DraftFolder folder(pond.path, system_env());
  EXPECT_EQ(folder.draft().photos.size(), 1u);
  ASSERT_EQ(folder.warnings().size(), 1u);
  EXPECT_THAT(folder.warnings()[0], HasSubstr("set-aside"));
  bool kept = false;
  for (const std::string& name : files_in(fs::path(pond.path) / "incoming"))
    kept = kept || name.starts_with("evening.json.set-aside");
  EXPECT_TRUE(kept);
}

TEST(DraftFolder, APhotoThatSomebodyTookAwayIsNamed) {
  const Pond pond(false);
  {
    DraftFolder folder(pond.path, system_env());
    add(folder, "A0000-0.jpg", "IMG 1.JPG");
    add(folder, "A0001-0.jpg", "IMG 2.JPG");
  }
  fs::remove(fs::path(pond.path) / "incoming" / "photos" / "IMG 1.JPG");
  const DraftFolder folder(pond.path, system_env());
  EXPECT_EQ(folder.draft().photos.size(), 1u);
  ASSERT_EQ(folder.warnings().size(), 1u);
  EXPECT_THAT(folder.warnings()[0], HasSubstr("IMG 1.JPG"));
}

TEST(DraftFolder, NoLinkIsFollowedOutOfTheCatalogue) {
  const Pond pond(false);
  const fs::path elsewhere = pond.folder.path / "elsewhere";
  fs::create_directories(elsewhere);
  fs::create_directory_symlink(elsewhere, fs::path(pond.path) / "incoming");
  EXPECT_THROW(DraftFolder(pond.path, system_env()), Error);
  fs::remove(fs::path(pond.path) / "incoming");
  {
    DraftFolder folder(pond.path, system_env());
    add(folder, "A0000-0.jpg", "IMG 1.JPG");
  }
  const fs::path photo = fs::path(pond.path) / "incoming" / "photos" / "IMG 1.JPG";
  fs::remove(photo);
  fs::create_symlink(night_folder() / "photos" / "A0000-0.jpg", photo);
  EXPECT_TRUE(DraftFolder(pond.path, system_env()).draft().photos.empty());
}

TEST(DraftFolder, OnlyWhatWasLeftOutCanBeTakenAwayForGood) {
  const Pond pond(false);
  DraftFolder folder(pond.path, system_env());
  add(folder, "A0000-0.jpg", "IMG 1.JPG");
  EXPECT_THROW(folder.remove({"IMG 1.JPG"}), Error);
  folder.change([](Draft& draft) { leave_out(draft, {"IMG 1.JPG"}, true); });
  folder.remove({"IMG 1.JPG"});
  EXPECT_THAT(files_in(folder.photos()), testing::IsEmpty());
  EXPECT_TRUE(folder.draft().photos.empty());
}

}  // namespace
}  // namespace evet
