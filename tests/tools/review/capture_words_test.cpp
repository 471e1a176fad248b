#include "tools/review/capture_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace evet::review {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

struct Misfits : testing::Test {
  CaptureFacts earlier, later;
  void SetUp() override {
    earlier.site = later.site = "Alder Fen";
    earlier.night = "2031-05-01", later.night = "2031-05-14";
  }
};

TEST_F(Misfits, NothingIsSaidOfWhatFitsOrWasNotNoted) {
  EXPECT_THAT(misfits(earlier, later), IsEmpty());
  earlier.pond = "north", earlier.sex = Sex::female, earlier.svl_mm = 62, earlier.stage = "juvenile";
  EXPECT_THAT(misfits(earlier, later), IsEmpty());
  later.pond = "north", later.sex = Sex::female, later.svl_mm = 59, later.stage = "adult";
  EXPECT_THAT(misfits(earlier, later), IsEmpty()) << "3 mm less is within a reading";
}

TEST_F(Misfits, APlaceIsWrittenAsEverywhere) {
  earlier.pond = "north", later.pond = "south";
  EXPECT_THAT(misfits(earlier, later),
              ElementsAre("place: Alder Fen, north on 2031-05-01, Alder Fen, south on 2031-05-14"));
  later.site = "Reed Hollow", later.pond = "";
  EXPECT_THAT(misfits(earlier, later),
              ElementsAre("place: Alder Fen, north on 2031-05-01, Reed Hollow on 2031-05-14"));
}

TEST_F(Misfits, SexLengthAndStageGoOneWay) {
  earlier.sex = Sex::female, later.sex = Sex::male;
  earlier.svl_mm = 62, later.svl_mm = 57.5;
  earlier.stage = "adult", later.stage = "juvenile";
  EXPECT_THAT(misfits(earlier, later), ElementsAre("sex: female on 2031-05-01, male on 2031-05-14",
                                                   "length: 62 mm on 2031-05-01, only 57.5 mm on 2031-05-14",
                                                   "stage: adult on 2031-05-01, juvenile on 2031-05-14"));
}

}  // namespace
}  // namespace evet::review
