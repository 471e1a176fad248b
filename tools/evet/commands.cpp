#include "tools/evet/commands.h"

#include <spdlog/sinks/ostream_sink.h>
#include <spdlog/spdlog.h>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <memory>
#include <new>
#include <opencv2/core/utility.hpp>
#include <ostream>
#include <sstream>

#include "matcher/base/error.h"
#include "matcher/base/printable.h"
#include "matcher/base/version.h"
#include "models/base/input_error.h"
#include "tools/evet/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// Everything that is logged anywhere while a command runs, as "evet: ..." lines.
class LogTo {
 public:
  explicit LogTo(std::ostream& err) : before_(spdlog::default_logger()) {
    auto logger =
        std::make_shared<spdlog::logger>("evet", std::make_shared<spdlog::sinks::ostream_sink_mt>(err, true));
    logger->set_pattern("%n: %v");
    spdlog::set_default_logger(std::move(logger));
  }
  ~LogTo() { spdlog::set_default_logger(before_); }
  LogTo(const LogTo&) = delete;
  LogTo& operator=(const LogTo&) = delete;

 private:
  std::shared_ptr<spdlog::logger> before_;
};

void print_help(Console& console) {
  console.out << kProgram
              << ": matches belly photographs of large newts to a catalogue of known individuals.\n\n"
                 "Usage: evet COMMAND ... ; 'evet COMMAND --help' shows its options and an example.\n"
                 "Without a command the page opens in the browser, with the catalogues of this machine.\n\n";
  for (const Command& command : commands())
    console.out << "  " << command.name << std::string(14 - std::min<size_t>(command.name.size(), 13), ' ')
                << command.line << "\n";
  console.out << "\nA night, from photos to a report:\n"
                 "  evet new pond\n"
                 "  evet intake pond night.csv photos\n"
                 "  evet rank pond --accept      (what the program is sure of)\n"
                 "  evet review pond             (the rest, by eye)\n"
                 "  evet report pond --out night.html\n\n"
                 "Exit codes: 0 done; 1 done, and what was checked does not hold; 2 wrong usage;\n"
                 "3 bad input, nothing half-taken; 4 the disk or the database failed, nothing lost.\n\n"
                 "The tool gives evidence; the licensed person decides. Photography of protected species is\n"
                 "for licensed handlers only; licence conditions and local rules come first.\n";
}

struct Failure {
  std::string kind;
  int exit = 0;
  std::string sentence;  // may be several lines, one an item
};

// A failing command's answer: a line an item on console.err, and with --json one document on console.out.
int answer(const Failure& failure, const Args& args, Console& console) {
  std::istringstream lines(failure.sentence);
  nlohmann::json messages = nlohmann::json::array();
  for (std::string line; std::getline(lines, line);) {
    spdlog::error("{}", printable(line));
    messages.push_back(printable(line));
  }
  if (std::find(args.begin(), args.end(), "--json") != args.end())
    print(console, {{"error", {{"kind", failure.kind}, {"messages", messages}}}});
  return failure.exit;
}

int run_command(const Command& command, const Args& args, Console& console) {
  try {
    const int code = command.run(args, console);
    console.out.flush();
    if (!console.out)
      throw Error(ErrorKind::storage, "standard output", messages::kCannotBeWritten,
                  messages::kIsTheDiskFull);
    return code;
  } catch (const Error& error) {
    // One sentence, whatever line ends the names in it may hold.
    return answer({name(error.kind()), exit_code(error.kind()), printable(error.what())}, args, console);
  } catch (const models::InputError& error) {
    return answer({name(ErrorKind::bad_input), exit_code(ErrorKind::bad_input), error.what()}, args, console);
  } catch (const std::bad_alloc&) {
    return answer(
        {name(ErrorKind::storage), exit_code(ErrorKind::storage), Message(messages::kMemoryRanOut).words()},
        args, console);
  } catch (const std::exception& error) {  // the file system, the database
    return answer({name(ErrorKind::storage), exit_code(ErrorKind::storage), printable(error.what())}, args,
                  console);
  }
}

}  // namespace

const std::vector<Command>& commands() {
  static const std::vector<Command> table = {
      {"new", "Make an empty catalogue", run_new},
      {"sheet", "Write a night sheet to fill in, blank or from a folder of photos", run_sheet},
      {"intake", "Take in a night: its sheet and its photos", run_intake},
      {"night", "Write down what was done on a night: effort, method, weather, licence holder", run_night},
      {"rank", "Compare captures not yet settled with the known individuals", run_rank},
      {"review", "Open the page on which a night is settled by eye", run_review},
      {"verdict", "Record that two captures are the same animal, or not, or a new one", run_verdict},
      {"individuals", "List the known individuals, or show one's life", run_individuals},
      {"histories", "Write capture histories as CSV", run_histories},
      {"estimate", "Estimate numbers from capture histories", run_estimate},
      {"plan", "Plan how many nights and traps a wanted precision takes", run_plan},
      {"report", "Write a night's report, one page that prints", run_report},
      {"share", "Write tables and a Darwin Core archive that give no place away", run_share},
      {"merge", "Take in everything another catalogue has", run_merge},
      {"audit", "Check that everything a catalogue holds stands up", run_audit},
      {"proof", "Show, without the catalogue, that its ledger only grew between two reports", run_proof},
      {"trial", "Try the program on animals whose identity is known", run_trial},
      {"inspect", "Draw every stage from a photo to its pattern", run_inspect},
      {"card", "Write a scale card to print and lay beside the animal", run_card},
  };
  return table;
}

int run_evet(const Args& args, Console& console) {
  const LogTo log(console.err);
  cv::setNumThreads(1);  // photos are worked on side by side instead
  const std::string first = args.empty() ? "" : args[0];
  if (first == "--help" || first == "-h" || first == "help") {
    print_help(console);
    return kDone;
  }
  if (first == "--version") {
    console.out << kProgram << "\n";
    return kDone;
  }
  const auto& table = commands();
  // Somebody sits there, and no script waits for an exit code: the page, where everything begins.
  if (args.empty() && (console.out_is_terminal || console.desktop))
    return run_command({"review", "", run_review}, {}, console);
  const auto found =
      std::find_if(table.begin(), table.end(), [&](const Command& command) { return command.name == first; });
  if (found != table.end()) return run_command(*found, {args.begin() + 1, args.end()}, console);

  std::vector<std::string> names;
  names.reserve(table.size());
  for (const Command& command : table) names.push_back(command.name);
  const auto meant = near_miss(first, names);
  const std::string wrong = first.empty() ? "no command is named" : evet::quoted(first) + " is no command";
  const std::string right = meant ? "did you mean '" + *meant + "'?" : "'evet --help' lists them";
  return answer({name(ErrorKind::usage), kWrongUsage, wrong + "; " + right}, args, console);
}

}  // namespace evet
