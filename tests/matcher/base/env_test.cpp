#include "matcher/base/env.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

using testing_env::StillEnv;
using try_out::bytes;
using try_out::Folder;
namespace fs = std::filesystem;

ErrorKind kind_of(const std::function<void()>& work) {
  try {
    work();
  } catch (const Error& error) {
    return error.kind();
  }
  ADD_FAILURE() << "nothing was thrown";
  return ErrorKind::usage;
}

TEST(SystemEnv, WritesReadsAndLists) {
  const Folder folder;
  Env& env = system_env();
  env.make_folders(folder.path / "a" / "b");
  const fs::path file = folder.path / "a" / "ü \n name";
  env.write_file(file, bytes("twelve bytes"));
  EXPECT_EQ(env.read_file(file), bytes("twelve bytes"));
  EXPECT_EQ(env.read_start(file, 6), bytes("twelve"));
  EXPECT_EQ(env.read_start(file, 600).size(), 12u);
  env.write_file(file, bytes("short"));
  EXPECT_EQ(env.read_file(file), bytes("short"));
  EXPECT_EQ(env.list_folder(folder.path / "a"), (std::vector<std::string>{"b", "ü \n name"}));
  env.remove(file);
  env.remove(file);  // absent is no error
  EXPECT_FALSE(env.exists(file));
}

TEST(SystemEnv, TellsWhatIsWrongWithAPath) {
  const Folder folder;
  Env& env = system_env();
  EXPECT_EQ(kind_of([&] { env.read_file(folder.path / "none"); }), ErrorKind::not_found);
  EXPECT_EQ(kind_of([&] { env.read_file(folder.path); }), ErrorKind::bad_input);
  EXPECT_EQ(kind_of([&] { env.list_folder(folder.path / "none"); }), ErrorKind::not_found);
  EXPECT_EQ(kind_of([&] { env.write_file(folder.path, bytes("x")); }), ErrorKind::bad_input);
  env.write_file(folder.path / "file", bytes("x"));
  EXPECT_EQ(kind_of([&] { env.make_folders(folder.path / "file" / "sub"); }), ErrorKind::bad_input);
  EXPECT_EQ(kind_of([&] { env.list_folder(folder.path / "file"); }), ErrorKind::bad_input);
  EXPECT_EQ(kind_of([&] { env.read_file(folder.path / "file" / "sub"); }), ErrorKind::bad_input);
  EXPECT_EQ(kind_of([&] { env.write_file("/dev/full", bytes("x")); }), ErrorKind::storage);
}

TEST(SystemEnv, TellsAFileFromItsCopy) {
  const Folder folder;
  Env& env = system_env();
  const fs::path one = folder.path / "one", two = folder.path / "two";
  env.write_file(one, bytes("x"));
  const std::string identity = env.identity(one);
  fs::copy(one, two);
  EXPECT_NE(env.identity(two), identity);
  env.write_file(one, bytes("y"));
  EXPECT_EQ(env.identity(one), identity);
  env.rename(one, folder.path / "moved");
  EXPECT_EQ(env.identity(folder.path / "moved"), identity);
}

TEST(SystemEnv, DrawsDifferentNumbers) {
  Bytes a(32), b(32);
  system_env().fill_random(a);
  system_env().fill_random(b);
  EXPECT_NE(a, b);
}

// As in `evet report pond --out night.html`.
TEST(WriteDurably, ABareNameGoesIntoTheWorkingFolder) {
  const Folder folder;
  const fs::path before = fs::current_path();
  fs::current_path(folder.path);
  EXPECT_NO_THROW(write_file_durably(system_env(), "night.html", bytes("words")));
  fs::current_path(before);
  EXPECT_EQ(system_env().read_file(folder.path / "night.html"), bytes("words"));
  EXPECT_EQ(system_env().list_folder(folder.path).size(), 1U) << "no part left behind";
}

TEST(WriteDurably, ErrorsNameTheFileThatWasAskedFor) {
  const Folder folder;
  Env& env = system_env();
  env.make_folders(folder.path / "taken");
  env.write_file(folder.path / "file", bytes("x"));
  for (const auto& [path, named, kind] :
       {std::tuple(folder.path / "none" / "night.html", folder.path / "none", ErrorKind::not_found),
        {folder.path / "taken", folder.path / "taken", ErrorKind::bad_input},
        {folder.path / "file" / "night.html", folder.path / "file" / "night.html", ErrorKind::bad_input}})
    try {
      write_file_durably(env, path, bytes("words"));
      ADD_FAILURE() << path;
    } catch (const Error& error) {
      EXPECT_EQ(error.item(), named);
      EXPECT_EQ(error.kind(), kind) << path;
      EXPECT_EQ(std::string(error.what()).find(".part-"), std::string::npos) << error.what();
    }
  for (int n = 1; n <= 3; ++n) {  // writing, syncing, renaming; then comes the folder
    StillEnv failing;
    failing.fail_at = n;
    try {
      write_file_durably(failing, folder.path / "night.html", bytes("words"));
      ADD_FAILURE() << n;
    } catch (const Error& error) {
      EXPECT_EQ(error.item(), folder.path / "night.html") << n;
      EXPECT_EQ(std::string(error.what()).find(".part-"), std::string::npos) << error.what();
    }
  }
}

