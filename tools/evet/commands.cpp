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
#include <utility>

#include "fmt/format.h"

#include "matcher/base/error.h"
#include "matcher/base/printable.h"
#include "matcher/base/version.h"
#include "models/base/input_error.h"
#include "tools/evet/messages.h"
#include "tools/words/in_words.h"
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
  console.out << in_words(messages::kHelpWhatItIs, {{"program", kProgram}}) << "\n\n";
  for (const Command& command : commands())
    console.out << "  " << command.name << std::string(14 - std::min<size_t>(command.name.size(), 13), ' ')
                << in_words(command.line) << "\n";
  console.out << "\n" << in_words(messages::kHelpANight) << "\n";
  for (const auto& [example, what] : {std::pair<const char*, const MessageText*>{"evet new pond", nullptr},
                                      {"evet intake pond night.csv photos", nullptr},
                                      {"evet rank pond --accept", &messages::kHelpNightAccept},
                                      {"evet review pond", &messages::kHelpNightReview},
                                      {"evet report pond --out night.html", nullptr}})
    console.out << (what == nullptr ? fmt::format("  {}\n", example)
                                    : fmt::format("  {:<29}{}\n", example, in_words(*what)));
  console.out << "\n"
              << in_words(messages::kHelpExitCodes) << "\n\n"
              << in_words(messages::kHelpWhoDecides) << "\n";
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
      throw Error(ErrorKind::storage, in_words(messages::kStandardOutput), messages::kCannotBeWritten,
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
      {"new", messages::kCommandNew, run_new},
      {"sheet", messages::kCommandSheet, run_sheet},
      {"intake", messages::kCommandIntake, run_intake},
      {"night", messages::kCommandNight, run_night},
      {"rank", messages::kCommandRank, run_rank},
      {"review", messages::kCommandReview, run_review},
      {"verdict", messages::kCommandVerdict, run_verdict},
      {"individuals", messages::kCommandIndividuals, run_individuals},
      {"histories", messages::kCommandHistories, run_histories},
      {"estimate", messages::kCommandEstimate, run_estimate},
      {"plan", messages::kCommandPlan, run_plan},
      {"report", messages::kCommandReport, run_report},
      {"share", messages::kCommandShare, run_share},
      {"merge", messages::kCommandMerge, run_merge},
      {"audit", messages::kCommandAudit, run_audit},
      {"proof", messages::kCommandProof, run_proof},
      {"trial", messages::kCommandTrial, run_trial},
      {"inspect", messages::kCommandInspect, run_inspect},
      {"card", messages::kCommandCard, run_card},
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
    return run_command({"review", messages::kCommandReview, run_review}, {}, console);
  const auto found =
      std::find_if(table.begin(), table.end(), [&](const Command& command) { return command.name == first; });
  if (found != table.end()) return run_command(*found, {args.begin() + 1, args.end()}, console);

  std::vector<std::string> names;
  names.reserve(table.size());
  for (const Command& command : table) names.push_back(command.name);
  const auto meant = near_miss(first, names);
  const Reason reason{first.empty() ? Message(messages::kNoCommandIsNamed)
                                    : Message(messages::kIsNoCommand, {{"text", in_quotes(first)}}),
                      meant ? Message(messages::kDidYouMeanCommand, {{"command", *meant}})
                            : Message(messages::kHelpListsThem)};
  return answer({name(ErrorKind::usage), kWrongUsage, reason.words()}, args, console);
}

}  // namespace evet
