#include "tools/evet/report/sections.h"

namespace evet::report {

std::string style_sheet() {
  return R"(
:root { --paper: #faf8f3; --sheet: #ffffff; --ink: #22302c; --soft: #5a6862; --line: #ddd8cb; --again: #1f6a5c;
  --new: #a4510f; --look: #6a4a86; --unusable: #6b6b66; --warn: #fdf3dd; --tie: #0b4f8a; color-scheme: light dark; }
@media screen and (prefers-color-scheme: dark) {
  :root { --paper: #141a18; --sheet: #1d2522; --ink: #e6ebe6; --soft: #a5b1aa; --line: #36413c; --again: #74c9b4;
    --new: #eaa25f; --look: #c3a4de; --unusable: #b1b1a9; --warn: #3a3119; --tie: #8cc4f5; } }
* { box-sizing: border-box; }
html { font: 16px/1.5 system-ui, "Segoe UI", Roboto, "Noto Sans", "DejaVu Sans", sans-serif; }
body { margin: 0; background: var(--paper); color: var(--ink); }
header, main, footer { max-width: 70rem; margin: 0 auto; padding: 0 1.5rem; }
h1, h2, h3 { font-family: ui-serif, Georgia, "Noto Serif", "DejaVu Serif", serif; line-height: 1.2; font-weight: 600; }
)";
}

}  // namespace evet::report
