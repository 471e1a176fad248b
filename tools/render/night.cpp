#include "tools/render/night.h"

#include <cstdio>
#include <fstream>
#include <stdexcept>

#include "tools/render/on_threads.h"
#include "tools/render/photo_truth.h"

namespace evet::render {

namespace {

std::string csv_field(const std::string& text) {
  if (text.find_first_of(",;\"\r\n") == std::string::npos) return text;
  std::string quoted;
  quoted.push_back('"');
  for (const char c : text) {
    if (c == '"') quoted.push_back('"');
    quoted.push_back(c);
  }
  quoted.push_back('"');
  return quoted;
}

template <class Bytes>
void write_file(const std::filesystem::path& path, const Bytes& bytes) {
  std::ofstream file(path, std::ios::binary);
  file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  file.close();
  if (!file) throw std::runtime_error("cannot write " + path.string());
}

std::string numbered(const char* form, int number) {
  char text[64];
  std::snprintf(text, sizeof text, form, number);
  return text;
}

}  // namespace

std::string night_sheet(const std::vector<NightPhoto>& photos) {
  std::string text =
      "photo,site,pond,night,trap,capture,sex,stage,svl_mm,total_mm,mass_g,observer,licence,latitude,"
      "longitude,individual,notes\n";
  for (const NightPhoto& p : photos) {
    for (const std::string* field :
         {&p.photo, &p.site, &p.pond, &p.night, &p.trap, &p.capture, &p.sex, &p.stage, &p.svl_mm, &p.total_mm,
          &p.mass_g, &p.observer, &p.licence, &p.latitude, &p.longitude, &p.individual, &p.notes}) {
      if (field != &p.photo) text.push_back(',');
      text.append(csv_field(*field));
    }
    text.push_back('\n');
  }
  return text;
}

nlohmann::ordered_json write_night_photo(const std::filesystem::path& folder, const NightPhoto& p,
                                         const std::filesystem::path& coordinates) {
  const RenderedPhoto rendered = render(p.spec);
  const std::filesystem::path path = folder / "photos" / p.photo;
  std::filesystem::create_directories(path.parent_path());
  write_file(path, to_camera_jpeg(rendered.bgr, p.jpeg_quality, p.orientation, p.taken_at));
  if (!coordinates.empty()) write_body_coordinates(coordinates, rendered.truth);
  nlohmann::ordered_json truth = {{"photo", p.photo}, {"night", p.night}, {"capture", p.capture}};
  truth.update(truth_json(p.spec, rendered.truth));
  return truth;
}

nlohmann::ordered_json write_night(const std::filesystem::path& folder, const std::vector<NightPhoto>& photos,
                                   int threads) {
  std::filesystem::create_directories(folder / "photos");
  std::vector<nlohmann::ordered_json> truths(photos.size());
  on_threads(photos.size(), threads,
             [&](std::size_t i) { truths[i] = write_night_photo(folder, photos[i]); });
  // The sheet last: a folder with a sheet is whole.
  write_file(folder / "sheet.csv", night_sheet(photos));
  return truths;
}

std::vector<NightPhoto> small_night(const SmallNightOptions& options) {
  std::vector<NightPhoto> photos;
  for (const std::uint32_t individual : options.individuals) {
    const int n = static_cast<int>(photos.size()) + 1;
    NightPhoto p;
    p.photo = numbered("IMG_%04d.JPG", n);
    p.spec.world_seed = options.world_seed;
    p.spec.individual = individual;
    p.spec.capture = options.capture;
    p.spec.years = options.years;
    p.spec.size = options.size;
    p.spec.conditions.difficulty = options.difficulty;
    p.taken_at = options.night + numbered("T22:%02d:00", n % 60);
    p.site = options.site;
    p.pond = options.pond;
    p.night = options.night;
    p.capture = numbered("C%d", n);
    p.observer = options.observer;
    p.licence = options.licence;
    photos.push_back(std::move(p));
  }
  return photos;
}

}  // namespace evet::render
