#include "tools/words/costs_words.h"

#include <fmt/format.h>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <vector>

#include "matcher/base/error.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

Error not_understood(const std::string& clause, const MessageText& wrong) {
  return {ErrorKind::usage, "--costs " + in_quotes(clause), wrong, messages::kHowToSayCosts};
}

const std::map<std::string, double>& number_words() {
  static const std::map<std::string, double> words = {{"twice", 2},        {"two", 2},
                                                      {"three", 3},        {"four", 4},
                                                      {"five", 5},         {"six", 6},
                                                      {"seven", 7},        {"eight", 8},
                                                      {"nine", 9},         {"ten", 10},
                                                      {"twelve", 12},      {"fifteen", 15},
                                                      {"twenty", 20},      {"thirty", 30},
                                                      {"fifty", 50},       {"hundred", 100},
                                                      {"thousand", 1000},  {"half", 0.5},
                                                      {"third", 1.0 / 3},  {"quarter", 0.25},
                                                      {"fifth", 0.2},      {"tenth", 0.1},
                                                      {"twentieth", 0.05}, {"fiftieth", 0.02},
                                                      {"hundredth", 0.01}, {"thousandth", 0.001},
                                                      {"nothing", 0}};
  return words;
}

// "10", "0.05", "1/20", "ten".
std::optional<double> amount(const std::string& word) {
  if (const auto at = number_words().find(word); at != number_words().end()) return at->second;
  const auto number = [](const std::string& text) -> std::optional<double> {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return {};
    return value;
  };
  const size_t slash = word.find('/');
  if (slash == std::string::npos) return number(word);
  const auto above = number(word.substr(0, slash)), below = number(word.substr(slash + 1));
  if (!above || !below || *below == 0) return {};
  return *above / *below;
}

std::vector<std::string> words_of_clause(const std::string& clause) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : clause + " ") {
    const bool part = std::isalnum(static_cast<unsigned char>(c)) || c == '.' || c == '/' || c == '-';
    if (part)
      word += c;
    else if (!word.empty())
      words.push_back(word), word.clear();
  }
  return words;
}

std::vector<std::string> clauses_of(const std::string& text) {
  std::vector<std::string> clauses(1);
  std::string spaced;
  for (const char c : text) spaced += c == ',' || c == ';' ? std::string(" and ") : std::string(1, c);
  for (const std::string& word : words_of_clause(lower_ascii(spaced))) {
    if (word == "and")
      clauses.emplace_back();
    else
      clauses.back() += (clauses.back().empty() ? "" : " ") + word;
  }
  std::erase(clauses, "");
  return clauses;
}

}  // namespace

Costs costs_from_words(const std::string& text, const Costs& otherwise) {
  Costs costs = otherwise;
  const std::vector<std::string> clauses = clauses_of(text);
  if (clauses.empty()) throw not_understood(text, messages::kSaysNothing);
  for (const std::string& clause : clauses) {
    const bool join = clause.find("wrong join") != std::string::npos,
               look = clause.find("look") != std::string::npos;
    if (join == look) throw not_understood(clause, messages::kJoinOrLook);
    std::optional<double> value;
    for (std::string word : words_of_clause(clause)) {
      while (!word.empty() && word.back() == '.') word.pop_back();
      const auto found = amount(word);
      if (found && value) throw not_understood(clause, messages::kTwoAmounts);
      if (found) value = found;
    }
    if (!value) throw not_understood(clause, messages::kNoAmount);
    if (join && !(*value > 0)) throw not_understood(clause, messages::kJoinMustCost);
    if (look && !(*value >= 0)) throw not_understood(clause, messages::kCostBelowNothing);
    (join ? costs.wrong_join : costs.look) = *value;
  }
  return costs;
}

std::string in_words(const Costs& costs) {
  return in_words(messages::kCostsAre, {{"times", fmt::format("{:.4g}", costs.wrong_join)},
                                        {"look", fmt::format("{:.4g}", costs.look)}});
}

Costs costs_of(const SearchOptions& options) {
  return {options.wrong_join_over_missed, options.look_over_missed};
}
void set_costs(SearchOptions& options, const Costs& costs) {
  options.wrong_join_over_missed = costs.wrong_join, options.look_over_missed = costs.look;
}

}  // namespace evet
