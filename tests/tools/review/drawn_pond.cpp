#include "tests/tools/review/drawn_pond.h"

#include <map>
#include <opencv2/imgproc.hpp>

#include "matcher/catalogue/photo_work.h"
#include "matcher/photo/encode.h"
#include "tests/matcher/search/synthetic_maps.h"

namespace evet::try_out {
namespace {

constexpr int kNightsASeason = 12;

struct Drawing {
  Pattern pattern;
  Bytes strip;
};

// `animal`'s belly as it was photographed the `nth` time: a little shifted, bent and covered.
Drawing drawing(int animal, int nth) {
  const auto seed = static_cast<unsigned>(animal * 101 + nth);
  const Placement placement{.u_shift = 0.01 * (nth % 3 - 1), .v_shift = 0.05 * (nth % 2)};
  SpotMap map =
      synthetic::warped(synthetic::spotted(static_cast<unsigned>(animal) + 1), placement, 0.004, seed);
  if (nth % 2 == 1) map = synthetic::covered(map, {0, 40 + 7 * (animal % 9), 18, 50});
  cv::Mat3b strip(kMapRows, kMapCols);
  for (int r = 0; r < kMapRows; ++r)
    for (int c = 0; c < kMapCols; ++c) {
      const double dark = map.dark(r, c) / 255.0;
      strip(r, c) = map.valid(r, c) != 0 ? cv::Vec3b(cv::saturate_cast<uchar>(60 - 30 * dark),
                                                     cv::saturate_cast<uchar>(150 - 110 * dark),
                                                     cv::saturate_cast<uchar>(235 - 190 * dark))
                                         : cv::Vec3b(160, 170, 175);
    }
  cv::resize(strip, strip, {kStripCols, kStripRows}, 0, 0, cv::INTER_CUBIC);
  return {pattern_of(map, 0.9999), encode_jpeg(strip, 88)};
}

// A small photo that no other has: the strip lies in it, and its number is written in the corner's pixels.
Bytes photo_bytes(const Bytes& strip, std::uint32_t number) {
  // What follows the end of a JPEG belongs to the file and to its hash, and to no picture.
  Bytes bytes = strip;
  for (int i = 0; i < 4; ++i) bytes.push_back(static_cast<std::byte>(number >> (8 * i)));
  return bytes;
}

class Drawer {
 public:
  Drawer(Catalogue& catalogue, const PondPlan& plan)
      : catalogue_(catalogue), plan_(plan), maker_(maker_of({})) {}

  CaptureId add(int animal, int nth, const std::string& night, bool usable, std::vector<Body>& bodies) {
    const int kind = animal % plan_.patterns;
    auto& drawn = drawings_[{kind, nth}];
    if (!drawn) drawn = drawing(kind, nth);
    const PhotoId photo = catalogue_.store_photo(photo_bytes(drawn->strip, ++photos_));
    CaptureFacts facts;
    facts.site = "Alder Fen", facts.pond = animal % 2 == 0 ? "north" : "south", facts.night = night;
    facts.name = "c" + std::to_string(++captures_), facts.trap = "T" + std::to_string(animal % 7);
    facts.sex = animal % 2 == 0 ? Sex::female : Sex::male, facts.stage = "adult";
    facts.svl_mm = 60.0 + animal % 15 + nth, facts.observer = "OB1", facts.licence = "L-7";
    if (plan_.labels_on_sheet && nth < plan_.captures_each) facts.individual = "A-" + std::to_string(animal);
    const CaptureId id = catalogue_.new_capture_id();
    PhotoTaken taken{.photo = photo, .capture = id, .name = facts.name + ".jpg", .bytes = 1};
    taken.header.width_px = kStripCols, taken.header.height_px = kStripRows;
    taken.examination.usable = usable, taken.examination.maker = maker_;
    if (usable) {
      catalogue_.cache().keep_pattern(photo, maker_, drawn->pattern);
      catalogue_.cache().keep_strip(photo, maker_, drawn->strip);
    } else {
      taken.examination.notes.push_back({"no_belly", "No belly found: photograph the belly again.", true});
    }
    bodies.push_back(Capture{id, facts});
    bodies.push_back(taken);
    return id;
  }

 private:
  Catalogue& catalogue_;
  const PondPlan& plan_;
  const std::string maker_;
  std::map<std::pair<int, int>, std::optional<Drawing>> drawings_;
  std::uint32_t photos_ = 0;
  int captures_ = 0;
};

std::string date(int year, int month, int day) {
  return cv::format("%04d-%02d-%02d", year, month, day);
}

}  // namespace

DrawnPond draw_pond(const std::filesystem::path& folder, const PondPlan& plan) {
  const Actor observer{ActorKind::person, "OB1"};
  Catalogue catalogue = Catalogue::create(folder, "Alder Fen", observer, system_env());
  Drawer drawer(catalogue, plan);
  DrawnPond pond;
  pond.captures.resize(static_cast<std::size_t>(plan.animals));
  for (int nth = 0; nth < plan.captures_each; ++nth) {
    std::vector<Body> bodies;
    for (int animal = 0; animal < plan.animals; ++animal) {
      const std::string night = date(2025 + nth, 4, 1 + 2 * (animal % kNightsASeason));
      auto& own = pond.captures[static_cast<std::size_t>(animal)];
      own.push_back(drawer.add(animal, nth, night, true, bodies));
      if (plan.labels_on_sheet) continue;
      Verdict verdict{.capture = own.back(), .answer = Answer::new_individual, .reason = "first of its kind"};
      if (nth > 0)
        verdict.answer = Answer::same, verdict.other = own[own.size() - 2], verdict.reason = "chin row";
      bodies.push_back(verdict);
    }
    if (!bodies.empty()) catalogue.append(observer, bodies);
  }
  pond.last_night = date(2031, 5, 14);
  std::vector<Body> bodies;
  for (int i = 0; i < plan.again; ++i)
    pond.again.push_back(drawer.add(i, plan.captures_each, pond.last_night, true, bodies));
  for (int i = 0; i < plan.fresh; ++i)
    pond.fresh.push_back(drawer.add(plan.animals + 50000 + i, 0, pond.last_night, true, bodies));
  for (int i = 0; i < plan.fresh_twice; ++i)
    pond.twice.push_back(drawer.add(plan.animals + 50000 + i, 2, pond.last_night, true, bodies));
  for (int i = 0; i < plan.fresh_later; ++i)
    pond.later.push_back(drawer.add(plan.animals + 50000 + i, 2, date(2031, 5, 17), true, bodies));
  for (int i = 0; i < plan.unusable; ++i)
    pond.unusable.push_back(drawer.add(plan.animals + 60000 + i, 0, pond.last_night, false, bodies));
  if (!bodies.empty()) catalogue.append(observer, bodies);
  return pond;
}

}  // namespace evet::try_out
