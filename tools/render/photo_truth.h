// The truth of a rendered photograph as files: JSON for what fits in words, a raw file for what is per pixel.
#pragma once
#include <filesystem>
#include <nlohmann/json.hpp>

#include "tools/render/scene.h"

namespace evet::render {

std::string name_of(Subject subject);
std::string name_of(Difficulty difficulty);
// Throw std::invalid_argument, naming the known ones.
Subject subject_named(const std::string& name);
Difficulty difficulty_named(const std::string& name);
std::string name_of(World world);
World world_named(const std::string& name);

// Identity, geometry and circumstances; `take` is the renderer's number of the capture. Points are
// pixels of the upright picture, rounded to 0.1. `midline` and `outline` (of the belly's largest part
// that lies in the frame) are empty where no belly shows; `individual` is null where the picture shows
// none of the world's animals.
nlohmann::ordered_json truth_json(const CaptureSpec& spec, const Truth& truth);

// Per pixel of the upright picture, rows from the top, little endian, no header: float32 u, float32 v (NaN
// off the trunk) to `stem`.uv, and one byte to `stem`.mask: 1 animal + 2 belly + 4 clear + 8 dark.
void write_body_coordinates(const std::filesystem::path& stem, const Truth& truth);

}  // namespace evet::render
