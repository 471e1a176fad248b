#include <map>
#include <tuple>

#include "tools/intake/intake_outcome.h"
#include "tools/intake/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// Photos have names of their own, so a fault that all of them share is told with the first few.
constexpr size_t kPhotosApart = 4;
bool of_a_photo(const SheetProblem& row) {
  return !row.photo.empty();
}

// "lines 2 to 301" where no other row lies between, else "lines 2, 5 and 7", else "lines 2, 5 and 31 more".
Message lines_of(const std::vector<const SheetProblem*>& rows) {
  bool running = true;
  for (size_t i = 1; i < rows.size(); ++i) running = running && rows[i]->line == rows[i - 1]->line + 1;
  if (running && rows.size() > 2)
    return {messages::kLinesFromTo, {{"first", rows.front()->line}, {"last", rows.back()->line}}};
  constexpr size_t kNamed = 5;
  std::vector<std::string> named;
  for (const SheetProblem* row : rows)
    if (named.size() < kNamed) named.push_back(std::to_string(row->line));
  if (rows.size() > kNamed)
    named.back() = Message(messages::kMore, {{"count", rows.size() - kNamed + 1}}).words();
  return {messages::kLinesNamed, {{"lines", listed(named)}}};
}

std::string sentence_of(const std::vector<const SheetProblem*>& rows) {
  const SheetProblem& first = *rows.front();
  std::vector<Message::Argument> arguments{
      {"n", rows.size()}, {"lines", lines_of(rows)}, {"fault", first.reason.words()}};
  if (of_a_photo(first)) {
    const std::vector<std::string> named{in_quotes(rows[0]->photo), in_quotes(rows[1]->photo),
                                         Message(messages::kMore, {{"count", rows.size() - 2}}).words()};
    arguments.push_back({"photos", listed(named)});
    return Message(messages::kPhotosTogether, std::move(arguments)).words();
  }
  if (first.column.empty()) return Message(messages::kRowsTogether, std::move(arguments)).words();
  arguments.push_back({"column", first.column});
  return Message(messages::kColumnTogether, std::move(arguments)).words();
}

}  // namespace

std::vector<std::string> refused_sentences(const std::vector<SheetProblem>& refused) {
  std::map<std::tuple<bool, std::string, std::string>, std::vector<const SheetProblem*>> alike;
  const auto key = [](const SheetProblem& row) {
    return std::tuple(of_a_photo(row), of_a_photo(row) ? std::string() : row.column, row.reason.words());
  };
  for (const SheetProblem& row : refused) alike[key(row)].push_back(&row);
  std::vector<std::string> out;
  for (const SheetProblem& row : refused) {
    const auto& rows = alike.at(key(row));
    if (rows.size() < (of_a_photo(row) ? kPhotosApart : 2))
      out.push_back(row.sentence());
    else if (rows.front() == &row)
      out.push_back(sentence_of(rows));
  }
  return out;
}

}  // namespace evet
