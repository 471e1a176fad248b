#include "tools/report/page_head.h"

#include "fmt/format.h"
#include "tools/report/html.h"
#include "tools/report/sections.h"

namespace evet::report {

std::string page_head(std::string_view program, std::string_view title, std::string_view more_style) {
  return fmt::format(
      R"(<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="{}">
<title>{}</title>
<style>
{}{}</style>
</head>
<body>
)",
      escaped(program), escaped(title), style_sheet(), more_style);
}

}  // namespace evet::report
