// Nights as a surveyor would hand them in: a folder with sheet.csv and photos/, as files on disk.
#pragma once
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tools/render/scene.h"

namespace evet::render {

// One row of a night sheet and the photograph it names. The text columns are as they will stand on the sheet;
// empty ones stay empty there.
struct NightPhoto {
  std::string photo;     // file name below photos/
  CaptureSpec spec;      // `size` is that of the upright picture
  std::string taken_at;  // local time for the Exif header, "2031-05-14T22:41:07"
  int orientation = 1;   // Exif
  int jpeg_quality = 85;
  std::string site, pond, night, trap, capture, sex, stage, svl_mm, total_mm, mass_g, observer, licence,
      latitude, longitude, individual, notes;
};

// The sheet's text: RFC 4180, line feeds, all columns in the order in which the program writes them.
std::string night_sheet(const std::vector<NightPhoto>& photos);

// Writes `folder`/photos/ and the photo in it; returns its truth: {"photo", "night", "capture", then
// truth_json()}. `coordinates`: also the raw files of photo_truth.h, under this stem.
nlohmann::ordered_json write_night_photo(const std::filesystem::path& folder, const NightPhoto& photo,
                                         const std::filesystem::path& coordinates = {});

// Writes `folder`/sheet.csv and `folder`/photos/, and returns the truths: an array with one for each row of
// the sheet. Photos that are there already are written again.
nlohmann::ordered_json write_night(const std::filesystem::path& folder, const std::vector<NightPhoto>& photos,
                                   int threads = 1);

// A small night for tests: one gently posed photo for each of `individuals`, in their order, captures named
// C1, C2, ...
struct SmallNightOptions {
  std::uint64_t world_seed = 200;
  std::vector<std::uint32_t> individuals = {0, 1, 2};
  std::string night = "2024-05-03", site = "Test site", pond = "Pond 1", observer = "KM",
              licence = "TEST-0000";
  std::uint32_t capture = 0;  // of each individual: give later nights later numbers
  double years = 0;           // since the individuals' first capture
  cv::Size size{800, 600};
  Difficulty difficulty = Difficulty::gentle;
};
std::vector<NightPhoto> small_night(const SmallNightOptions& options = {});

}  // namespace evet::render
