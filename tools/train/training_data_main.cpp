// Renders training shards, one after the other, until it has made as many as asked for or is stopped.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <iostream>
#include <opencv2/core.hpp>
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/error.h"
#include "tools/render/photo_truth.h"
#include "tools/train/found_strip.h"
#include "tools/train/map_shard.h"
#include "tools/train/messages.h"
#include "tools/train/pair_shard.h"
#include "tools/train/strip_shard.h"
#include "tools/train/training_shard.h"

namespace {

std::filesystem::path shard_path(const std::filesystem::path& folder, std::uint32_t number, bool tuning) {
  char name[32];
  std::snprintf(name, sizeof name, "%s-%06u.shard", tuning ? "tune" : "fit", number);
  return folder / name;
}

// Only this way to draw, where one is asked for: to leave the other out.
using Drawing = std::optional<evet::render::World>;

void make_belly_shard(const std::filesystem::path& path, std::uint32_t number, bool tuning,
                      std::uint32_t samples, const Drawing& drawing) {
  std::vector<evet::train::Sample> shard;
  for (std::uint32_t index = 0; index < samples; ++index) {
    evet::train::Draw drawn = evet::train::draw(number, index, tuning);
    if (drawing) drawn.spec.world = *drawing;
    shard.push_back(evet::train::pack(drawn, evet::render::render(drawn.spec)));
  }
  evet::train::write_shard(path, shard);
}

void make_strip_shard(const std::filesystem::path& path, std::uint32_t number, bool tuning,
                      std::uint32_t samples, const Drawing& drawing) {
  std::vector<evet::train::StripSample> shard;
  for (std::uint32_t index = 0; index < samples / 2; ++index) {
    const auto [first, second] = evet::train::draw_pair(number, index, tuning);
    for (evet::render::CaptureSpec spec : {first, second}) {
      if (drawing) spec.world = *drawing;
      const evet::render::RenderedPhoto photo = evet::render::render(spec);
      auto found = evet::train::cut_as_found(spec, photo);
      shard.push_back(found ? std::move(*found) : evet::train::cut(spec, photo));
    }
  }
  evet::train::write_strip_shard(path, shard);
}

// Pairs of the spot maps in every `step`-th file of `maps`, some queries to a shard.
void make_pair_shards(const std::filesystem::path& folder, const std::filesystem::path& maps,
                      std::uint32_t first, std::uint32_t step, std::uint32_t samples) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(maps))
    if (entry.path().extension() == ".maps") files.push_back(entry.path());
  if (files.empty())
    throw evet::Error(evet::ErrorKind::bad_input, maps.string(), evet::messages::kHoldsNoSpotMaps,
                      evet::messages::kGiveFolderSpotMapsPy);
  std::sort(files.begin(), files.end());
  evet::train::FitOptions options;
  options.photos = 1;
  for (std::size_t i = first; i < files.size(); i += step) {
    const auto patterns = evet::train::read_map_shard(files[i]);
    std::vector<evet::train::ComparedPair> pairs;
    std::uint32_t written = 0;
    const auto write = [&] {
      const std::string name = files[i].stem().string() + "-" + std::to_string(written++) + ".shard";
      evet::train::write_pair_shard(patterns, pairs, folder / name);
      pairs.clear();
    };
    for (std::size_t query = 0; query < patterns.size(); ++query) {
      for (const auto& pair : evet::train::compare_query(patterns, query, options)) pairs.push_back(pair);
      if (pairs.size() >= samples) write();
    }
    if (!pairs.empty()) write();
  }
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{
      "Renders shards of training photographs with their truth (layouts: tools/train/training_shard.h, "
      "strip_shard.h and pair_shard.h).\n"
      "Example: evet-training-data shards --first 0 --step 16 --count 2 --samples 128"};
  std::filesystem::path folder, maps;
  std::uint32_t first = 0, step = 1, count = 1, samples = 32, first_tuning = 0, tuning = 0;
  app.add_option("folder", folder, "where the shards go; made if it is not there")->required();
  std::string kind = "belly";
  app.add_option("--kind", kind,
                 "belly: whole photographs; strip: straightened bellies; pair: compared spot maps")
      ->check(CLI::IsMember({"belly", "strip", "pair"}));
  std::string world = "both";
  app.add_option("--world-kind", world, "belly and strip: the ways to draw")
      ->check(CLI::IsMember({"both", "drawn", "solid"}));
  app.add_option("--maps", maps,
                 "pair: folder of spot maps (spot_maps.py), each --step-th file of which is used")
      ->check(CLI::ExistingDirectory);
  app.add_option("--first", first, "number of the first shard");
  app.add_option("--step", step, "from one shard's number to the next")->check(CLI::PositiveNumber);
  app.add_option("--count", count, "how many training shards");
  app.add_option("--tuning", tuning, "how many tuning shards, made in turn with the first training shards");
  app.add_option("--first-tuning", first_tuning, "number of the first tuning shard");
  app.add_option("--samples", samples, "photographs, or at least so many pairs, in a shard")
      ->check(CLI::PositiveNumber);
  CLI11_PARSE(app, argc, argv);
  if (kind == "pair" && maps.empty()) {
    std::cerr << "evet-training-data: --kind pair needs --maps, a folder that spot_maps.py wrote\n";
    return 2;
  }

  cv::setNumThreads(1);  // one process a core does better than many threads in each
  try {
    std::filesystem::create_directories(folder);
    if (kind == "pair") {
      make_pair_shards(folder, maps, first, step, samples);
      return 0;
    }
    const auto make = kind == "belly" ? make_belly_shard : make_strip_shard;
    const Drawing drawing = world == "both" ? Drawing() : evet::render::world_named(world);
    for (std::uint32_t i = 0; i < std::max(count, tuning); ++i) {
      const std::uint32_t number = first + step * i, tuning_number = first_tuning + step * i;
      if (i < count) make(shard_path(folder, number, false), number, false, samples, drawing);
      if (i < tuning) make(shard_path(folder, tuning_number, true), tuning_number, true, samples, drawing);
    }
  } catch (const std::exception& error) {
    std::cerr << "evet-training-data: " << error.what() << '\n';
    return 4;
  }
}
