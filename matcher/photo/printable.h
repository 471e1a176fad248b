// Names from outside, made safe to print on one line.
#pragma once
#include <string>
#include <string_view>

namespace evet {

// Valid UTF-8 passes unchanged, umlauts and all; control characters (line ends, terminal escapes,
// bidirectional overrides) and bytes that are not UTF-8 become \n, \t, \r, \xNN or \u{NNNN}.
std::string printable(std::string_view text);

}  // namespace evet
