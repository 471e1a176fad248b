// What a night sheet must be before it is a table: text in UTF-8, its columns parted by ',', ';' or tabs.
#pragma once
#include <cstddef>
#include <string_view>
#include <variant>

#include "tools/intake/sheet.h"

namespace evet {

struct SheetText {
  std::string_view text;  // of the file, without a byte order mark
  char separator = ',';   // ';' or a tab, whichever the header uses more, outside quotes
};

// Or why these bytes are no sheet.
std::variant<SheetText, SheetProblem> sheet_text(std::string_view file, std::size_t max_bytes);

}  // namespace evet
