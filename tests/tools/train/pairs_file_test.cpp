#include "tools/train/pairs_file.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>

#include "matcher/base/error.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet::train {
namespace {

std::vector<ComparedPair> some_pairs() {
  std::vector<ComparedPair> out(3);
  for (size_t i = 0; i < out.size(); ++i) {
    out[i] = {i, 7 - i, 5 * i, i == 1, 0.1 + static_cast<double>(i), 1.0 / 3, {}, Order::unknown, {}, false};
    for (size_t k = 0; k < kMeasures; ++k) out[i].measures[k] = std::sin(static_cast<double>(10 * i + k));
  }
  return out;
}

TEST(PairsFile, AreTheSameReadAgain) {
  const try_out::Folder folder;
  const auto path = folder.path / "pairs.csv";
  write_pairs(some_pairs(), path);
  const std::vector<ComparedPair> pairs = some_pairs(), read = read_pairs(path);
  ASSERT_EQ(read.size(), pairs.size());
  for (size_t i = 0; i < pairs.size(); ++i) {
    EXPECT_EQ(read[i].query, pairs[i].query);
    EXPECT_EQ(read[i].gallery, pairs[i].gallery);
    EXPECT_EQ(read[i].animal, pairs[i].animal);
    EXPECT_EQ(read[i].same, pairs[i].same);
    EXPECT_EQ(read[i].weight, pairs[i].weight);
    EXPECT_EQ(read[i].independent, pairs[i].independent);
    EXPECT_EQ(read[i].measures, pairs[i].measures);
  }
}

TEST(PairsFile, QueriesOfTwoFilesAreNotTakenForOne) {
  const try_out::Folder folder;
  write_pairs(some_pairs(), folder.path / "a.csv");
  write_pairs(some_pairs(), folder.path / "b.csv");
  std::vector<size_t> queries;
  for (const ComparedPair& pair : read_pairs({folder.path / "a.csv", folder.path / "b.csv"}))
    queries.push_back(pair.query);
  EXPECT_EQ(queries, (std::vector<size_t>{0, 1, 2, 3, 4, 5}));
}

TEST(PairsFile, AFileOfOtherMeasuresAndACutLineAreRefusedByName) {
  const try_out::Folder folder;
  const auto path = folder.path / "pairs.csv";
  std::ofstream(path) << "same,weight,else\n1,2,3\n";
  EXPECT_THROW(read_pairs(path), Error);
  EXPECT_THROW(read_pairs(folder.path / "none.csv"), Error);
  write_pairs(some_pairs(), path);
  std::filesystem::resize_file(path, std::filesystem::file_size(path) - 40);
  try {
    read_pairs(path);
    FAIL() << "nothing was thrown";
  } catch (const Error& error) {
    EXPECT_NE(std::string(error.what()).find("line 4"), std::string::npos) << error.what();
  }
}

TEST(PairsFile, AFolderThatIsNotThereIsAStorageError) {
  const try_out::Folder folder;
  EXPECT_THROW(write_pairs(some_pairs(), folder.path / "none" / "pairs.csv"), Error);
}

}  // namespace
}  // namespace evet::train
