#include "tools/render/photo_set.h"

#include <array>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <stdexcept>

#include "tools/render/on_threads.h"
#include "tools/render/photo_truth.h"
#include "tools/render/rng.h"

namespace evet::render {

namespace {

constexpr std::array kOthers = {Subject::back, Subject::empty_tray, Subject::small_newt, Subject::leaf};

nlohmann::ordered_json description(const PhotoSetOptions& o) {
  const Conditions& c = o.conditions;
  nlohmann::ordered_json about = {
      {"format", 1},
      {"world_seed", o.world_seed},
      {"first_individual", o.first_individual},
      {"individuals", o.individuals},
      {"captures", o.captures},
      {"others", o.others},
      {"width_px", o.size.width},
      {"height_px", o.size.height},
      {"difficulty", c.wild ? "wild" : name_of(c.difficulty)},
      {"known", o.known},
      {"coordinates", o.coordinates},
      {"only",
       {{"mechanisms", c.only_mechanisms}, {"backgrounds", c.only_backgrounds}, {"lights", c.only_lights}}},
      {"without",
       {{"mechanisms", c.without_mechanisms},
        {"backgrounds", c.without_backgrounds},
        {"lights", c.without_lights}}}};
  // Only where it is so: sets begun before there were foreign conditions go on.
  if (c.foreign) about["foreign"] = true;
  if (o.world != World::drawn) about["world_kind"] = name_of(o.world);
  return about;
}

std::string read_text(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}
// Whole or not at all.
void write_text(const std::filesystem::path& path, const std::string& text) {
  const std::filesystem::path part = path.string() + ".part";
  {
    std::ofstream file(part, std::ios::binary);
    file << text;
    file.close();
    if (!file) throw std::runtime_error("cannot write " + path.string());
  }
  std::filesystem::rename(part, path);
}

// "A0012" for 'A' and 12.
std::string named(char first, std::uint64_t number) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%c%04llu", first, static_cast<unsigned long long>(number));
  return text.data();
}

// Nights run from 15 April 2016 on.
std::string night_after(double years) {
  using namespace std::chrono;
  const sys_days night = sys_days(year(2016) / April / 15) + days(std::lround(years * 365.25));
  const year_month_day date(night);
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return text.data();
}

NightPhoto plan_photo(const PhotoSetOptions& o, const std::string& stem, double years) {
  NightPhoto p;
  p.photo = stem + ".jpg";
  p.spec.world_seed = o.world_seed;
  p.spec.size = o.size;
  p.spec.conditions = o.conditions;
  p.spec.world = o.world;
  p.spec.years = years;
  p.site = "Rendered set";
  p.pond = "World " + std::to_string(o.world_seed);
  p.night = night_after(years);
  p.taken_at = p.night + "T22:00:00";
  p.capture = stem;
  p.licence = "RENDERED";
  return p;
}

// Captures spread over the time that the difficulty allows between the first and the last.
double years_of(const PhotoSetOptions& o, std::uint32_t individual, int capture) {
  if (capture == 0) return 0;
  const Rng rng(mix64(mix64(o.world_seed, 0x5e7), individual));
  const double span = draw_years_between(o.conditions.difficulty, mix64(o.world_seed, individual));
  return span * (capture - 0.4 * rng.fork(static_cast<std::uint64_t>(capture)).uniform()) /
         std::max(1, o.captures - 1);
}

}  // namespace

void PhotoSetOptions::check() const {
  conditions.check();
  if (individuals < 0 || captures < 1 || others < 0 || individuals + others == 0)
    throw std::invalid_argument("a set has at least one individual or other photo, and one capture each");
  if (captures > 1000) throw std::invalid_argument("captures is at most 1000");
  if (size.width < 64 || size.height < 64 || size.width > 8000 || size.height > 8000)
    throw std::invalid_argument("a photo is 64 to 8000 px wide and high");
  if (threads < 1 || threads > 256) throw std::invalid_argument("threads is 1 to 256");
}

std::vector<NightPhoto> plan_photo_set(const PhotoSetOptions& o) {
  o.check();
  std::vector<NightPhoto> photos;
  for (int i = 0; i < o.individuals; ++i)
    for (int k = 0; k < o.captures; ++k) {
      const std::uint32_t individual = o.first_individual + static_cast<std::uint32_t>(i);
      const std::string name = named('A', individual);
      NightPhoto p = plan_photo(o, name + "-" + std::to_string(k), years_of(o, individual, k));
      p.spec.individual = individual;
      p.spec.capture = static_cast<std::uint32_t>(k);
      if (o.known) p.individual = name;
      photos.push_back(std::move(p));
    }
  for (int i = 0; i < o.others; ++i) {
    NightPhoto p = plan_photo(o, named('X', static_cast<std::uint64_t>(i)), 0);
    p.spec.individual = o.first_individual + static_cast<std::uint32_t>(i);
    p.spec.capture = 1000;  // beyond any capture of the animals
    p.spec.subject = kOthers[static_cast<std::size_t>(i) % kOthers.size()];
    photos.push_back(std::move(p));
  }
  return photos;
}

int write_photo_set(const std::filesystem::path& folder, const PhotoSetOptions& options) {
  const std::vector<NightPhoto> photos = plan_photo_set(options);
  std::filesystem::create_directories(folder / "truth");
  const std::string described = description(options).dump(1) + "\n";
  const std::filesystem::path about = folder / "set.json";
  if (!std::filesystem::exists(about))
    write_text(about, described);
  else if (read_text(about) != described)
    throw std::invalid_argument(folder.string() + " holds a set made with other options; use another folder");

  std::atomic<int> rendered{0};
  on_threads(photos.size(), options.threads, [&](std::size_t i) {
    const NightPhoto& p = photos[i];
    const std::filesystem::path stem = folder / "truth" / p.capture, done = stem.string() + ".json";
    if (std::filesystem::exists(done)) return;
    const auto truth = write_night_photo(folder, p, options.coordinates ? stem : std::filesystem::path());
    write_text(done, truth.dump() + "\n");
    ++rendered;
  });
  write_text(folder / "sheet.csv", night_sheet(photos));
  return rendered;
}

}  // namespace evet::render
