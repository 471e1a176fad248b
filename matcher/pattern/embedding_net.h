// The network that puts a spot map into 128 numbers, alike for maps of one animal. In, on the map's frame:
// probability dark - 0.5, 0 where unknown; 1 where known. Trained as tools/train/README.md says;
// models/weights/spots.md tells what it is worth.
#pragma once
#include <cstddef>
#include <opencv2/core.hpp>
#include <span>
#include <vector>

namespace evet {

// Not of unit length. Error: unsupported, for planes of another number or size.
std::vector<float> raw_embedding(const std::vector<cv::Mat1f>& planes);

std::span<const std::byte> embedding_weights();  // as they lie in the library

}  // namespace evet
