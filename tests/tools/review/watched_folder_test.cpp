// Photos that another program puts into a folder: taken once they are whole, and never lost on the way.
#include "tools/review/watched_folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "matcher/base/error.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet::review {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

struct Drop : testing::Test {
  try_out::Folder folder;
  fs::path drop = folder.path / "drop";
  std::vector<std::string> taken;
  std::function<void(const std::string&)> refuse = [](const std::string&) {};
  WatchedFolder watched{drop, system_env(),
                        [this](BytesView bytes, const std::string& name) {
                          refuse(name);
                          taken.push_back(name + ":" + std::to_string(bytes.size()));
                        },
                        std::chrono::milliseconds(0)};

  void put(const std::string& name, const std::string& text) const {
    std::ofstream(drop / name, std::ios::binary) << text;
  }
};

TEST_F(Drop, IsNotThereUntilItIsMade) {
  EXPECT_FALSE(watched.there());
  watched.look();
  EXPECT_THAT(taken, IsEmpty());
  fs::create_directory(drop);
  EXPECT_TRUE(watched.there());
}

TEST_F(Drop, APhotoIsTakenWhenItGrowsNoMore) {
  fs::create_directory(drop);
  put("a.jpg", "half");
  watched.look();
  put("a.jpg", "half and the rest");
  watched.look();
  EXPECT_THAT(taken, IsEmpty()) << "it may still be copied";
  watched.look();
  EXPECT_THAT(taken, ElementsAre("a.jpg:17"));
  EXPECT_TRUE(fs::is_empty(drop));
}

TEST_F(Drop, WhatIsNoPhotoStaysWhereItIs) {
  fs::create_directories(drop / "folder.jpg");
  put("notes.txt", "a"), put(".hidden.jpg", "a");
  std::ofstream(folder.path / "elsewhere.jpg") << "of somebody else";
  fs::create_symlink(folder.path / "elsewhere.jpg", drop / "link.jpg");
  for (int i = 0; i < 3; ++i) watched.look();
  EXPECT_THAT(taken, IsEmpty());
  EXPECT_TRUE(fs::exists(folder.path / "elsewhere.jpg"));
}

// It works in a thread of its own, where what nobody catches ends the program.
TEST_F(Drop, APhotoOnWhichTheProgramFailsIsRefused) {
  fs::create_directory(drop);
  put("bad.jpg", "bad"), put("good.jpg", "good");
  refuse = [](const std::string& name) {
    if (name == "bad.jpg") throw std::runtime_error("a fault of our own");
  };
  watched.look();
  watched.look();
  EXPECT_THAT(taken, ElementsAre("good.jpg:4"));
  EXPECT_THAT(watched.refused(), ElementsAre(HasSubstr("the program could not look at it")));
  EXPECT_TRUE(fs::exists(drop / "bad.jpg"));
}

TEST_F(Drop, ARefusedPhotoIsToldOnceAndTriedAgainWhenItHasChanged) {
  fs::create_directory(drop);
  put("bad.jpg", "bad"), put("good.jpg", "good");
  int asked = 0;
  refuse = [&](const std::string& name) {
    if (name != "bad.jpg") return;
    ++asked;
    throw Error(ErrorKind::bad_input, "photo 'bad.jpg'", "it is no picture", "copy it again");
  };
  for (int i = 0; i < 4; ++i) watched.look();
  EXPECT_EQ(asked, 1);
  EXPECT_THAT(taken, ElementsAre("good.jpg:4")) << "one bad file stops no other";
  EXPECT_THAT(watched.refused(), ElementsAre(HasSubstr("bad.jpg")));
  EXPECT_TRUE(fs::exists(drop / "bad.jpg"));
  refuse = [](const std::string&) {};
  put("bad.jpg", "whole now");
  watched.look(), watched.look();
  EXPECT_THAT(watched.refused(), IsEmpty());
  EXPECT_THAT(taken, ElementsAre("good.jpg:4", "bad.jpg:9"));
}

TEST_F(Drop, WhileTheDiskIsFullOrTheNightIsTakenInPhotosWait) {
  fs::create_directory(drop);
  put("a.jpg", "a");
  ErrorKind kind = ErrorKind::storage;
  bool failing = true;
  refuse = [&](const std::string&) {
    if (failing) throw Error(kind, "the evening", "not now");
  };
  watched.look(), watched.look();
  kind = ErrorKind::conflict;
  watched.look();
  EXPECT_TRUE(fs::exists(drop / "a.jpg"));
  EXPECT_THAT(watched.refused(), IsEmpty());
  failing = false;
  watched.look();
  EXPECT_THAT(taken, ElementsAre("a.jpg:1"));
}

TEST_F(Drop, AFileThatIsTakenAwayIsForgotten) {
  fs::create_directory(drop);
  put("bad.jpg", "bad");
  refuse = [](const std::string&) { throw Error(ErrorKind::bad_input, "photo", "no picture"); };
  watched.look(), watched.look();
  ASSERT_EQ(watched.refused().size(), 1u);
  fs::remove(drop / "bad.jpg");
  watched.look();
  EXPECT_THAT(watched.refused(), IsEmpty());
}

}  // namespace
}  // namespace evet::review
