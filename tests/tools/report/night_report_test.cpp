#include "tools/report/night_report.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <limits>
#include <regex>

#include "matcher/base/error.h"
#include "models/base/messages.h"
#include "tests/tools/report/sample_night.h"
#include "tools/report/discovery_plot.h"
#include "tools/report/for_public.h"
#include "tools/report/html.h"
#include "tools/report/interval_plot.h"
#include "tools/report/picture.h"

namespace evet {
namespace {

using testing::HasSubstr;
using testing::Not;

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

TEST(NightReport, IsOnePageThatTellsOfEveryCapture) {
  const std::string page = night_report_html(samples::night());
  std::ofstream(EVET_BINARY_DIR "/sample_night_report.html") << page;  // to be looked at
  EXPECT_THAT(page,
              HasSubstr("6 caught again + 4 new + 2 to look at + 2 unusable = 14 captures on the sheet"));
  EXPECT_THAT(page, HasSubstr("Of 19 photos, 3 could not be used."));
  EXPECT_THAT(page, HasSubstr("93.4 %</b> <span>very likely</span>"));
  EXPECT_THAT(page, HasSubstr("tilt the tray or shade the lamp"));
  EXPECT_THAT(page, HasSubstr("5f0c9a7d3b1e48a6c2f47d90be6a13557c8e21f4d09b36a5817e4c2d6f90ab13"));
}

TEST(NightReport, WhatCouldBeUsedIsSaidOfAnyNumberOfPhotos) {
  NightReport night = samples::night();
  night.failed_photos.clear();
  EXPECT_THAT(night_report_html(night), HasSubstr("All 19 photos could be used."));
  night.photos_on_sheet = 1;
  EXPECT_THAT(night_report_html(night), HasSubstr("Its photo could be used."));
  night.photos_on_sheet = 0;
  EXPECT_THAT(night_report_html(night), HasSubstr("There are no photos."));
}

TEST(NightReport, TheAuthoritysVersionNamesPlaceLicenceAndEveryCapture) {
  const std::string page = night_report_html(samples::night());
  for (const char* said :
       {"For the licensing authority.", "52.12510\u00b0 N, 1.50030\u00b0 W", "K. Moor", "NM-2031-0417",
        "12 trap nights", "overcast, calm; air 8.5 \u00b0C; water 11 \u00b0C", "bottle traps set at dusk",
        "Signature</small>", ">c-alder-14</th>", "seen it myself at Northmoor", "A-011, caught again",
        "Br\u00fcmmer &amp; du Preez (2006)", "counter(pages)"})
    EXPECT_THAT(page, HasSubstr(said)) << said;
  EXPECT_THAT(page.substr(0, page.find("<main>")), Not(HasSubstr("ithheld")));  // it would be untrue
}

// Whatever could give the place or a person away is not in the page at all, not even out of sight.
TEST(NightReport, TheVersionForEverybodyGivesNothingAway) {
  const NightReport all = samples::night();
  const std::string page = night_report_html(for_everybody(all));
  for (const char* secret : {"Alder",   "alder",  "Northmoor",  "northmoor",      "K. Moor",
                             "NM-2031", "52.125", "1.5003",     "gate key",       "sluice",
                             "IMG_",    "DSC_",   "night-2031", "seen it myself", "chain of three spots",
                             ">T1<",    "trap T", "Signature",  ">KM<",           "by KM",
                             "KM, TR"})
    EXPECT_THAT(page, Not(HasSubstr(secret))) << secret;
  for (const char* said :
       {"Public version.", "A pond with protected newts", "within a 10 km square in the Vale of Ash",
        "overcast, calm", "A-011, caught again", "12 trap nights"})
    EXPECT_THAT(page, HasSubstr(said)) << said;
  EXPECT_EQ(times(page, "<img "), times(night_report_html(all), "<img "));
}

TEST(NightReport, WhatIsNotWrittenDownIsSaidToBeSo) {
  NightReport report = samples::night();
  report.facts = {};
  const std::string page = night_report_html(report);
  EXPECT_EQ(times(page, "not written down"), 4U);  // method, effort, weather, holder
}

TEST(NightReport, ANightWithoutACatchIsSaidToBeOne) {
  NightReport report;
  report.site = "Northmoor", report.night = "2031-05-14", report.facts.method = "torch";
  const std::string page = night_report_html(report);
  EXPECT_THAT(page, HasSubstr("Nothing was caught: the place was worked"));
  EXPECT_THAT(page, HasSubstr("Nothing was caught on this night"));
  EXPECT_THAT(page, HasSubstr("torch"));
}

// Paper has no scroll bar: no table is longer than a page, each part has its heads.
TEST(NightReport, ALongNightsTableIsSeveralTables) {
  NightReport report = samples::night();
  const ReportRow row = report.rows[0];
  for (int i = 0; i < 50; ++i) report.rows.push_back(row);
  const std::string page = night_report_html(report);
  EXPECT_THAT(page, HasSubstr("Captures 1 to 22 of 64"));
  EXPECT_THAT(page, HasSubstr("Captures 45 to 64 of 64"));
  EXPECT_EQ(times(page, "<table class=\"whole captures\">"), 3U);
}

TEST(NightReport, NoTextEndsTheStyleSheet) {
  NightReport report = samples::night();
  report.pond = "a\"; } </style><script>x</script>";
  const std::string page = night_report_html(report);
  EXPECT_EQ(times(page, "</style>"), 1U);
  EXPECT_THAT(page, Not(HasSubstr("<script")));
}

TEST(NightReport, CountsThatDoNotAddUpAreRefused) {
  NightReport report = samples::night();
  report.newcomers.pop_back();
  EXPECT_THROW(night_report_html(report), Error);
  report = samples::night();
  report.recaptures[0].match.probability = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW(night_report_html(report), Error);
}

TEST(NightReport, LoadsNothingFromOutside) {
  const std::string page = night_report_html(samples::night());
  for (const char* outside : {"http:", "https:", "src=\"/", "url(", "@import", "<script", "<link", "<iframe"})
    EXPECT_THAT(page, Not(HasSubstr(outside)));
  EXPECT_EQ(times(page, "<img "), times(page, "src=\"data:image/jpeg;base64,"));
  EXPECT_THAT(page, HasSubstr("default-src 'none'; img-src data:; style-src 'unsafe-inline'"));
}

// Every text field of the value, hostile.
TEST(NightReport, EscapesEverything) {
  const std::string evil = "<script>alert(1)</script>\" onload='x' & {}";
  NightReport r = samples::night();
  for (std::string* text :
       {&r.catalogue, &r.site, &r.pond, &r.place, &r.night, &r.sheet, &r.ledger_head, &r.made_at, &r.program})
    *text = evil;
  r.observers = r.licences = {evil};
  r.how = {{evil, evil}};
  r.discovery[0].night = evil;
  const auto spoil_strip = [&](ReportStrip& s) { s.photo = s.night = evil; };
  const auto spoil = [&](ReportCapture& c) {
    c.name = c.trap = c.sex = c.stage = c.reason = c.caution = evil;
    c.decided = {ReportDecided::How::same, {SettledBy::Kind::person, evil}, evil, {}};
    spoil_strip(c.strip);
  };
  const auto spoil_candidate = [&](ReportCandidate& k) {
    k.individual = evil;
    spoil_strip(k.before);
  };
  for (ReportRecapture& one : r.recaptures)
    spoil(one.capture), spoil_candidate(one.match), one.first_night = one.last_night = evil;
  for (ReportNew& one : r.newcomers) spoil(one.capture), one.label = evil;
  for (ReportLook& one : r.looks) {
    spoil(one.capture);
    for (ReportCandidate& k : one.candidates) spoil_candidate(k);
  }
  for (ReportUnusable& one : r.unusable) spoil(one.capture);
  for (ReportFailedPhoto& one : r.failed_photos) one = {evil, evil, {evil}};
  for (ReportRow& one : r.rows)
    one.capture = one.trap = one.sex = one.stage = one.outcome = one.by.code = one.licence = one.notes = evil;
  r.overrides = {{evil, evil, evil, evil, evil}};
  for (std::string* text : {&r.facts.method, &r.facts.effort_unit, &r.facts.weather, &r.facts.licence,
                            &r.facts.holder, &r.facts.observers, &r.facts.place, &r.facts.notes})
    *text = evil;
  r.refused_rows = {{evil, evil}};
  ReportEstimate& e = r.estimates[0];
  e.what = e.model = e.correction = e.naive.source = evil;
  e.naive.undefined = bare(evil);
  e.naive.assumptions = e.naive.warnings = {bare(evil)};
  e.naive.intervals[0].method = bare(evil);
  r.no_estimate = evil;
  const std::string page = night_report_html(r);
  EXPECT_THAT(page, Not(HasSubstr("<script")));
  EXPECT_THAT(page, Not(HasSubstr("onload='")));
  EXPECT_THAT(page, Not(HasSubstr("\" onload")));
  EXPECT_GT(times(page, "&lt;script&gt;alert(1)&lt;/script&gt;&quot; onload=&#39;x&#39; &amp; {}"), 100U);
}

TEST(NightReport, EveryPictureHasWordsAndEveryTableItsHeads) {
  const std::string page = night_report_html(samples::night());
  EXPECT_EQ(times(page, "<img "), times(page, "alt=\"Straightened belly, head up, of "));
  EXPECT_EQ(times(page, "<th "), times(page, "<th scope="));
  EXPECT_EQ(times(page, "<table"), times(page, "<caption>"));
  EXPECT_EQ(times(page, "<h1>"), 1U);
  EXPECT_THAT(page, HasSubstr("<html lang=\"en\">"));
}

TEST(NightReport, TagsAreBalanced) {
  const std::string page = night_report_html(samples::night());
  for (const char* tag :
       {"section", "article", "figure", "figcaption", "div", "dl", "dt",      "dd",   "ul",    "ol",
        "li",      "table",   "thead",  "tbody",      "tr",  "th", "td",      "p",    "span",  "svg",
        "g",       "h1",      "em",     "h2",         "h3",  "h4", "details", "main", "header"}) {
    const std::regex open("<" + std::string(tag) + "[ >]");
    const auto opened =
        std::distance(std::sregex_iterator(page.begin(), page.end(), open), std::sregex_iterator());
    EXPECT_EQ(static_cast<std::size_t>(opened), times(page, "</" + std::string(tag) + ">")) << tag;
  }
}

TEST(NightReport, AnEmptyNightIsStillAPage) {
  NightReport report;
  report.night = "2031-05-14";
  report.no_estimate = "fewer than two nights.";
  const std::string page = night_report_html(report);
  EXPECT_THAT(page, HasSubstr("Nothing was caught on this night"));
  EXPECT_THAT(page, HasSubstr("No estimate: fewer than two nights."));
  EXPECT_THAT(page, HasSubstr("Photography of protected species is for licensed handlers only"));
}

TEST(NightReport, AStripThatIsNotThereIsSaidToBeMissing) {
  NightReport report = samples::night();
  report.recaptures[0].match.before.bgr.release();
  EXPECT_THAT(night_report_html(report), HasSubstr("no picture kept"));
}

TEST(NightReport, SameValueSameBytes) {
  EXPECT_EQ(night_report_html(samples::night()), night_report_html(samples::night()));
}

// Mastrandrea et al. (2010), IPCC guidance note on uncertainties, table 1.
TEST(ReportHtml, WordsFollowTheCalibratedScale) {
  EXPECT_EQ(report::in_words(0.99), "virtually certain");
  EXPECT_EQ(report::in_words(0.9896), "virtually certain");  // shown as 99.0 %
  EXPECT_EQ(report::in_words(0.90), "very likely");
  EXPECT_EQ(report::in_words(0.66), "likely");
  EXPECT_EQ(report::in_words(0.5), "about as likely as not");
  EXPECT_EQ(report::in_words(0.32), "unlikely");
  EXPECT_EQ(report::in_words(0.09), "very unlikely");
  EXPECT_EQ(report::in_words(0.009), "exceptionally unlikely");
}

TEST(ReportHtml, FiguresAndDates) {
  EXPECT_EQ(report::figure(1234.4), "1234");
  EXPECT_EQ(report::figure(93.44), "93.4");
  EXPECT_EQ(report::figure(0.8712), "0.87");
  EXPECT_EQ(report::figure(std::numeric_limits<double>::infinity()), "not bounded");
  EXPECT_EQ(report::figure(std::numeric_limits<double>::quiet_NaN()), "not defined");
  EXPECT_EQ(report::long_date("2031-05-04"), "4 May 2031");
  EXPECT_EQ(report::long_date("2031-13-04"), "2031-13-04");
  EXPECT_EQ(report::long_date("May"), "May");
}

TEST(DiscoveryPlot, TicksAreRoundAndFew) {
  for (const int most : {1, 2, 3, 7, 13, 59, 60, 61, 999, 100'000}) {
    const int step = report::tick_step(most);
    EXPECT_LE(most, 6 * step);
    EXPECT_TRUE(std::regex_match(std::to_string(step), std::regex("[125]0*"))) << step;
  }
}

TEST(DiscoveryPlot, NeedsTwoNights) {
  EXPECT_EQ(report::discovery_plot({{"2031-05-14", 3, 3}}), "");
  EXPECT_THAT(report::discovery_plot({{"2031-05-13", 0, 0}, {"2031-05-14", 0, 0}}), HasSubstr("<svg"));
}

TEST(IntervalPlot, DrawsLimitsOnOneScaleAndSaysWhenThereIsNoUpperOne) {
  models::Estimate bounded, open, none;
  bounded.value = 50;
  bounded.intervals = {{25, 100, 0.95, messages::kIntervalLogNormal}};
  open.value = 60;
  open.intervals = {{40, models::kInfinity, 0.95, messages::kIntervalProfileLikelihood}};
  const std::string plot = report::interval_plot({{"a", &bounded}, {"b", &none}});
  EXPECT_THAT(plot,
              HasSubstr(R"(<line class="reach" x1="265.0" x2="640.0")"));  // a quarter and all of 0..100
  EXPECT_THAT(plot, Not(HasSubstr("arrow")));
  EXPECT_EQ(times(plot, "class=\"value\""), 1U);
  EXPECT_THAT(report::interval_plot({{"<b>", &open}}), HasSubstr("class=\"arrow\""));
  EXPECT_THAT(report::interval_plot({{"<b>", &open}}), HasSubstr("&lt;b&gt;"));
  EXPECT_EQ(report::interval_plot({{"b", &none}}), "");
}

TEST(ReportPicture, UnseenSkinIsHatchedAndTheRestUntouched) {
  const ReportStrip strip = samples::strip(1, 1, "2031-05-14");
  const cv::Mat3b drawn = report::with_unseen_hatched(strip.bgr, strip.valid);
  for (int y = 0; y < drawn.rows; ++y)
    for (int x = 0; x < drawn.cols; ++x) {
      if (strip.valid(y, x) != 0) {
        ASSERT_EQ(drawn(y, x), strip.bgr(y, x));
      } else {
        ASSERT_GE(drawn(y, x)[0], 120);
      }
    }
}

}  // namespace
}  // namespace evet
