#include "tools/evet/pond_areas.h"

#include <charconv>
#include <cmath>

#include "matcher/base/csv.h"
#include "matcher/base/error.h"
#include "tools/evet/messages.h"
#include "tools/words/text.h"

namespace evet {

std::map<std::string, double> read_pond_areas(std::string_view text, const std::string& item) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  const std::string_view head = text.substr(0, text.find('\n'));
  const CsvReading table = read_csv(text, head.find(';') != std::string_view::npos ? ';' : ',');
  const auto refuse = [&](size_t line, const Reason& reason) {
    throw Error(ErrorKind::bad_input, Message(messages::kFileLine, {{"file", item}, {"line", line}}).words(),
                reason);
  };
  if (table.problem) refuse(table.problem->line, table.problem->reason);
  std::map<std::string, size_t> column;
  if (!table.records.empty())
    for (size_t i = 0; i < table.records[0].fields.size(); ++i)
      column[lower_ascii(table.records[0].fields[i])] = i;
  for (const char* needed : {"pond", "area_m2"})
    if (!column.contains(needed))
      refuse(1, {Message(messages::kNightsColumnMissing, {{"column", std::string(needed)}}),
                 messages::kNamePondAndArea});
  std::map<std::string, double> areas;
  for (size_t r = 1; r < table.records.size(); ++r) {
    const auto field = [&](const char* name) {
      const size_t at = column.at(name);
      return at < table.records[r].fields.size() ? table.records[r].fields[at] : std::string();
    };
    const std::string pond = field("pond"), area = field("area_m2");
    double value = 0;
    const auto [end, error] = std::from_chars(area.data(), area.data() + area.size(), value);
    if (error != std::errc() || end != area.data() + area.size() || !(value > 0) || !std::isfinite(value))
      refuse(table.records[r].line,
             {Message(messages::kAreaIsNoNumber, {{"area", in_quotes(area)}}), messages::kWriteArea});
    if (pond.empty() || !areas.emplace(pond, value).second)
      refuse(table.records[r].line, {Message(messages::kPondTwiceOrUnnamed, {{"pond", in_quotes(pond)}}),
                                     messages::kNameEachPondOnce});
  }
  return areas;
}

}  // namespace evet
