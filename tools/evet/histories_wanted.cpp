#include "tools/evet/histories_wanted.h"

#include <charconv>
#include <cmath>

#include "matcher/base/csv.h"
#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/photo/read_file.h"
#include "tools/evet/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet {

void HistoriesWanted::add_options(CLI::App& app) {
  app.add_option("--site", options_.site, in_words(messages::kHelpHistoriesWantedSite))->type_name("SITE");
  app.add_option("--pond", options_.pond, in_words(messages::kHelpHistoriesWantedPond))->type_name("POND");
  app.add_option("--from", options_.from, in_words(messages::kHelpHistoriesWantedFrom))->type_name("DATE");
  app.add_option("--to", options_.to, in_words(messages::kHelpHistoriesWantedTo))->type_name("DATE");
  app.add_option("--stage", options_.stages, in_words(messages::kHelpHistoriesWantedStage))
      ->delimiter(',')
      ->allow_extra_args(false)
      ->type_name("STAGE,...");
  app.add_option("--nights", nights_, in_words(messages::kHelpHistoriesWantedNights))->type_name("FILE");
  app.add_option("--gap", options_.period_gap_days, in_words(messages::kHelpHistoriesWantedGap))
      ->type_name("DAYS");
}

HistoriesOptions HistoriesWanted::options() const {
  HistoriesOptions options = options_;
  options.check();
  if (!nights_.empty()) {
    const Bytes file = read_file(nights_, nights_, 1u << 20);
    options.effort = read_nights_worked({reinterpret_cast<const char*>(file.data()), file.size()}, nights_);
  }
  return options;
}

bool HistoriesWanted::any_but_gap() const {
  return !(options_.site.empty() && options_.pond.empty() && options_.from.empty() && options_.to.empty() &&
           options_.stages.empty() && nights_.empty());
}

std::map<std::string, double> read_nights_worked(std::string_view text, const std::string& item) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  const std::string_view head = text.substr(0, text.find('\n'));
  const CsvReading table = read_csv(text, head.find(';') != std::string_view::npos ? ';' : ',');
  const auto& records = table.records;
  const auto& problem = table.problem;
  const auto refuse = [&](size_t line, const Reason& reason) {
    throw Error(ErrorKind::bad_input, Message(messages::kFileLine, {{"file", item}, {"line", line}}).words(),
                reason);
  };
  if (problem) refuse(problem->line, problem->reason);
  std::map<std::string, size_t> column;
  if (!records.empty())
    for (size_t i = 0; i < records[0].fields.size(); ++i) column[lower_ascii(records[0].fields[i])] = i;
  for (const char* needed : {"night", "effort"})
    if (!column.contains(needed))
      refuse(1, {Message(messages::kNightsColumnMissing, {{"column", std::string(needed)}}),
                 messages::kNameNightAndEffort});
  std::map<std::string, double> nights;
  for (size_t r = 1; r < records.size(); ++r) {
    const auto field = [&](const char* name) {
      const size_t at = column.at(name);
      return at < records[r].fields.size() ? records[r].fields[at] : std::string();
    };
    const std::string night = field("night"), effort = field("effort");
    if (!is_date(night))
      refuse(records[r].line,
             {Message(messages::kNightIsNoDate, {{"night", in_quotes(night)}}), messages::kWriteIsoDate});
    double value = 0;
    const auto [end, error] = std::from_chars(effort.data(), effort.data() + effort.size(), value);
    if (error != std::errc() || end != effort.data() + effort.size() || !(value >= 0) ||
        !std::isfinite(value))
      refuse(records[r].line,
             {Message(messages::kEffortIsNoNumber, {{"effort", in_quotes(effort)}}), messages::kWriteEffort});
    if (!nights.emplace(night, value).second)
      refuse(records[r].line,
             {Message(messages::kNightTwice, {{"night", night}}), messages::kNameEachNightOnce});
  }
  return nights;
}

}  // namespace evet
