// A set of photos with known identities on disk: a night sheet with its photos, as `evet intake` takes them,
// and a truth beside it.
//
//   FOLDER/set.json      the options; written first
//   FOLDER/photos/       A0007-2.jpg: individual 7, capture 2; X0003.jpg: not a large newt's belly
//   FOLDER/truth/        one JSON a photo (photo_truth.h), written when the photo is whole; with
//                        `coordinates` also the raw files beside it
//   FOLDER/sheet.csv     written last: a folder with a sheet is whole
//
// The same options in the same folder go on where they stopped.
#pragma once
#include <filesystem>
#include <vector>

#include "tools/render/night.h"

namespace evet::render {

struct PhotoSetOptions {
  std::uint64_t world_seed = 200;  // fit 1..99, tune 100..199, score 200 and up
  std::uint32_t first_individual = 0;
  int individuals = 100, captures = 3;
  int others = 0;  // backs, empty trays, leaves and small newts in turn
  cv::Size size{1600, 1200};
  Conditions conditions;
  World world = World::drawn;
  bool known = false;        // write the individuals' names on the sheet
  bool coordinates = false;  // write body coordinates and masks
  int threads = 1;
  void check() const;  // throws std::invalid_argument
};

// All photos of the set, individual by individual, the others last.
std::vector<NightPhoto> plan_photo_set(const PhotoSetOptions& options);

// Returns how many photos were rendered this time. Throws std::invalid_argument when the folder holds a set
// made with other options.
int write_photo_set(const std::filesystem::path& folder, const PhotoSetOptions& options);

}  // namespace evet::render
