// The network that sees spots. In: red, green and blue of a strip in [0, 1] on the frame of the spot map, 0.5
// where the strip shows nothing. Out: two planes of logits on the same frame, dark skin and skin plainly seen.
// Trained as tools/train/README.md says; models/weights/spots.md tells what it is worth.
#pragma once
#include <cstddef>
#include <opencv2/core.hpp>
#include <span>
#include <vector>

namespace evet {

// The one plane after the other, by rows. Error: unsupported, for planes of another number or size.
std::vector<float> spot_logits(const std::vector<cv::Mat1f>& planes);

std::span<const std::byte> spot_weights();  // as they lie in the library

}  // namespace evet
