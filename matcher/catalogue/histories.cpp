#include "matcher/catalogue/histories.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>
#include <tuple>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/base/natural_order.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

constexpr const char* kUnknown = "unknown";

std::string or_unknown(const std::string& level) {
  return level.empty() ? kUnknown : level;
}

bool inside(const HistoriesOptions& options, const std::string& site, const std::string& pond,
            const std::string& night) {
  return (options.site.empty() || site == options.site) && (options.pond.empty() || pond == options.pond) &&
         (options.from.empty() || night >= options.from) && (options.to.empty() || night <= options.to);
}
bool chosen(const HistoriesOptions& options, const CaptureFacts& facts) {
  return inside(options, facts.site, facts.pond, facts.night) &&
         (options.stages.empty() ||
          std::find(options.stages.begin(), options.stages.end(), facts.stage) != options.stages.end());
}

// Nights that intakes in force say were worked at the chosen place. An intake that does not say where counts
// only where that night shows up nowhere else: otherwise it was another place's.
std::set<std::string> worked_nights(const Statements& statements, const Identities& identities,
                                    const HistoriesOptions& options) {
  std::set<std::string> caught_somewhere;
  for (const CaptureState& capture : identities.captures) caught_somewhere.insert(capture.facts.night);
  std::set<std::string> nights;
  for (const auto& [night, effort] : options.effort)
    if (inside(options, options.site, options.pond, night)) nights.insert(night);
  for (const auto& said : statements.intakes) {
    if (!identities.in_force(said.stamp.id)) continue;
    for (const NightIntake::Visit& visit : said.what.visits)
      if (inside(options, visit.site, visit.pond, visit.night)) nights.insert(visit.night);
    if (!said.what.visits.empty()) continue;
    for (const std::string& night : said.what.nights)
      if (!caught_somewhere.contains(night) && inside(options, options.site, options.pond, night))
        nights.insert(night);
  }
  return nights;
}

[[noreturn]] void nothing_left(const Identities& identities, const HistoriesOptions& options) {
  std::set<std::string> sites;
  std::string first, last;
  for (const CaptureState& capture : identities.captures) {
    sites.insert(capture.facts.site);
    if (first.empty() || capture.facts.night < first) first = capture.facts.night;
    last = std::max(last, capture.facts.night);
  }
  if (sites.empty())
    throw Error(ErrorKind::bad_input, "histories", messages::kCatalogueHoldsNoCapturesYet,
                messages::kTakeInNightSheetFirst);
  std::string list;
  for (const std::string& site : sites) list += (list.empty() ? "'" : ", '") + site + "'";
  const std::string place = options.site.empty() ? "any site" : "site '" + options.site + "'";
  throw Error(ErrorKind::bad_input, "histories",
              Message(messages::kNoCaptureOfSettledIndividual, {{"place", place}}),
              Message(messages::kCatalogueHasNights, {{"list", list}, {"first", first}, {"last", last}}));
}

struct Row {
  const Individual* individual;
  std::vector<const CaptureState*> captures;  // oldest first
};

// Which captures go in, animal by animal; fills the report's lists on the way.
std::vector<Row> rows(const Identities& identities, const HistoriesOptions& options,
                      HistoriesReport& report) {
  std::vector<Row> list;
  std::map<IndividualId, size_t> row_of;
  for (const CaptureState& capture : identities.captures) {
    if (!chosen(options, capture.facts)) continue;
    if (capture.closed && capture.closed->as != ClosedAs::not_identifiable) {
      report.no_capture.push_back(
          {capture.id, capture.facts.night, capture.facts.name, false, capture.usable()});
      continue;
    }
    ++report.captures;
    const bool use = capture.individual && (options.use_disputed || !capture.disputed);
    const NotedCapture noted{capture.id, capture.facts.night, capture.facts.name,
                             use,        capture.usable(),    capture.disputed};
    if (!capture.individual) (capture.closed ? report.not_identifiable : report.unsettled).push_back(noted);
    if (capture.disputed) report.disputed.push_back(noted);
    if (capture.by_program && use) report.by_program.push_back(noted);
    if (!use) continue;
    ++report.used;
    const auto [at, added] = row_of.emplace(*capture.individual, list.size());
    if (added) list.push_back({identities.individual(*capture.individual), {}});
    list[at->second].captures.push_back(&capture);
  }
  return list;
}

