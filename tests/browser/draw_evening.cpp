// Draws the photos of one evening as they lie on a card and a phone: JPEG from a camera, some HEIC, two photos of
// most animals, seconds apart, minutes between animals, and an empty tray. Prints what each shows as JSON.
// Usage: draw_evening FOLDER [--photos 40] [--width 4000] [--height 3000] [--heic 8] [--threads 1] [--enlarge 1]
// Of an invented pond; --heic: one of so many photos is one; 0: none.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <opencv2/imgproc.hpp>

#include "tests/matcher/photo/sample_files.h"
#include "tools/render/night.h"
#include "tools/render/on_threads.h"
#include "tools/render/scene.h"

namespace {

using namespace evet::render;

struct Evening {
  std::string folder;
  int photos = 40, heic_every = 8, threads = 1, enlarge = 1;
  cv::Size size{4000, 3000};
};

std::string time_of(int seconds_after_ten) {
  char text[32];
  const int minutes = seconds_after_ten / 60;
  std::snprintf(text, sizeof text, "2024-05-14T%02d:%02d:%02d", 22 + minutes / 60, minutes % 60,
                seconds_after_ten % 60);
  return text;
}

// Every fifth animal was photographed once; the last photo shows an empty tray.
std::vector<NightPhoto> plan(const Evening& evening) {
  std::vector<NightPhoto> out;
  int at_s = 0;
  for (std::uint32_t animal = 0; static_cast<int>(out.size()) < evening.photos; ++animal, at_s += 110)
    for (std::uint32_t shot = 0; shot < (animal % 5 == 4 ? 1U : 2U); ++shot, at_s += 9) {
      if (static_cast<int>(out.size()) == evening.photos) break;
      NightPhoto photo;
      char name[32];
      std::snprintf(name, sizeof name, "IMG_%04d.JPG", 2300 + static_cast<int>(out.size()));
      photo.photo = name;
      photo.spec.world_seed = 233, photo.spec.individual = animal, photo.spec.capture = shot;
      photo.spec.size = evening.size / evening.enlarge;
      photo.spec.conditions.difficulty = Difficulty::middle;
      photo.capture = "a" + std::to_string(animal);
      photo.taken_at = time_of(at_s);
      out.push_back(photo);
    }
  out.back().spec.subject = Subject::empty_tray;
  out.back().capture = "tray";
  out.back().taken_at = time_of(at_s + 300);
  return out;
}

template <class Bytes>
void write(const std::filesystem::path& path, const Bytes& bytes) {
  std::ofstream file(path, std::ios::binary);
  file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
}

cv::Mat3b picture(const NightPhoto& photo, const cv::Size& size) {
  cv::Mat3b bgr = render(photo.spec).bgr;
  if (bgr.size() != size) cv::resize(bgr, bgr, size, 0, 0, cv::INTER_CUBIC);
  return bgr;
}

std::vector<std::byte> heic_of(const NightPhoto& photo, const cv::Size& size) {
  std::string taken = photo.taken_at;
  taken[4] = taken[7] = ':', taken[10] = ' ';  // as Exif has it
  return evet::samples::heic(picture(photo, size), 1, evet::samples::exif_block({.taken_at = taken}));
}

}  // namespace

int main(int argc, char** argv) {
  Evening evening;
  CLI::App program("Draws the photos of one evening", "draw_evening");
  program.add_option("FOLDER", evening.folder)->required();
  program.add_option("--photos", evening.photos)->check(CLI::Range(2, 1000));
  program.add_option("--width", evening.size.width);
  program.add_option("--height", evening.size.height);
  program.add_option("--heic", evening.heic_every)->check(CLI::NonNegativeNumber);
  program.add_option("--threads", evening.threads);
  program.add_option("--enlarge", evening.enlarge, "Drawn so many times smaller, and enlarged: quicker")
      ->check(CLI::Range(1, 8));
  CLI11_PARSE(program, argc, argv);
  try {
    std::vector<NightPhoto> photos = plan(evening);
    nlohmann::json shown = nlohmann::json::array();
    std::filesystem::create_directories(evening.folder);
    std::vector<bool> is_heic(photos.size());
    for (std::size_t i = 0; i < photos.size(); ++i) {
      is_heic[i] = evening.heic_every > 0 && i % static_cast<std::size_t>(evening.heic_every) == 3;
      if (is_heic[i]) photos[i].photo.replace(photos[i].photo.find(".JPG"), 4, ".HEIC");
      shown.push_back({{"photo", photos[i].photo}, {"animal", photos[i].capture}});
    }
    on_threads(photos.size(), evening.threads, [&](std::size_t i) {
      const std::filesystem::path path = std::filesystem::path(evening.folder) / photos[i].photo;
      if (std::filesystem::exists(path)) return;
      if (is_heic[i])
        write(path, heic_of(photos[i], evening.size));
      else
        write(path, to_camera_jpeg(picture(photos[i], evening.size), 88, 1, photos[i].taken_at));
    });
    std::cout << shown.dump() << "\n";
  } catch (const std::exception& error) {
    std::cerr << "draw_evening: " << error.what() << "\n";
    return 3;
  }
  return 0;
}