// Whatever fails, at whatever step: the file holds all of the new or all of the old, and no scrap is left.
TEST(WriteDurably, KeepsTheOldOrTheNewWhicheverStepFails) {
  for (const bool half : {false, true}) {
    int n = 1;
    for (;; ++n) {
      const Folder folder;
      const fs::path file = folder.path / "kept";
      system_env().write_file(file, bytes("the old words"));
      StillEnv env;
      env.fail_at = n, env.half_written = half;
      bool failed = false;
      try {
        write_file_durably(env, file, bytes("the new and longer words"));
      } catch (const Error&) {
        failed = true;
      }
      const Bytes now = system_env().read_file(file);
      if (!failed) {
        EXPECT_EQ(now, bytes("the new and longer words"));
        break;
      }
      EXPECT_TRUE(now == bytes("the old words") || now == bytes("the new and longer words"));
      EXPECT_EQ(system_env().list_folder(folder.path), std::vector<std::string>{"kept"}) << "step " << n;
    }
    EXPECT_GE(n, 4);  // write, sync, rename, sync of the folder
  }
}

TEST(SystemEnv, TellsWhatLiesAtAPath) {
  const Folder folder;
  Env& env = system_env();
  env.write_file(folder.path / "file", bytes("five5"));
  fs::create_symlink(folder.path / "file", folder.path / "link");
  ASSERT_EQ(::mkfifo((folder.path / "pipe").c_str(), 0600), 0);
  EXPECT_EQ(env.facts(folder.path / "none").kind, FileKind::none);
  EXPECT_EQ(env.facts(folder.path).kind, FileKind::folder);
  EXPECT_EQ(env.facts(folder.path / "link").kind, FileKind::link);
  EXPECT_EQ(env.facts(folder.path / "pipe").kind, FileKind::other);
  EXPECT_EQ(env.facts(folder.path / "file").kind, FileKind::file);
  EXPECT_EQ(env.facts(folder.path / "file").bytes, 5u);
  EXPECT_EQ(kind_of([&] { env.read_file(folder.path / "pipe"); }), ErrorKind::bad_input);
}

TEST(SystemEnv, GivesANameOnlyWhereThereIsNone) {
  const Folder folder;
  Env& env = system_env();
  env.write_file(folder.path / "one", bytes("one"));
  env.write_file(folder.path / "two", bytes("two"));
  EXPECT_EQ(kind_of([&] { env.rename_new(folder.path / "one", folder.path / "two"); }), ErrorKind::conflict);
  EXPECT_EQ(env.read_file(folder.path / "two"), bytes("two"));
  env.rename_new(folder.path / "one", folder.path / "three");
  EXPECT_EQ(env.list_folder(folder.path), (std::vector<std::string>{"three", "two"}));
}

TEST(WriteFileDurably, NeverTakesThePlaceOfADevice) {
  EXPECT_EQ(kind_of([&] { write_file_durably(system_env(), "/dev/full", bytes("x")); }), ErrorKind::storage);
  EXPECT_EQ(system_env().facts("/dev/full").kind, FileKind::other);
  write_file_durably(system_env(), "/dev/null", bytes("x"));
  EXPECT_EQ(system_env().facts("/dev/null").kind, FileKind::other);
}

TEST(WriteFileDurably, KeepsALinkAndWritesWhatItLeadsTo) {
  const Folder folder;
  system_env().write_file(folder.path / "report", bytes("old"));
  fs::create_symlink("report", folder.path / "link");
  fs::create_symlink("fresh", folder.path / "to-nothing-yet");
  write_file_durably(system_env(), folder.path / "link", bytes("new"));
  write_file_durably(system_env(), folder.path / "to-nothing-yet", bytes("newer"));
  EXPECT_TRUE(fs::is_symlink(folder.path / "link"));
  EXPECT_EQ(system_env().read_file(folder.path / "report"), bytes("new"));
  EXPECT_EQ(system_env().read_file(folder.path / "fresh"), bytes("newer"));
}

TEST(WriteFileDurably, TakesAwayThePartsOfAttemptsThatWereKilled) {
  const Folder folder;
  for (const char* left : {"report.part-abcdefghijkl", "report.part-short", "other.part-abcdefghijkl"})
    system_env().write_file(folder.path / left, bytes("half"));
  write_file_durably(system_env(), folder.path / "report", bytes("whole"));
  EXPECT_EQ(system_env().list_folder(folder.path),
            (std::vector<std::string>{"other.part-abcdefghijkl", "report", "report.part-short"}));
}

}  // namespace
}  // namespace evet
