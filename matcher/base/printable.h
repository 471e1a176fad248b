// Names from outside, made safe to print on one line.
#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace evet {

// Valid UTF-8 passes unchanged, umlauts and all; control characters (line ends, terminal escapes,
// bidirectional overrides) and bytes that are not UTF-8 become \n, \t, \r, \xNN or \u{NNNN}. Ends in "..."
// where what remains would go beyond `at_most` bytes.
std::string printable(std::string_view text, std::size_t at_most = std::string_view::npos);

}  // namespace evet
