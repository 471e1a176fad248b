// Any bytes at all as a night sheet: no crash, and no row both taken and unreadable.
#include <cassert>
#include <cstdint>
#include <string_view>

#include "tools/intake/read_sheet.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const evet::Sheet sheet = evet::read_sheet(text, {.today = std::chrono::year(2026) / 6 / 1});
  if (!sheet.readable()) assert(sheet.rows.empty());
  std::size_t in_captures = 0;
  for (const evet::SheetCapture& capture : sheet.captures) in_captures += capture.rows.size();
  assert(in_captures == sheet.rows.size());
  for (const evet::SheetProblem& problem : sheet.problems) assert(!problem.sentence().empty());
  return 0;
}
