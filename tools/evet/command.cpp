#include "tools/evet/command.h"

#include <pwd.h>
#include <spdlog/spdlog.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <ostream>
#include <thread>

#include "matcher/base/error.h"
#include "tools/evet/messages.h"

namespace evet {
namespace {

std::string login_name() {
  const passwd* entry = ::getpwuid(::geteuid());
  return entry != nullptr && entry->pw_name != nullptr ? entry->pw_name : "";
}

}  // namespace

CommandLine::CommandLine(const std::string& name, const std::string& what_it_does, const std::string& example)
    : name_(name), app_(what_it_does, "evet " + name) {
  app_.footer("Example:\n  " + example);
  app_.add_flag("--json", json_, "One JSON document on standard output instead of text");
  app_.get_formatter()->column_width(34);
  app_.get_formatter()->label("TEXT", "");
  app_.get_formatter()->label("REQUIRED", "(needed)");
}

void CommandLine::take_catalogue() {
  app_.add_option("CATALOGUE", catalogue_, "Folder of the catalogue")->required();
}

void CommandLine::take_actor() {
  app_.add_option("--by", by_,
                  "Who says so: an observer code, kept in the ledger (else $EVET_BY, else the login name)")
      ->type_name("CODE");
}

Actor CommandLine::actor() const {
  std::string who = by_;
  if (const char* set = std::getenv("EVET_BY"); who.empty() && set != nullptr) who = set;
  if (who.empty()) who = login_name();
  if (who.empty()) throw Error(ErrorKind::usage, "--by", messages::kNobodyNamed, messages::kSayWhoSpeaks);
  return {ActorKind::person, who};
}

void CommandLine::take_threads() {
  app_.add_option("--threads", threads_, "Photos worked on at a time (else one a processor, four at most)")
      ->check(CLI::Range(1, 256))
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
    throw Error(ErrorKind::usage, name_, bare(error.what()),
                Message(messages::kHelpShowsExample, {{"command", app_.get_name()}}));
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
