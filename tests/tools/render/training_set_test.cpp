#include "tools/render/training_set.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

#include "tests/tools/render/set_files.h"
#include "tools/render/commands.h"

namespace evet::render {
namespace {

class TrainingSet : public testing::Test {
 protected:
  TrainingSet() { options_.samples = 6, options_.captures_per_individual = 2, options_.long_side_px = 256; }
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("evet_training_" + std::to_string(::getpid()));
    std::filesystem::remove_all(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  std::filesystem::path folder_;
  TrainingOptions options_;
};

TEST_F(TrainingSet, IsTheSameOnAnyNumberOfThreads) {
  EXPECT_EQ(write_training_set(folder_ / "one", options_), 6);
  options_.threads = 3;
  EXPECT_EQ(write_training_set(folder_ / "three", options_), 6);
  for (const char* name : {"input.bin", "shares.bin", "uv.bin", "facts.bin", "done.bin", "meta.json"})
    EXPECT_EQ(bytes_of(folder_ / "one" / name), bytes_of(folder_ / "three" / name)) << name;
  EXPECT_EQ(std::filesystem::file_size(folder_ / "one" / "input.bin"), 6U * 256 * 256 * 3);
  EXPECT_EQ(std::filesystem::file_size(folder_ / "one" / "uv.bin"), 6U * 128 * 128 * 2 * 2);
}

TEST_F(TrainingSet, GoesOnWhereItStopped) {
  write_training_set(folder_, options_);
  const std::string whole = bytes_of(folder_ / "input.bin");
  {
    // As if it had been stopped while the second individual was being written.
    std::fstream done(folder_ / "done.bin", std::ios::in | std::ios::out | std::ios::binary);
    done.seekp(1);
    done.put(0);
    std::fstream input(folder_ / "input.bin", std::ios::in | std::ios::out | std::ios::binary);
    input.seekp(2 * 256 * 256 * 3 + 5);
    input.write("torn", 4);
  }
  EXPECT_EQ(write_training_set(folder_, options_), 2);
  EXPECT_EQ(bytes_of(folder_ / "input.bin"), whole);
  EXPECT_EQ(write_training_set(folder_, options_), 0);
}

TEST_F(TrainingSet, RefusesOtherOptionsInTheSameFolder) {
  write_training_set(folder_, options_);
  options_.world_seed = 2;
  EXPECT_THROW(write_training_set(folder_, options_), std::invalid_argument);
  options_.samples = 0;
  EXPECT_THROW(write_training_set(folder_ / "other", options_), std::invalid_argument);
}

TEST_F(TrainingSet, RefusesForeignConditionsBeforeItWritesAnything) {
  options_.conditions.foreign = true;
  try {
    write_training_set(folder_, options_);
    FAIL() << "a training set with foreign conditions";
  } catch (const std::invalid_argument& error) {
    EXPECT_THAT(error.what(), testing::HasSubstr("kept back for scores"));
  }
  EXPECT_FALSE(std::filesystem::exists(folder_));
}

TEST(TrainingCommand, RefusesForeignConditions) {
  CLI::App program;
  add_training_command(program);
  const std::string folder =
      (std::filesystem::temp_directory_path() / ("evet_foreign_" + std::to_string(::getpid()))).string();
  EXPECT_THROW(program.parse("training --samples 1 --foreign --out " + folder, false), std::invalid_argument);
  EXPECT_FALSE(std::filesystem::exists(folder));
}

}  // namespace
}  // namespace evet::render