// Animals of one night as on its sheet: the ids, which would follow, are random.
void put_in_order(std::vector<Row>& list) {
  const auto key = [](const Row& row) {
    const CaptureFacts& first = row.captures.front()->facts;
    return std::tuple(first.night, first.site, first.pond, natural_key(first.name), row.individual->id);
  };
  std::sort(list.begin(), list.end(), [&](const Row& a, const Row& b) { return key(a) < key(b); });
}

void describe(const Row& row, models::CaptureHistories& histories, HistoriesReport& report) {
  const CaptureFacts& first = row.captures.front()->facts;
  const CaptureFacts& last = row.captures.back()->facts;
  histories.animals.push_back(row.individual->name);
  histories.groups["sex"].push_back(name(row.individual->sex));
  histories.groups["site"].push_back(first.site);
  histories.groups["pond"].push_back(or_unknown(first.pond));
  histories.groups["stage"].push_back(or_unknown(first.stage));
  double svl_mm = std::numeric_limits<double>::quiet_NaN();
  bool moved = false, lost = false, seen_again = false;
  for (const CaptureState* capture : row.captures) {
    const CaptureFacts& facts = capture->facts;
    if (facts.svl_mm && std::isnan(svl_mm)) svl_mm = *facts.svl_mm;
    moved = moved || facts.site != first.site || facts.pond != first.pond;
    seen_again = seen_again || (facts.lost && facts.night < last.night);
    lost = lost || (facts.lost && facts.night == last.night);
  }
  histories.covariates["svl_mm"].push_back(svl_mm);
  histories.lost.push_back(lost ? 1 : 0);
  if (moved) report.at_several_places.push_back(row.individual->id);
  if (seen_again) report.seen_after_loss.push_back(row.individual->id);
}

std::vector<int> periods(const std::vector<std::string>& nights, int gap_days) {
  std::vector<int> primary;
  for (size_t j = 0; j < nights.size(); ++j) {
    const bool new_period = j > 0 && days_since_epoch(nights[j]) - days_since_epoch(nights[j - 1]) > gap_days;
    primary.push_back(j == 0 ? 0 : primary.back() + (new_period ? 1 : 0));
  }
  return primary;
}

void mark_open_nights(CatalogueHistories& out) {
  std::map<std::string, int> open;
  for (const NotedCapture& capture : out.report.unsettled)
    if (capture.usable || capture.disputed) ++open[capture.night];
  if (open.empty()) return;
  for (const std::string& night : out.histories.occasions) {
    const auto at = open.find(night);
    out.histories.unsettled.push_back(at == open.end() ? 0 : at->second);
    if (at != open.end()) out.report.open_nights.push_back(night);
  }
}

// The place of each capture, of the last one where an animal was caught twice in a night. Ponds of several sites are
// told apart by both names.
void add_places(const std::vector<Row>& animals, models::CaptureHistories& histories) {
  constexpr size_t kMostPlaces = 250;
  std::set<std::string> sites, names;
  for (const Row& row : animals)
    for (const CaptureState* capture : row.captures) sites.insert(capture->facts.site);
  const auto name_of = [&](const CaptureFacts& facts) {
    return sites.size() < 2 ? facts.pond : facts.pond.empty() ? facts.site : facts.site + ", " + facts.pond;
  };
  for (const Row& row : animals)
    for (const CaptureState* capture : row.captures) names.insert(name_of(capture->facts));
  if (names.size() < 2 || names.size() > kMostPlaces || names.contains("")) return;
  histories.places.assign(names.begin(), names.end());
  histories.place.assign(histories.caught.size(), 0);
  const auto& nights = histories.occasions;
  for (size_t i = 0; i < animals.size(); ++i)
    for (const CaptureState* capture : animals[i].captures) {
      const auto night =
          std::lower_bound(nights.begin(), nights.end(), capture->facts.night) - nights.begin();
      const auto place = std::distance(names.begin(), names.find(name_of(capture->facts)));
      histories.place[i * nights.size() + static_cast<size_t>(night)] = static_cast<std::uint8_t>(place + 1);
    }
}

