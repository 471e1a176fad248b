// What every command shares: where it writes, how it reads its arguments, how it says that something failed.
#pragma once
#include <CLI/CLI.hpp>
#include <iosfwd>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/message.h"
#include "matcher/catalogue/catalogue.h"

namespace evet {

// Results go to `out`, log lines, progress and errors to `err`.
struct Console {
  std::ostream& out;
  std::ostream& err;
  bool out_is_terminal = false;
  bool err_is_terminal = false;
  bool colour = false;  // on a terminal, and NO_COLOR is not set
  Env& env;
  bool desktop = false;  // a browser can be opened on this screen
};

using Args = std::vector<std::string>;  // what follows the command's name

struct Command {
  std::string name;
  MessageText line;  // what it does, for the list
  int (*run)(const Args& args, Console& console);
};

// Exit codes that are no Error: the rest come from exit_code(ErrorKind).
inline constexpr int kDone = 0;
inline constexpr int kDoesNotHold = 1;  // what was checked (an audit, a trial) does not hold
inline constexpr int kWrongUsage = 2;
inline constexpr int kBadInput = 3;

// One command's arguments. CLI11 reads them; --help, --json and wrong usage are the same for all.
class CommandLine {
 public:
  // `example`: one or more whole command lines.
  CommandLine(const std::string& name, const MessageText& what_it_does, const std::string& example);

  CLI::App& app() { return app_; }
  bool json() const { return json_; }
  // The catalogue's folder, the first argument of nearly every command.
  void take_catalogue();
  const std::string& catalogue() const { return catalogue_; }
  // --by: who speaks in the ledger.
  void take_actor();
  Actor actor() const;
  // --threads
  void take_threads();
  int threads() const;

  // Nothing: go on. Otherwise the exit code: help was printed, or wrong usage was explained on console.err.
  std::optional<int> parse(const Args& args, Console& console);

 private:
  std::string name_;
  CLI::App app_;
  bool json_ = false;
  std::string catalogue_, by_;
  int threads_ = 0;
};

// One JSON document, indented, with a line end.
void print(Console& console, const nlohmann::json& document);

// Opens the catalogue and passes on what its user should know about where it lies.
Catalogue open_catalogue(const std::string& folder, Console& console, Access access);
// One that may be of somebody else, for reading.
Catalogue open_apart(const std::string& folder, Console& console, bool for_audit = false);

}  // namespace evet
