// The order in which patterns lie side by side so that like ones are neighbours.
#pragma once
#include <cstddef>
#include <vector>

namespace evet {

// `descriptors` are of unit length and equally long; one that is empty goes to the end. Average-linkage clusters of
// cosine distances, found by chains of nearest neighbours (Murtagh 1983, The Computer Journal 26: 354-359), each two
// laid end to end the way round that brings the likest ends together. Time and memory grow with the square of the
// number. The same input, the same order.
std::vector<std::size_t> order_by_likeness(const std::vector<std::vector<float>>& descriptors);

}  // namespace evet
