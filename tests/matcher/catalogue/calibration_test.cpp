#include "matcher/catalogue/calibration.h"

#include <gtest/gtest.h>

#include <chrono>
#include <thread>

#include "matcher/base/error.h"
#include "matcher/catalogue/audit.h"
#include "matcher/catalogue/merge.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

const Actor kReader{ActorKind::person, "KM"};

OwnCalibration own(double scale) {
  return {{scale, -0.25}, matching_model_id(), 40, 80, 3000, 0.05, 0.04};
}

Catalogue made(const std::filesystem::path& folder) {
  return Catalogue::create(folder, "pond", kReader, system_env());
}

TEST(CalibrationInForce, AsShippedUntilThereIsOne) {
  const try_out::Folder folder;
  Catalogue catalogue = made(folder.path / "a");
  EXPECT_FALSE(calibration_in_force(catalogue).calibration);
  EXPECT_TRUE(search_options_of(catalogue).calibration.changes_nothing());
  EXPECT_EQ(search_options_of(catalogue).wrong_join_over_missed, SearchOptions{}.wrong_join_over_missed);
}

TEST(CalibrationInForce, TheLatestCountsAndAWithdrawalPutsTheOneBeforeBack) {
  const try_out::Folder folder;
  Catalogue catalogue = made(folder.path / "a");
  catalogue.append(kReader, {entry_of(own(0.8))});
  const EntryId second = catalogue.append(kReader, {entry_of(own(0.6))}).front().id;
  ASSERT_TRUE(calibration_in_force(catalogue).calibration);
  EXPECT_EQ(calibration_in_force(catalogue).calibration->map.scale, 0.6);
  EXPECT_EQ(calibration_in_force(catalogue).calibration->individuals, 40);
  EXPECT_EQ(search_options_of(catalogue).calibration.scale, 0.6);
  catalogue.append(kReader, {Withdrawal{second, "learned on one pond"}});
  EXPECT_EQ(search_options_of(catalogue).calibration.scale, 0.8);
  EXPECT_TRUE(audit(catalogue).holds());
}

TEST(CalibrationInForce, CostsAndMapStandBesideEachOther) {
  const try_out::Folder folder;
  Catalogue catalogue = made(folder.path / "a");
  catalogue.append(kReader, {entry_of(own(0.8)), entry_of(Costs{50, 0.1})});
  const SearchOptions options = search_options_of(catalogue);
  EXPECT_EQ(options.calibration.scale, 0.8);
  EXPECT_EQ(options.wrong_join_over_missed, 50);
  EXPECT_EQ(options.look_over_missed, 0.1);
}

TEST(CalibrationInForce, OneLearnedOnOtherWeightsIsKeptAndNotUsed) {
  const try_out::Folder folder;
  Catalogue catalogue = made(folder.path / "a");
  OwnCalibration stale = own(0.8);
  stale.model = "0123456789abcdef";
  catalogue.append(kReader, {entry_of(stale)});
  EXPECT_TRUE(calibration_in_force(catalogue).of_other_weights);
  EXPECT_TRUE(search_options_of(catalogue).calibration.changes_nothing());
}

TEST(CalibrationInForce, AfterAMergeTheLaterCountsWhoeverMerges) {
  const try_out::Folder folder;
  {
    Catalogue a = made(folder.path / "a"), b = made(folder.path / "b");
    a.append(kReader, {entry_of(own(0.8))});
    std::this_thread::sleep_for(std::chrono::milliseconds(2));  // entries of one millisecond have no order
    b.append(kReader, {entry_of(own(0.7))});
  }
  std::filesystem::copy(folder.path / "a", folder.path / "a2", std::filesystem::copy_options::recursive);
  Catalogue a = Catalogue::open(folder.path / "a", system_env()),
            b = Catalogue::open(folder.path / "b", system_env()),
            copy = Catalogue::open(folder.path / "a2", system_env());
  merge(a, b, kReader);
  merge(b, copy, kReader);
  EXPECT_EQ(search_options_of(a).calibration.scale, 0.7);
  EXPECT_EQ(search_options_of(b).calibration.scale, 0.7);
  EXPECT_TRUE(audit(a).holds());
}

TEST(CalibrationEntry, NonsenseIsRefusedAndWhatIsNotKnownIsKept) {
  const try_out::Folder folder;
  Catalogue catalogue = made(folder.path / "a");
  EXPECT_THROW(catalogue.append(kReader, {entry_of(own(0))}), Error);
  EXPECT_THROW(catalogue.append(kReader, {entry_of(own(-1))}), Error);
  EXPECT_THROW(catalogue.append(kReader, {entry_of(Costs{0, 0.1})}), Error);
  EXPECT_THROW(catalogue.append(kReader, {entry_of(Costs{10, -0.1})}), Error);
  catalogue.append(kReader, {Calibration{"a later program", {{"bend", 3}}, 1, 1}});
  EXPECT_TRUE(search_options_of(catalogue).calibration.changes_nothing());
}

}  // namespace
}  // namespace evet
