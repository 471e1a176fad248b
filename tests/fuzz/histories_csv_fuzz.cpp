// Any bytes as a CSV of capture histories: an InputError, or histories that, written, are read as they were.
// And any text as one field of a CSV: read back it is itself, but for the apostrophe that keeps a spreadsheet
// from taking it for a formula.
#include <cstdint>
#include <cstdlib>
#include <sstream>
#include <string>

#include "matcher/base/csv.h"
#include "models/base/input_error.h"
#include "models/histories_csv.h"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

std::string written(const evet::models::CaptureHistories& histories) {
  std::ostringstream out;
  evet::models::write_histories_csv(histories, out);
  return out.str();
}

void field(std::string text) {
  // Blanks around a field are its writer's to quote; a null byte ends no text of ours.
  if (text.find('\0') != std::string::npos) return;
  const evet::CsvReading read = evet::read_csv(evet::csv_field(text) + ",end\r\n", ',');
  require(!read.problem && read.records.size() == 1 && read.records[0].fields.size() == 2);
  const std::string& back = read.records[0].fields[0];
  require(back == text || back == "'" + text);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 1) return 0;
  const std::string text(reinterpret_cast<const char*>(data + 1), size - 1);
  if (data[0] % 4 == 0) {
    field(text);
    return 0;
  }
  try {
    std::istringstream in(text);
    const auto histories = evet::models::read_histories_csv(in);
    histories.check();
    const std::string once = written(histories);
    std::istringstream again(once);
    require(written(evet::models::read_histories_csv(again)) == once);
  } catch (const evet::models::InputError&) {
  }
  return 0;
}
