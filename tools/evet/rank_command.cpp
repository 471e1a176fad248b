#include <algorithm>
#include <ostream>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/base/printable.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/evet/progress.h"
#include "tools/report/messages.h"
#include "tools/verdicts/accept_nights.h"
#include "tools/verdicts/rank_night.h"
#include "tools/words/costs_words.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"
#include "tools/words/text_table.h"

namespace evet {
namespace {

// Whether a capture of the night, or of any, waits to be settled. Errors: not_found for a
// night without a capture.
bool is_any_open(Catalogue& catalogue, const std::string& only) {
  std::set<std::string> open, all;
  for (const CaptureState& capture : catalogue.identities().captures) {
    all.insert(capture.facts.night);
    if (!capture.individual && !capture.closed) open.insert(capture.facts.night);
  }
  if (only.empty()) return !open.empty();
  if (!all.contains(only)) {
    std::string nights;
    for (auto at = all.rbegin(); at != all.rend() && nights.size() < 60; ++at)
      nights += (nights.empty() ? "" : ", ") + *at;
    throw Error(ErrorKind::not_found, night_item(only), messages::kCatalogueHasNoCaptureOf,
                all.empty() ? Message(messages::kTakeNightInFirstWith)
                            : Message(messages::kLatestNightsAre, {{"nights", nights}}));
  }
  return open.contains(only);
}

std::string advice_words(Advice advice) {
  if (advice == Advice::same) return in_words(messages::kAdviceSame);
  return in_words(advice == Advice::look ? messages::kAdviceLook : messages::kAdviceNew);
}

// One line a capture: who it probably is, how sure that is, and what to do.
void print_table(const std::vector<RankedLine>& lines, Console& console) {
  TextTable table({in_words(messages::kHeadNight), in_words(messages::kHeadCapture),
                   in_words(messages::kHeadAdvice), in_words(messages::kHeadLikeliest),
                   ">" + in_words(messages::kHeadProbability), ">" + in_words(messages::kHeadSpots),
                   ">" + in_words(messages::kHeadNew)});
  for (const RankedLine& line : lines) {
    if (!line.usable()) {
      table.row(
          {line.night, line.capture, advice_words(Advice::look), in_words(messages::kNoPhotoCanBeMatched)});
      continue;
    }
    std::vector<std::string> row{line.night, line.capture, advice_words(line.advice)};
    if (line.candidates.empty()) {
      row.insert(row.end(), {in_words(messages::kNobodyToCompareWith), "", ""});
    } else {
      const auto& best = line.candidates.front();
      row.insert(row.end(),
                 {best.individual, probability_text(best.probability), std::to_string(best.matched_spots)});
    }
    row.push_back(probability_text(line.new_probability));
    table.row(std::move(row));
  }
  table.print(console.out, console.colour);
}

// Who is no candidate, by a person's word.
void print_ruled_out(const std::vector<RankedLine>& lines, Console& console) {
  bool first = true;
  for (const RankedLine& line : lines)
    for (const std::string& words : line.ruled_out_words) {
      if (first) console.out << "\n" << in_words(messages::kRuledOutByPeople) << "\n";
      first = false;
      console.out << "  " << printable(line.capture) << ": " << printable(words) << "\n";
    }
}

void print_order(const std::vector<RankedLine>& lines, Console& console) {
  const std::vector<const RankedLine*> order = to_look_at(lines);
  if (order.empty()) return;
  console.out << "\n" << in_words(messages::kToLookAtFirst) << "\n";
  int n = 0;
  for (const RankedLine* line : order) {
    std::string why;
    for (const std::string& one : line->why) why += (why.empty() ? "" : "; ") + one;
    console.out << "  " << ++n << ". " << printable(line->capture)
                << (why.empty() ? "" : ": " + printable(why)) << "\n";
  }
}

void print_summary(const std::vector<RankedLine>& lines, const Accepted& accepted, bool accept,
                   const Costs& costs, const std::string& catalogue, Console& console) {
  size_t same = 0, fresh = 0, look = 0, unusable = 0;
  for (const RankedLine& line : lines) {
    if (!line.usable())
      ++unusable;
    else if (line.advice == Advice::same)
      ++same;
    else if (line.advice == Advice::new_individual)
      ++fresh;
    else
      ++look;
  }
  console.out << "\n"
              << in_words(messages::kRankedInAll, {{"captures", counted(lines.size(), messages::kCaptures)},
                                                   {"same", same},
                                                   {"fresh", fresh},
                                                   {"look", look},
                                                   {"unusable", unusable}})
              << "\n";
  if (accept)
    console.out << in_words(messages::kAcceptedIntoLedger, {{"same", static_cast<size_t>(accepted.same)},
                                                            {"fresh", static_cast<size_t>(accepted.fresh)}})
                << "\n";
  else if (same + fresh > 0)
    console.out << in_words(messages::kNothingIsRecordedYet, {{"catalogue", catalogue}}) << "\n";
  console.out << in_words(costs) << "\n";
  if (look > 0) console.out << in_words(messages::kSettleWhatIsLeft, {{"catalogue", catalogue}}) << "\n";
}

struct RankWanted {
  RankRequest request;
  bool accept = false, keep_costs = false, queue = false;
  std::string costs;
};

void add_options(CommandLine& line, RankWanted& wanted) {
  line.take_catalogue();
  line.take_actor();
  line.take_threads();
  line.app()
      .add_option("--night", wanted.request.night, in_words(messages::kHelpRankNight))
      ->type_name("DATE");
  line.app().add_flag("--accept", wanted.accept, in_words(messages::kHelpRankAccept));
  line.app()
      .add_option("--costs", wanted.costs,
                  in_words(messages::kElseAsKept, {{"costs", Message(messages::kCostsHelp)}}))
      ->type_name("WORDS");
  line.app().add_flag("--keep-costs", wanted.keep_costs, in_words(messages::kHelpRankKeepCosts));
  line.app().add_flag("--queue", wanted.queue, in_words(messages::kHelpRankQueue));
}

// Wrong words are told before anything else.
void check(const RankWanted& wanted) {
  if (wanted.keep_costs && wanted.costs.empty())
    throw Error(ErrorKind::usage, "--keep-costs", messages::kNoCostsAreNamed, messages::kSayWhichWithCosts);
  if (!wanted.costs.empty()) costs_from_words(wanted.costs);
  const std::string& night = wanted.request.night;
  if (!night.empty() && !is_date(night))
    throw Error(ErrorKind::usage, "--night", Message(messages::kIsNoDate, {{"text", in_quotes(night)}}),
                messages::kWriteIsoDate);
}

// Lines of what waits to be settled, and what was recorded of it.
AcceptedNights ranked(Catalogue& catalogue, RankWanted& wanted, Console& console) {
  Progress bar(console, in_words(messages::kComparingCaptures));
  wanted.request.progress = [&](size_t done, size_t all) { bar.show(done, all); };
  if (!is_any_open(catalogue, wanted.request.night)) return {};
  if (wanted.accept) return accept_nights(catalogue, wanted.request);
  AcceptedNights nights = preview_nights(catalogue, wanted.request);
  nights.accepted = {};
  return nights;
}

}  // namespace

int run_rank(const Args& args, Console& console) {
  CommandLine line(
      "rank", messages::kRankDoes,
      "evet rank alder-fen --night 2024-05-14 --accept\n"
      "  evet rank alder-fen --costs \"a wrong join is a hundred times worse than a missed one\"");
  RankWanted wanted;
  add_options(line, wanted);
  if (const auto done = line.parse(args, console)) return *done;
  check(wanted);

  const bool writes = wanted.accept || wanted.keep_costs;
  Catalogue catalogue = open_catalogue(line.catalogue(), console, writes ? Access::write : Access::read);
  wanted.request.threads = line.threads();
  SearchOptions search = search_options_of(catalogue);
  if (!wanted.costs.empty()) set_costs(search, costs_from_words(wanted.costs, costs_of(search)));
  if (wanted.keep_costs) catalogue.append(line.actor(), {entry_of(costs_of(search))});
  wanted.request.search = search;
  const auto [lines, accepted] = ranked(catalogue, wanted, console);
  if (line.json()) {
    nlohmann::json document = to_json(lines);
    if (wanted.queue) add_queue(document, lines, costs_of(search));
    print(console, document);
  } else if (lines.empty()) {
    console.out << in_words(catalogue.identities().captures.empty() ? messages::kThereIsNoCaptureYet
                                                                    : messages::kEveryCaptureIsSettled)
                << "\n";
  } else {
    print_table(lines, console);
    print_ruled_out(lines, console);
    print_order(lines, console);
    print_summary(lines, accepted, wanted.accept, costs_of(search), line.catalogue(), console);
  }
  return kDone;
}

}  // namespace evet
