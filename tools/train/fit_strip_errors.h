// Learns models/weights/strip_errors.json: how the coordinates of found strips are wrong,
// from rendered photos.
//
// Everywhere on a found strip the photo's truth says which skin is really there; the difference, at the nodes
// of the alignment's grid, is one example. Their largest principal directions are kept.
#pragma once
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "matcher/search/strip_errors.h"
#include "tools/render/scene.h"

namespace evet::train {

// True (u, v) of the skin at (u, v) of a strip; none where it is not seen.
using TrueAt = std::function<std::optional<cv::Point2d>(double u, double v)>;

// (du, dv) at each node: least squares over a grid of places, held smooth where nothing is seen. None when
// less than a quarter of the strip is seen.
std::optional<std::vector<double>> errors_at_nodes(const TrueAt& true_at);

// `examples`: 2 kNodes numbers each. Errors: bad_input for fewer than two.
StripErrors fit_strip_errors(const std::vector<std::vector<double>>& examples, int modes, double rest);

// One example of each photo of 0 .. individuals - 1, `captures` of each, that gives a usable strip; in their
// order, whatever the number of threads.
std::vector<std::vector<double>> rendered_examples(std::uint64_t world, render::Difficulty difficulty,
                                                   std::uint32_t individuals, std::uint32_t captures,
                                                   int threads = 2,
                                                   render::World drawing = render::World::drawn);

}  // namespace evet::train
