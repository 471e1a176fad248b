// Text for a terminal: paragraphs and tables of plain signs.
#pragma once
#include <string>
#include <vector>

namespace evet::models {

// Broken between words, `first` before the first line and `later` before the others; ends in a newline.
std::string wrapped(const std::string& text, std::size_t width, const std::string& first,
                    const std::string& later);
// Columns set out by their widest cell, the first `left_columns` to the left, figures to the right.
std::string columns(const std::vector<std::vector<std::string>>& rows, std::size_t left_columns);

}  // namespace evet::models
