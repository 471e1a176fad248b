#include "tools/render/demo_scenario.h"

#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <map>
#include <string>

#include "tools/render/rng.h"

namespace evet::render {

namespace {

using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_days;

struct Catch {
  std::uint32_t animal;
  Subject subject = Subject::belly;
  int photos = 1;
  const char* note = "";
};

struct SurveyNight {
  std::chrono::year_month_day began;
  bool traps;  // emptied the next morning; otherwise netted by torchlight
  bool phone;  // TJ photographs with a telephone, KM with a camera
  std::vector<std::string> floors, lights;
  std::vector<Catch> catches;
};

constexpr auto day(int y, unsigned m, unsigned d) {
  return std::chrono::year(y) / std::chrono::month(m) / std::chrono::day(d);
}

const std::vector<SurveyNight>& survey_nights() {
  static const std::vector<SurveyNight> nights = {
      {day(2023, 4, 12),
       true,
       false,
       {"white-tray", "grey-tray"},
       {"overcast", "shade", "dusk"},
       {{0}, {1}, {2}, {3}, {4}}},
      {day(2023, 4, 28),
       false,
       true,
       {"clear-box", "grey-tray", "white-tray"},
       {"torch", "flash"},
       {{5}, {1}, {6}, {7}, {3}}},
      {day(2023, 5, 17),
       true,
       false,
       {"graph-paper", "white-tray"},
       {"overcast", "flash", "shade"},
       {{8}, {2}, {6}, {9}, {10}, {0}}},
      {day(2024, 4, 17),
       false,
       false,
       {"grey-tray", "slate", "green-net"},
       {"head-torch", "flash"},
       {{11}, {4}, {8}, {12}, {5}}},
      {day(2024, 5, 3),
       true,
       true,
       {"clear-box", "graph-paper", "white-tray"},
       {"shade", "overcast", "ring-led"},
       {{13}, {7}, {11}, {1}, {12}}},
      {day(2024, 5, 22),
       false,
       false,
       {"white-tray", "grey-tray", "clear-box", "graph-paper"},
       {"torch", "head-torch", "cold-led", "flash"},
       {{2},
        {14},
        {8, Subject::belly, 2},
        {9},
        {3, Subject::blurred, 1, "moved, escaped before a second photo"},
        {15},
        {11},
        {10},
        {0, Subject::empty_tray, 1, "animal left the tray"},
        {16},
        {13},
        {17},
        {0}}}};
  return nights;
}

std::string text(const char* form, double value) {
  std::array<char, 32> out{};
  std::snprintf(out.data(), out.size(), form, value);
  return out.data();
}
std::string iso(std::chrono::year_month_day date) {
  std::array<char, 32> out{};
  std::snprintf(out.data(), out.size(), "%04d-%02u-%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return out.data();
}
std::string iso(std::chrono::sys_seconds time) {
  const auto midnight = std::chrono::floor<std::chrono::days>(time);
  const std::chrono::hh_mm_ss clock(time - midnight);
  std::array<char, 32> out{};
  std::snprintf(out.data(), out.size(), "T%02d:%02d:%02d", static_cast<int>(clock.hours().count()),
                static_cast<int>(clock.minutes().count()), static_cast<int>(clock.seconds().count()));
  return iso(std::chrono::year_month_day(midnight)) + out.data();
}
std::string without(std::string from, const char* signs) {
  for (std::size_t at; (at = from.find_first_of(signs)) != std::string::npos;) from.erase(at, 1);
  return from;
}

// Lengths of adults of the largest European newts, and what a season adds (common practice, no source).
void measure(NightPhoto& p, std::uint64_t seed, std::uint32_t animal, double years, bool april, Rng error) {
  Rng rng(mix64(mix64(seed, 0xb0d7), animal));
  const bool young = rng.chance(0.12), female = rng.chance(0.5);
  const double at_first = young ? rng.uniform(48, 54) : female ? rng.uniform(64, 78) : rng.uniform(60, 72);
  const double svl = at_first + years * (young ? 7 : rng.uniform(0.3, 1.8)),
               total = svl * rng.uniform(1.78, 1.93);
  const double gravid = female && april && !young ? 1.15 : 1;
  p.stage = young && years < 0.5 ? "subadult" : "adult";
  p.sex = p.stage == "subadult" ? "unknown" : female ? "female" : "male";
  p.svl_mm = text("%.0f", svl + 0.5 * error.normal());
  p.total_mm = text("%.0f", total + 1.0 * error.normal());
  p.mass_g = text("%.1f", 9.0 * std::pow(svl / 70, 3) * gravid * (1 + 0.04 * error.normal()));
}

// How a photo of the night is taken: what lies beneath, and what light there was.
Conditions conditions_of(const std::string& floor, const std::string& light, Rng& rng) {
  Conditions c;
  c.difficulty = rng.chance(0.25) ? Difficulty::gentle : Difficulty::middle;
  c.only_mechanisms = {"blobs", "blotches", "dots", "mirrored", "anisotropic-noise"};
  c.only_backgrounds = {floor};
  c.only_lights = {light};
  return c;
}

std::string file_name(const SurveyNight& night, const std::string& taken_at, int number) {
  if (!night.phone) return "IMG_" + text("%04.0f", number) + ".JPG";
  return without(taken_at.substr(0, 10), "-") + "_" + without(taken_at.substr(11), ":") + ".jpg";
}

// What the sheet says of every photo of a night alike.
void fill_sheet(NightPhoto& p, const SurveyNight& night) {
  p.site = "Wetherlow Common";
  p.pond = "Sallow Pond";
  p.night = iso(night.began);
  p.observer = night.phone ? "TJ" : "KM";
  p.licence = "DEMO-0000";
  // In the open North Sea, where no pond is.
  p.latitude = "54.7260";
  p.longitude = "2.1380";
}

}  // namespace

DemoScenario demo_scenario(std::uint64_t seed, cv::Size size) {
  DemoScenario scenario;
  std::map<std::uint32_t, sys_days> first_caught;
  std::map<bool, int> camera_number = {{false, 412}, {true, 0}};
  std::uint32_t take = 0;
  for (const SurveyNight& night : survey_nights()) {
    const bool last = &night == &survey_nights().back();
    std::vector<NightPhoto>& photos = last ? scenario.last_night : scenario.earlier;
    const std::string date = iso(night.began);
    Rng rng(mix64(mix64(seed, 0xde30),
                  static_cast<std::uint64_t>(sys_days(night.began).time_since_epoch().count())));
    std::chrono::sys_seconds clock =
        sys_days(night.began) + (night.traps ? minutes(29 * 60 + 50) : minutes(21 * 60 + 47));
    int in_night = 0, trap = 0;
    for (const Catch& caught : night.catches) {
      ++in_night;
      trap += rng.between(1, 2);
      const bool newt = caught.subject != Subject::empty_tray;
      if (newt) first_caught.try_emplace(caught.animal, night.began);
      clock += minutes(rng.between(4, 9)) + seconds(rng.below(60));
      const Rng facts = rng.fork(static_cast<std::uint64_t>(in_night));
      const std::string floor = newt ? rng.pick(night.floors) : night.floors.front(),
                        light = rng.pick(night.lights);
      for (int shot = 0; shot < caught.photos; ++shot) {
        if (shot > 0) clock += seconds(rng.between(25, 70));
        NightPhoto p;
        p.spec.world_seed = seed;
        p.spec.individual = caught.animal;
        p.spec.capture = take++;
        p.spec.subject = caught.subject;
        if (newt)
          p.spec.years =
              static_cast<double>((sys_days(night.began) - first_caught.at(caught.animal)).count()) / 365.25;
        p.spec.conditions = conditions_of(floor, light, rng);
        // A camera is turned now and then, a telephone is mostly held upright.
        const bool portrait = rng.chance(night.phone ? 0.7 : 0.2);
        p.spec.size = portrait ? cv::Size(size.height, size.width) : size;
        p.orientation = portrait ? (rng.chance(0.7) ? 6 : 8) : rng.chance(0.12) ? 3 : 1;
        p.jpeg_quality = 88;
        p.taken_at = iso(clock);
        int& number = camera_number[night.phone];
        number += rng.between(1, 3);
        p.photo = file_name(night, p.taken_at, number);
        fill_sheet(p, night);
        p.capture = without(date.substr(2), "-") + "-" + text("%02.0f", in_night);
        if (night.traps) p.trap = "T" + std::to_string(trap);
        if (newt && caught.subject == Subject::belly)
          measure(p, seed, caught.animal, p.spec.years, night.began.month() == std::chrono::April, facts);
        p.notes = shot > 0 ? "second photo" : caught.note;
        photos.push_back(std::move(p));
      }
    }
    camera_number[false] += rng.between(40, 300);
  }
  return scenario;
}

}  // namespace evet::render