void add_effort(const HistoriesOptions& options, models::CaptureHistories& histories) {
  std::vector<double> effort;
  for (const std::string& night : histories.occasions)
    if (const auto at = options.effort.find(night); at != options.effort.end()) effort.push_back(at->second);
  if (effort.size() == histories.occasion_count()) histories.occasion_covariates["effort"] = effort;
}

void leave_out_unknown(models::CaptureHistories& histories) {
  std::erase_if(histories.groups, [](const auto& group) {
    return std::all_of(group.second.begin(), group.second.end(),
                       [](const std::string& level) { return level == kUnknown; });
  });
  std::erase_if(histories.covariates, [](const auto& covariate) {
    return std::all_of(covariate.second.begin(), covariate.second.end(),
                       [](double value) { return std::isnan(value); });
  });
}

}  // namespace

void HistoriesOptions::check() const {
  for (const auto& [option, night] : {std::pair("from", from), std::pair("to", to)})
    if (!night.empty() && !is_date(night))
      throw Error(ErrorKind::bad_input, option, Message(messages::kIsNotDate, {{"night", night}}),
                  messages::kWriteIsoDate);
  if (!from.empty() && !to.empty() && to < from)
    throw Error(ErrorKind::bad_input, "to", Message(messages::kLiesBeforeFrom, {{"to", to}, {"from", from}}),
                messages::kGiveEarlierNightFirst);
  for (const auto& [night, value] : effort)
    if (!is_date(night) || !(value >= 0))
      throw Error(ErrorKind::bad_input, "effort", Message(messages::kIsNotDateWithEffort, {{"night", night}}),
                  messages::kWriteNightAs0514);
  if (!pond.empty() && site.empty())
    throw Error(ErrorKind::bad_input, "pond", Message(messages::kIsNamedWithoutSite, {{"pond", pond}}),
                messages::kNameSiteAsWell);
  if (period_gap_days < 0)
    throw Error(ErrorKind::bad_input, "period gap", messages::kIsNegative, messages::kGiveNumberOfDaysOr);
}

CatalogueHistories capture_histories(const Statements& statements, const Identities& identities,
                                     const HistoriesOptions& options) {
  options.check();
  CatalogueHistories out;
  std::vector<Row> animals = rows(identities, options, out.report);
  put_in_order(animals);
  std::set<std::string> nights = worked_nights(statements, identities, options), caught;
  for (const CaptureState& capture : identities.captures)
    if (inside(options, capture.facts.site, capture.facts.pond, capture.facts.night)) {
      nights.insert(capture.facts.night);  // worked, whatever came of it
      if (!capture.closed || capture.closed->as != ClosedAs::no_animal) caught.insert(capture.facts.night);
    }
  if (animals.empty()) nothing_left(identities, options);

  models::CaptureHistories& histories = out.histories;
  histories.occasions.assign(nights.begin(), nights.end());
  histories.dates = histories.occasions;
  mark_open_nights(out);
  if (options.period_gap_days > 0) histories.primary = periods(histories.dates, options.period_gap_days);
  std::set_difference(nights.begin(), nights.end(), caught.begin(), caught.end(),
                      std::back_inserter(out.report.empty_nights));
  for (const Row& row : animals) {
    out.individuals.push_back(row.individual->id);
    describe(row, histories, out.report);
    std::vector<std::uint8_t> cells(nights.size(), 0);
    for (const CaptureState* capture : row.captures) {
      const auto at = std::distance(nights.begin(), nights.find(capture->facts.night));
      std::uint8_t& cell = cells[static_cast<size_t>(at)];
      out.report.same_night += cell;
      cell = 1;
    }
    histories.caught.insert(histories.caught.end(), cells.begin(), cells.end());
  }
  add_effort(options, histories);
  if (options.places) add_places(animals, histories);
  leave_out_unknown(histories);
  histories.check();
  return out;
}

}  // namespace evet
