// Rendered photographs of large newts' bellies with their truth: for tests, fits, scores and the demo.
//
// Everything follows from seeds: the same arguments give the same bytes on every machine. Individuals and
// captures are independent streams, so any individual 0 .. 10^6 can be drawn without the others.
#pragma once
#include <cstdint>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "tools/render/spec.h"

namespace evet::render {

// Names that Conditions may list.
std::vector<std::string> mechanisms(World world = World::drawn);
std::vector<std::string> backgrounds(World world = World::drawn);
std::vector<std::string> lights(World world = World::drawn);
std::vector<std::string> foreign_mechanisms();
std::vector<std::string> foreign_backgrounds();
std::vector<std::string> foreign_lights();

// Subjects other than belly and blurred have an empty belly, clear and dark; a blurred belly has nothing
// clear. Throws std::invalid_argument where the conditions are not of the world.
RenderedPhoto render(const CaptureSpec& spec);

// Years from one capture to the next under a difficulty: a season, to 1.2 years, to 3 years.
double draw_years_between(Difficulty difficulty, std::uint64_t seed);

// The true pattern of an individual at an age, straight from its skin: rows = u (throat
// fold first), cols = v.
cv::Mat1b skin_pattern(std::uint64_t world_seed, std::uint32_t individual, double years, cv::Size canvas,
                       const Conditions& conditions = {}, World world = World::drawn);

// As a camera would have written it: JPEG of the given quality, stored turned as `orientation` (1..8) says,
// with Exif orientation and time ("2031-05-14T22:41:07").
std::vector<unsigned char> to_camera_jpeg(const cv::Mat3b& upright, int quality, int orientation,
                                          const std::string& taken_at);

}  // namespace evet::render
