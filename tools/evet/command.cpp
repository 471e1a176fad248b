#include "tools/evet/command.h"

#include <pwd.h>
#include <spdlog/spdlog.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <ostream>
#include <thread>

#include "matcher/base/error.h"
#include "tools/evet/messages.h"
#include "tools/evet/wrong_usage.h"
#include "tools/words/in_words.h"

namespace evet {
namespace {

// What stands for a value in help; a name that is none of these stays as it is.
struct Placeholder {
  const char* in_english;
  MessageText text;
};
const std::array kPlaceholders = {
    Placeholder{"ADDRESS", messages::kPlaceAddress},
    Placeholder{"CODE", messages::kPlaceCode},
    Placeholder{"DATE", messages::kPlaceDate},
    Placeholder{"DAYS", messages::kPlaceDays},
    Placeholder{"ENTRY", messages::kPlaceEntry},
    Placeholder{"FILE", messages::kPlaceFile},
    Placeholder{"FOLDER", messages::kPlaceFolder},
    Placeholder{"LIST", messages::kPlaceList},
    Placeholder{"NAME", messages::kPlaceName},
    Placeholder{"NUMBER", messages::kPlaceNumber},
    Placeholder{"SECONDS", messages::kPlaceSeconds},
    Placeholder{"SHARE", messages::kPlaceShare},
    Placeholder{"WORDS", messages::kPlaceWords},
    Placeholder{"REQUIRED", messages::kPlaceNeeded},
    Placeholder{"Usage", messages::kHelpUsage},
    Placeholder{"OPTIONS", messages::kHelpOptionsPlace},
    Placeholder{"Positionals", messages::kHelpPositionals},
    Placeholder{"Excludes", messages::kHelpExcludes},
};

std::string login_name() {
  const passwd* entry = ::getpwuid(::geteuid());
  return entry != nullptr && entry->pw_name != nullptr ? entry->pw_name : "";
}

}  // namespace

CommandLine::CommandLine(const std::string& name, const MessageText& what_it_does, const std::string& example)
    : name_(name), app_(in_words(what_it_does), "evet " + name) {
  app_.footer(in_words(messages::kHelpExample) + "\n  " + example);
  app_.option_defaults()->group(in_words(messages::kHelpOptions));
  app_.set_help_flag("-h,--help", in_words(messages::kHelpHelp));
  app_.add_flag("--json", json_, in_words(messages::kHelpCommandJson));
  app_.get_formatter()->column_width(34);
  app_.get_formatter()->label("TEXT", "");
  for (const auto& [in_english, text] : kPlaceholders)
    app_.get_formatter()->label(in_english, in_words(text));
}

void CommandLine::take_catalogue() {
  app_.add_option("CATALOGUE", catalogue_, in_words(messages::kHelpCommandTheCatalogue))->required();
}

void CommandLine::take_actor() {
  app_.add_option("--by", by_, in_words(messages::kHelpCommandBy))->type_name("CODE");
}

Actor CommandLine::actor() const {
  std::string who = by_;
  if (const char* set = std::getenv("EVET_BY"); who.empty() && set != nullptr) who = set;
  if (who.empty()) who = login_name();
  if (who.empty()) throw Error(ErrorKind::usage, "--by", messages::kNobodyNamed, messages::kSayWhoSpeaks);
  return {ActorKind::person, who};
}

void CommandLine::take_threads() {
  whole_within(app_.add_option("--threads", threads_, in_words(messages::kHelpCommandThreads)), 1, 256)
      ->type_name("N");
}

int CommandLine::threads() const {
  constexpr unsigned kMostByDefault = 4;  // each takes some 100 MB
  if (threads_ > 0) return threads_;
  return static_cast<int>(std::clamp(std::thread::hardware_concurrency(), 1u, kMostByDefault));
}

std::optional<int> CommandLine::parse(const Args& args, Console& console) {
  std::vector<std::string> reversed(args.rbegin(), args.rend());
  try {
    app_.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    console.out << app_.help();
    return kDone;
  } catch (const CLI::ParseError& error) {
    throw wrong_usage(name_, app_, args, error);
  }
  return std::nullopt;
}

void print(Console& console, const nlohmann::json& document) {
  // Names from outside need not be UTF-8; the document must be.
  console.out << document.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) << "\n";
}

namespace {
Catalogue with_warnings(Catalogue catalogue) {
  for (const std::string& warning : catalogue.warnings()) spdlog::warn("{}", warning);
  return catalogue;
}
}  // namespace

Catalogue open_catalogue(const std::string& folder, Console& console, Access access) {
  CatalogueOptions options;
  options.access = access;
  return with_warnings(Catalogue::open(folder, console.env, options));
}
Catalogue open_apart(const std::string& folder, Console& console, bool for_audit) {
  return with_warnings(Catalogue::open_apart(folder, console.env, for_audit));
}

}  // namespace evet
