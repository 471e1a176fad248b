#include "tools/evet/commands.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <fstream>

#include "tests/tools/evet/try_evet.h"

namespace evet {
namespace {

using testing::HasSubstr;

TEST(Commands, EachHasALineAndAHelpWithAnExample) {
  const try_out::Answered list = try_out::evet({"--help"});
  EXPECT_EQ(list.exit, 0);
  for (const Command& command : commands()) {
    EXPECT_THAT(list.out, HasSubstr("  " + command.name + " "));
    const try_out::Answered help = try_out::evet({command.name, "--help"});
    EXPECT_EQ(help.exit, 0) << command.name;
    EXPECT_THAT(help.out, HasSubstr("evet " + command.name + " ")) << command.name;
    EXPECT_THAT(help.out, HasSubstr("--json")) << command.name;
    EXPECT_THAT(help.out, HasSubstr("Example:")) << command.name;
    EXPECT_EQ(help.err, "");
  }
}

TEST(Commands, OutputThatCannotBeWrittenIsAFailureOfTheDisk) {
  std::ofstream full("/dev/full");
  if (!full) GTEST_SKIP() << "no /dev/full here";
  std::ostringstream err;
  Console console{full, err, false, false, false, system_env()};
  const try_out::Pond pond(false);
  EXPECT_EQ(run_evet({"individuals", pond.path}, console), 4);
  EXPECT_THAT(err.str(), HasSubstr("standard output"));
}

TEST(Commands, AFolderThatMayNotBeWrittenToIsNamedAndCanBeRead) {
  const try_out::Pond pond(false);
  struct ReadOnly : try_out::SteadyEnv {  // root may write anywhere, so the machine is told otherwise
    bool is_writable(const std::filesystem::path&) override { return false; }
  } env;
  const auto answered = try_out::evet(
      {"intake", pond.path, try_out::first_sheet(), try_out::photos_folder(), "--by", "KM"}, env);
  EXPECT_EQ(answered.exit, 4);
  EXPECT_THAT(answered.err, HasSubstr("may not be written to"));
  std::filesystem::permissions(pond.path,
                               std::filesystem::perms::owner_read | std::filesystem::perms::owner_exec);
  EXPECT_EQ(try_out::evet({"individuals", pond.path}, env).exit, 0);
  std::filesystem::permissions(pond.path, std::filesystem::perms::owner_all);
}

TEST(Commands, ACatalogueOfANewerVersionIsLeftAlone) {
  const try_out::Pond pond(false);
  const std::filesystem::path file = std::filesystem::path(pond.path) / "catalogue.sqlite";
  std::string bytes = try_out::read(file);
  bytes[63] = 99;  // user_version, big-endian: the SQLite file format, section 1.3
  try_out::write(file, bytes);
  const auto answered = try_out::evet({"rank", pond.path});
  EXPECT_EQ(answered.exit, 3);
  EXPECT_THAT(answered.err, HasSubstr("newer"));
  EXPECT_EQ(try_out::read(file), bytes);
}

}  // namespace
}  // namespace evet
