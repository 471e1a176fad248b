// Text that is safe inside HTML and XML.
#pragma once
#include <string>
#include <string_view>

namespace evet {

// Text for element content and for quoted attributes: & < > " and apostrophe are replaced; control characters
// and bytes that are not UTF-8 are written out (matcher/base/printable.h).
std::string escaped(std::string_view text);

}  // namespace evet
