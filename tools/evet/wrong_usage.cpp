#include "tools/evet/wrong_usage.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "tools/evet/messages.h"
#include "tools/intake/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

template <typename Number>
std::vector<Message::Argument> limits_of(Number least, Number most) {
  return {{"least", fmt::format("{}", least)}, {"most", fmt::format("{}", most)}};
}

template <typename Number>
bool is_number(const std::string& text) {
  Number value{};
  return !text.empty() && CLI::detail::lexical_cast(text, value);
}

template <typename Number>
CLI::Option* hold(CLI::Option* option, Number least, Number most, const Message& give) {
  const auto check = [=](const std::string& text) {
    Number value{};
    if (CLI::detail::lexical_cast(text, value) && value >= least && value <= most) return std::string();
    throw Error(ErrorKind::usage, option->get_name(),
                {messages::kNotWhatItTakes, {{"value", in_quotes(text)}}}, give);
  };
  const Message reach = most == std::numeric_limits<Number>::max()
                            ? Message(messages::kOrMore, {{"least", fmt::format("{}", least)}})
                            : Message(messages::kLeastToMost, limits_of(least, most));
  return option->check(check, reach.words());
}

Reason no_number(const std::string& text) {
  const std::vector<Message::Argument> value = {{"value", in_quotes(text)}};
  if (is_number<double>(text))
    return {{messages::kNoWholeNumber, value}, Message(messages::kGiveAWholeNumber)};
  return {{messages::kValueIsNoNumber, value}, Message(messages::kGiveANumber)};
}

// "--acept": an option that is not there, or one argument more than there are places for.
std::optional<Reason> of_what_is_left(const CLI::App& app, const Message& help) {
  std::vector<std::string> left = app.remaining();
  if (left.empty()) return std::nullopt;
  const auto is_option = [](const std::string& text) { return text.starts_with("-"); };
  std::stable_partition(left.begin(), left.end(), is_option);
  const std::string first = left.front().substr(0, left.front().find('='));
  if (!is_option(first)) return Reason{{messages::kOneTooMany, {{"argument", in_quotes(first)}}}, help};
  std::vector<std::string> names;
  for (const CLI::Option* option : app.get_options())
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  const auto meant = near_miss(first, names);
  return Reason{{messages::kNoSuchOption, {{"option", in_quotes(first)}}},
                meant ? Message(messages::kDidYouMeanOption, {{"option", *meant}}) : help};
}

// What one option is refused for.
std::optional<Reason> of_option(CLI::Option& option, const Message& help) {
  if (option.get_required() && option.count() == 0) return Reason{messages::kIsMissing, help};
  if (option.count() == 0) return std::nullopt;
  for (const CLI::Option* other : option.get_excludes())
    if (other->count() > 0)
      return Reason{{messages::kGoesNotWith, {{"other", other->get_name()}}},
                    Message(messages::kGiveOneOfThem)};
  try {
    option.run_callback();
  } catch (const CLI::ArgumentMismatch&) {
    return Reason{{messages::kGivenTimes, {{"n", option.count()}}}, Message(messages::kGiveItOnce)};
  } catch (const CLI::ParseError&) {
    const bool is_flag = option.get_items_expected_max() == 0;
    return is_flag ? Reason{messages::kTakesNoValue, Message(messages::kGiveItAlone)}
                   : no_number(option.results().back());
  }
  return std::nullopt;
}

}  // namespace

CLI::Option* one_of(CLI::Option* option, const std::vector<std::string>& allowed) {
  const auto check = [=](const std::string& text) {
    if (std::find(allowed.begin(), allowed.end(), text) != allowed.end()) return std::string();
    throw Error(ErrorKind::usage, option->get_name(),
                {messages::kNotWhatItTakes, {{"value", in_quotes(text)}}},
                {messages::kUseValues, {{"values", listed(allowed, messages::kOrTheLast)}}});
  };
  return option->check(check, fmt::format("{{{}}}", fmt::join(allowed, ",")));
}

CLI::Option* whole_within(CLI::Option* option, std::int64_t least, std::int64_t most) {
  const bool open = most == std::numeric_limits<std::int64_t>::max();
  return hold(option, least, most,
              open ? Message(messages::kGiveWholeFrom, {{"least", std::to_string(least)}})
                   : Message(messages::kGiveWholeWithin, limits_of(least, most)));
}

CLI::Option* within(CLI::Option* option, double least, double most) {
  return hold(option, least, most, Message(messages::kGiveWithin, limits_of(least, most)));
}

Error wrong_usage(const std::string& command, CLI::App& app, const std::vector<std::string>& args,
                  const CLI::ParseError& refusal) {
  const Message help(messages::kHelpShowsExample, {{"command", app.get_name()}});
  const auto because = [](const std::string& item, const Reason& reason) {
    return Error(ErrorKind::usage, item, reason);
  };
  if (const auto reason = of_what_is_left(app, help)) return because(command, *reason);
  // An option that ends the line and lacks its value has left nothing behind.
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&refusal) != nullptr && !args.empty())
    if (const CLI::Option* last = app.get_option_no_throw(args.back());
        last != nullptr && last->get_items_expected_min() > 0)
      return because(last->get_name(), {messages::kHasNoValue, Message(messages::kGiveOneBehind)});
  for (CLI::Option* option : app.get_options())
    if (const auto reason = of_option(*option, help)) return because(option->get_name(), *reason);
  return because(command, {bare(refusal.what()), help});
}

}  // namespace evet
