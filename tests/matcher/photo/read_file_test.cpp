#include "matcher/photo/read_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fstream>

#include "matcher/base/error.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

class ReadFile : public testing::Test {
 protected:
  fs::path folder;
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "evet_read_XXXXXX").string();
    ASSERT_NE(mkdtemp(name.data()), nullptr);
    folder = name;
  }
  void TearDown() override { fs::remove_all(folder); }
  fs::path write(const std::string& name, std::size_t bytes) const {
    std::ofstream(folder / name, std::ios::binary) << std::string(bytes, 'x');
    return folder / name;
  }
  static Error error_of(const fs::path& path, const std::string& item = "IMG_7.jpg",
                        std::size_t most = 1000) {
    try {
      read_file(path, item, most);
    } catch (const Error& error) {
      return error;
    }
    ADD_FAILURE() << "read without an error";
    return Error(ErrorKind::usage, "", "none");
  }
};

TEST_F(ReadFile, GivesEveryByte) {
  const auto bytes = read_file(write("a.jpg", 123'457), "a.jpg");
  EXPECT_EQ(bytes.size(), 123'457U);
  EXPECT_EQ(std::to_integer<char>(bytes.back()), 'x');
}

TEST_F(ReadFile, TakesExactlyTheLimitAndNotOneByteMore) {
  EXPECT_EQ(read_file(write("a", 1000), "a", 1000).size(), 1000U);
  const Error error = error_of(write("b", 1001));
  EXPECT_EQ(error.kind(), ErrorKind::too_large);
  EXPECT_THAT(error.what(), HasSubstr("IMG_7.jpg: the file is larger than"));
}

TEST_F(ReadFile, MissingFolderEmptyAndPipe) {
  EXPECT_EQ(error_of(folder / "none.jpg").kind(), ErrorKind::not_found);
  EXPECT_THAT(error_of(folder / "none.jpg").what(), HasSubstr("there is no such file"));
  EXPECT_EQ(error_of(write("file", 3) / "below.jpg").kind(), ErrorKind::not_found);
  fs::create_directory(folder / "dir.jpg");
  EXPECT_EQ(error_of(folder / "dir.jpg").kind(), ErrorKind::bad_input);
  EXPECT_THAT(error_of(folder / "dir.jpg").what(), HasSubstr("this is a folder"));
  EXPECT_THAT(error_of(write("empty.jpg", 0)).what(), HasSubstr("the file is empty (0 bytes)"));
  ASSERT_EQ(mkfifo((folder / "pipe.jpg").c_str(), 0600), 0);
  EXPECT_THAT(error_of(folder / "pipe.jpg").what(), HasSubstr("not an ordinary file"));
  EXPECT_THAT(error_of("/dev/zero").what(), HasSubstr("not an ordinary file"));
}

TEST_F(ReadFile, PathsThatNoSystemTakes) {
  EXPECT_EQ(error_of(folder / std::string(300, 'n')).kind(), ErrorKind::bad_input);
  EXPECT_EQ(error_of(fs::path(std::string("a\0b", 3))).kind(), ErrorKind::not_found);
  fs::create_symlink("loop", folder / "loop");
  EXPECT_EQ(error_of(folder / "loop").kind(), ErrorKind::bad_input);
}

TEST_F(ReadFile, AFileThatMayNotBeRead) {
  const fs::path path = write("locked.jpg", 3);
  fs::permissions(path, fs::perms::none);
  const bool superuser = geteuid() == 0;  // who may read everything: step down for a moment
  if (superuser) {
    fs::permissions(folder, fs::perms::others_exec, fs::perm_options::add);
    ASSERT_EQ(seteuid(65534), 0);
  }
  const Error error = error_of(path);
  ASSERT_EQ(superuser ? seteuid(0) : 0, 0);
  EXPECT_EQ(error.kind(), ErrorKind::bad_input);
  EXPECT_THAT(error.what(), HasSubstr("may not read"));
}

TEST_F(ReadFile, NamesWithLineEndsAndUmlauts) {
  const std::string name = "Mölch\nnight.jpg";
  EXPECT_EQ(read_file(write(name, 3), name).size(), 3U);
  EXPECT_THAT(error_of(folder / "x", name).what(), HasSubstr("Mölch\\nnight.jpg: there is no such file"));
}

}  // namespace
}  // namespace evet
