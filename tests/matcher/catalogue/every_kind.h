// One body of every kind, every field filled: what must survive the way to text and back.
#pragma once
#include <string>
#include <vector>

#include "matcher/catalogue/entry.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet::try_out {

struct EveryKind {
  CaptureId a{"019e6a3b-7c11-7f00-8a2e-00000000000a"}, b{"019e6a3b-7c11-7f00-8a2e-00000000000b"};
  PhotoId photo{std::string(64, 'a')}, other_photo{std::string(64, 'b')};
  EntryId entry{"019e6a3b-7c11-7f00-8a2e-0000000000e1"};

  CaptureFacts every_fact() const {
    CaptureFacts all = facts("2031-05-14", "c1", "TAG-1");
    all.total_mm = 131.25, all.mass_g = 8.5, all.notes = "tail tip \"lost\"\n\u00fc\U0001F98E",
    all.lost = true;
    return all;
  }
  Examination examined() const {
    Examination all;
    all.usable = true;
    all.quality.sharpness = 0.75, all.quality.glare_share = 0.125, all.quality.bend_deg = 31.5;
    all.notes = {{"glare_share", "the flash hides an eighth of the belly", false}};
    all.maker = "test 1";
    all.midline = {{100.5, 20}, {110, 300.25}};
    return all;
  }
  PhotoTaken taken() const {
    PhotoTaken all = photo_of(photo, a, "IMG 1.jpg");
    all.header.orientation = 6, all.header.camera = "made up", all.header.has_position = true;
    all.header.taken_at = "2031-05-14T22:41:07", all.header.taken_at_offset = "+02:00";
    all.examination = examined();
    return all;
  }
  Verdict verdict() const {
    Verdict all{.capture = b, .other = a, .answer = Answer::same, .reason = "forked spot under the throat"};
    all.evidence.maker = "test 1", all.evidence.new_probability = 0.0625;
    all.evidence.shown = {{IndividualId(a.value), a, photo, other_photo, 0.875, 12.5, 17}};
    all.in_spite_of = {
        {"other_sex", "the sheet says female, and male before", "sexed wrongly as a juvenile"}};
    all.blind = true, all.planted = true, all.settles = {entry};
    return all;
  }
  std::vector<Body> bodies() const {
    return {CatalogueMade{"Alder Fen", "evet test"},
            NightIntake{.sheet = "night.csv",
                        .sheet_sha256 = std::string(64, 'c'),
                        .nights = {"2031-05-14", "2031-05-15"},
                        .rows = 3,
                        .captures = 2,
                        .photos = 3,
                        .refused = {"line 4: photo 'x.jpg' is not there"},
                        .visits = {{"Alder Fen", "north", "2031-05-14"}, {"Alder Fen", "", "2031-05-15"}}},
            Capture{a, every_fact()},
            Correction{a, {{"svl_mm", 72.5}, {"notes", nullptr}}, "measured again"},
            taken(),
            Reexamined{photo, examined()},
            verdict(),
            Verdict{.capture = b, .answer = Answer::new_individual},
            Reading{.capture = a, .photo = photo, .usable = true, .reason = "sharp", .blind = true},
            LabelGiven{a, "Dot"},
            Closing{b,
                    ClosedAs::same_capture,
                    a,
                    "photographed twice in one tray",
                    {{"other_night", "a day lies between", "past midnight"}}},
            Withdrawal{entry, "a slip"},
            Merge{{{DeviceId("019e6a3b-7c11-7f00-8a2e-0000000000d1"), {7, std::string(64, 'd')}}},
                  {},
                  12,
                  3,
                  "merged"},
            NightFactsSaid{{"Alder Fen", "north", "2031-05-14"},
                           {{"method", "bottle traps"}, {"effort", 12.5}, {"weather", nullptr}},
                           "from the field book"},
            Calibration{"test 1", {{"slope", 1.5}, {"offset", -2}}, 120, 4000}};
  }
};

}  // namespace evet::try_out
