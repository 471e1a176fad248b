// Words inside a PDF, in one of the fonts that every reader of PDF has.
#pragma once
#include <optional>
#include <string>

namespace evet {

// UTF-8 as a PDF string in WinAnsiEncoding, without the brackets round it: brackets and backslashes escaped, letters
// beyond ASCII as octal (ISO 32000-1, 7.3.4.2). Nothing where a character is not in ISO 8859-1: no such font
// writes it.
std::optional<std::string> pdf_text(const std::string& utf8);

}  // namespace evet
