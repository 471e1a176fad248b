#include "matcher/base/can_write.h"

#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

using try_out::bytes;
using try_out::Folder;
namespace fs = std::filesystem;

struct ReadOnly : testing_env::StillEnv {
  bool is_writable(const fs::path&) override { return false; }
};

struct Place : testing::Test {
  Folder folder;
  testing_env::StillEnv env;
  void SetUp() override {
    system_env().make_folders(folder.path / "made");
    system_env().write_file(folder.path / "file", bytes("x"));
  }
  // What stands in the way, or nothing.
  template <class Check>
  static std::optional<ErrorKind> in_the_way(const Check& check) {
    try {
      check();
    } catch (const Error& error) {
      return error.kind();
    }
    return std::nullopt;
  }
  std::optional<ErrorKind> of_file(const fs::path& path) {
    return in_the_way([&] { check_can_write_file(env, path); });
  }
  std::optional<ErrorKind> of_folder(const fs::path& path) {
    return in_the_way([&] { check_can_make_folder(env, path); });
  }
};

TEST_F(Place, OfAFileIsAFolderThatIsThere) {
  EXPECT_EQ(of_file("night.html"), std::nullopt);
  EXPECT_EQ(of_file(folder.path / "night.html"), std::nullopt);
  EXPECT_EQ(of_file(folder.path / "file"), std::nullopt) << "it is replaced";
  EXPECT_EQ(of_file(folder.path / "none" / "night.html"), ErrorKind::not_found);
  EXPECT_EQ(of_file(folder.path / "made"), ErrorKind::bad_input);
  EXPECT_EQ(of_file(folder.path / "file" / "night.html"), ErrorKind::bad_input);
}

TEST_F(Place, OfAFolderIsWhateverCanBeMade) {
  EXPECT_EQ(of_folder("plots"), std::nullopt);
  EXPECT_EQ(of_folder(folder.path / "made"), std::nullopt);
  EXPECT_EQ(of_folder(folder.path / "made" / ""), std::nullopt);
  EXPECT_EQ(of_folder(folder.path / "none" / "at" / "all"), std::nullopt);
  EXPECT_EQ(of_folder(folder.path / "file"), ErrorKind::bad_input);
  EXPECT_EQ(of_folder(folder.path / "file" / "plots"), ErrorKind::bad_input);
}

TEST_F(Place, ThatMayNotBeWrittenToIsTold) {
  ReadOnly disk;
  EXPECT_EQ(in_the_way([&] { check_can_write_file(disk, folder.path / "night.html"); }), ErrorKind::storage);
  EXPECT_EQ(in_the_way([&] { check_can_make_folder(disk, folder.path / "made" / "plots"); }),
            ErrorKind::storage);
}

// The oracle: what is let through can be written, and what is refused would have been refused then, alike.
TEST_F(Place, IsJudgedAsWritingThereWouldBe) {
  for (const char* path : {"night.html", "file", "none/night.html", "made", "file/night.html", "made/x"}) {
    const fs::path file = folder.path / path;
    EXPECT_EQ(of_file(file), in_the_way([&] { write_file_durably(env, file, bytes("x")); })) << path;
  }
  for (const char* path : {"new", "made/new", "file", "file/new", "a/b/c"}) {
    const fs::path made = folder.path / path;
    EXPECT_EQ(of_folder(made), in_the_way([&] { system_env().make_folders(made); })) << path;
  }
}

}  // namespace
}  // namespace evet
