#include "tests/tools/report/sample_night.h"

#include <opencv2/imgproc.hpp>

#include "fmt/format.h"
#include "models/base/messages.h"

namespace evet::samples {
namespace {

constexpr int kRows = 512, kCols = 160;

std::vector<cv::Point2d> spots_of(std::uint32_t animal) {  // (v, u)
  cv::RNG random(1000 + animal);
  std::vector<cv::Point2d> spots;
  for (int i = 0; i < 26; ++i) spots.emplace_back(random.uniform(-0.95, 0.95), random.uniform(0.02, 0.98));
  return spots;
}

std::vector<SpotTie> ties_of(std::uint32_t animal, std::size_t n) {
  std::vector<SpotTie> ties;
  for (const cv::Point2d& p : spots_of(animal)) {
    if (ties.size() == n) break;
    const auto u = static_cast<float>(p.y), v = static_cast<float>(p.x);
    ties.push_back({u, v, u + 0.012F, v * 0.97F});
  }
  return ties;
}

ReportCapture capture(const std::string& name, std::uint32_t animal, std::uint32_t nth,
                      const std::string& sex) {
  ReportCapture c;
  c.name = name;
  c.trap = "T" + std::to_string(1 + animal % 5);
  c.sex = sex;
  c.stage = "adult";
  c.svl_mm = 62.0 + animal % 13;
  c.strip = strip(animal, nth, "2031-05-14");
  c.strip.photo = "IMG_" + std::to_string(2400 + animal) + ".jpg";
  return c;
}

ReportCandidate candidate(const std::string& label, std::uint32_t animal, double probability, int spots) {
  ReportCandidate k;
  k.individual = label;
  k.probability = probability;
  k.matched_spots = spots;
  k.before = strip(animal, 0, "2031-04-22");
  k.before.photo = "DSC_0" + std::to_string(100 + animal) + ".JPG";
  k.ties = ties_of(animal, static_cast<std::size_t>(spots));
  return k;
}

models::Estimate estimate(double value, double se, double lower, double upper) {
  models::Estimate e;
  e.parameter = "N";
  e.value = value;
  e.standard_error = se;
  e.intervals.push_back({lower, upper, 0.95, messages::kIntervalLogNormal});
  e.assumptions = {bare("No animal enters or leaves the pond between the first and the last night."),
                   bare("On each night every animal is equally likely to be caught."),
                   bare("No animal loses its pattern.")};
  e.source = "Schnabel (1938), American Mathematical Monthly 45: 348\u2013352.";
  return e;
}

}  // namespace

ReportStrip strip(std::uint32_t animal, std::uint32_t capture, const std::string& night) {
  cv::RNG random(77 * animal + capture);
  ReportStrip s;
  s.bgr = cv::Mat3b(kRows, kCols, cv::Vec3b{40, 130, 235});
  s.valid = cv::Mat1b(kRows, kCols, 255);
  for (const cv::Point2d& p : spots_of(animal)) {
    const cv::Point centre(cvRound((p.x + 1) / 2 * kCols + random.uniform(-3.0, 3.0)),
                           cvRound(p.y * kRows + random.uniform(-4.0, 4.0)));
    const int size = 6 + cvRound(std::abs(p.x * 31 + p.y * 57)) % 14;
    cv::ellipse(s.bgr, centre, {size, size + 5}, p.x * 90, 0, 360, {34, 38, 36}, -1, cv::LINE_AA);
  }
  cv::GaussianBlur(s.bgr, s.bgr, {}, 1.6);
  const double light = 0.8 + 0.05 * (capture % 5);
  s.bgr.convertTo(s.bgr, -1, light);
  cv::ellipse(s.valid, {cvRound(20 + random.uniform(0.0, 120.0)), cvRound(60 + random.uniform(0.0, 400.0))},
              {22, 40}, 20, 0, 360, 0, -1);
  s.night = night;
  return s;
}

NightReport night() {
  NightReport r;
  r.catalogue = "Northmoor ponds";
  r.site = "Northmoor";
  r.pond = "Alder Pond";
  r.place = "within a 10 km square in the Vale of Ash";
  r.night = "2031-05-14";
  r.observers = {"KM", "TR"};
  r.licences = {"NM-2031-0417"};
  r.sheet = "night-2031-05-14.csv";
  r.captures_on_sheet = 14;
  r.photos_on_sheet = 19;
  for (std::uint32_t i = 0; i < 6; ++i) {
    ReportRecapture one;
    one.capture = capture("c-alder-" + std::to_string(i + 1), i, 3, i % 2 != 0 ? "male" : "female");
    one.match = candidate(fmt::format("A-{:03}", 12 + 7 * i), i, i == 3 ? 0.934 : 0.9996 - 0.002 * i,
                          9 + static_cast<int>(i) * 2);
    one.first_night = "2030-04-09";
    one.last_night = "2031-04-22";
    one.earlier_captures = 2 + static_cast<int>(i % 3);
    one.last_svl_mm = *one.capture.svl_mm - 1;
    one.capture.decided = {ReportDecided::How::same, {SettledBy::Kind::program, {}}, "2031-05-15", {}};
    if (i == 3) one.capture.decided.by = {SettledBy::Kind::person, "KM"};
    if (i == 3) one.capture.reason = "chain of three spots below the throat";
    if (i == 4) one.capture.caution = "A second reader was not sure; the verdict is in dispute.";
    r.recaptures.push_back(one);
  }
  for (std::uint32_t i = 20; i < 24; ++i) {
    ReportNew one;
    one.capture = capture("c-alder-" + std::to_string(i - 13), i, 3, i % 2 != 0 ? "male" : "female");
    one.label = fmt::format("A-{:03}", 60 + i);
    one.probability = 0.9993 - 0.01 * (i - 20);
    one.capture.decided = {
        ReportDecided::How::new_individual, {SettledBy::Kind::program, {}}, "2031-05-15", {}};
    r.newcomers.push_back(one);
  }
  for (std::uint32_t i = 30; i < 32; ++i) {
    ReportLook one;
    one.capture = capture("c-alder-" + std::to_string(i - 19), i, 3, "unknown");
    one.candidates = {candidate("A-031", i, 0.62, 7), candidate("A-007", 40, 0.09, 4),
                      candidate("A-055", 41, 0.04, 3)};
    one.new_probability = 0.25;
    r.looks.push_back(one);
  }
  for (const char* name : {"c-alder-13", "c-alder-14"}) {
    ReportUnusable one;
    one.capture.name = name;
    r.unusable.push_back(one);
  }
  r.facts.method = "bottle traps set at dusk", r.facts.effort = 12, r.facts.effort_unit = "trap nights";
  r.facts.weather = "overcast, calm", r.facts.air_c = 8.5, r.facts.water_c = 11;
  r.facts.holder = "K. Moor", r.facts.notes = "gate key from the farm at Alder Lane";
  for (int i = 1; i <= 14; ++i) {
    ReportRow row;
    row.capture = "c-alder-" + std::to_string(i), row.trap = "T" + std::to_string(i % 5), row.sex = "female";
    row.stage = "adult", row.svl_mm = 62 + i, row.total_mm = 121.5, row.mass_g = 7.4, row.released = i != 3;
    row.outcome = i < 7 ? "A-0" + std::to_string(10 + i) + ", caught again" : "not settled";
    if (i < 7) row.by = {SettledBy::Kind::person, "KM"};
    row.licence = "NM-2031-0417", row.notes = "by the sluice of Alder Pond";
    row.latitude = 52.1251, row.longitude = -1.5003;
    r.rows.push_back(row);
  }
  r.overrides = {{"c-alder-2", "another capture of Alder Pond on this night is the same animal",
                  "seen it myself at Northmoor", "KM", "2031-05-15"}};
  r.failed_photos = {{"IMG_2431.jpg",
                      "c-alder-13",
                      {"Reflected light hides 71 % of the belly: tilt the tray or shade the lamp, and "
                       "photograph again before release."}},
                     {"IMG_2432.jpg",
                      "c-alder-14",
                      {"The belly is blurred: focus on the belly, hold the camera still or use more light, "
                       "and photograph again."}},
                     {"IMG_2433.heic",
                      "c-alder-5",
                      {"The HEIC data is damaged or cut short: copy it from the camera's card again."}}};
  int captures = 0, animals = 0;
  for (const auto& [when, caught, fresh] : {std::tuple{"2031-04-02", 14, 14},
                                            {"2031-04-09", 18, 13},
                                            {"2031-04-15", 22, 12},
                                            {"2031-04-22", 19, 8},
                                            {"2031-05-03", 16, 5},
                                            {"2031-05-14", 10, 4}}) {
    captures += caught, animals += fresh;
    r.discovery.push_back({when, captures, animals});
  }
  ReportEstimate e;
  e.what = "Adult newts in Alder Pond, 2 April to 14 May 2031";
  e.model = "Schnabel's estimator over six nights";
  e.naive = estimate(93.4, 11.2, 76.1, 121.0);
  e.corrected = estimate(89.7, 12.9, 70.3, 122.4);
  e.naive.warnings = {
      bare("Only six nights: the interval is wide and the test of equal catchability has little power.")};
  e.correction =
      "Two hundred sets of histories were drawn from the match probabilities, fitted, and combined by "
      "Rubin's rules.";
  r.estimates.push_back(e);
  r.ledger_head = "5f0c9a7d3b1e48a6c2f47d90be6a13557c8e21f4d09b36a5817e4c2d6f90ab13";
  r.ledger_entries = 412;
  r.made_at = "2031-05-15T08:12:44+02:00";
  r.program = "evet 0.1.0";
  r.how = {{"Pattern comparison", "weights 2026-11, SHA-256 71ab\u2026"}, {"Calibration", "as delivered"}};
  return r;
}

}  // namespace evet::samples
