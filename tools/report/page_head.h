// How every page that evet writes begins: nothing may be fetched and no script may run, even if some text
// slipped through unescaped.
#pragma once
#include <string>
#include <string_view>

namespace evet::report {

// From the doctype to <body>, with the style sheet of all pages and `more_style` after it. `title` is plain
// text: it is escaped here.
std::string page_head(std::string_view program, std::string_view title, std::string_view more_style = {});

// A style that prints `what` (plain text) and "page 2 of 7" at the foot of every page.
std::string page_numbers(std::string_view what);

}  // namespace evet::report
