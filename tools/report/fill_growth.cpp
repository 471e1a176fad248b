#include "tools/report/fill_growth.h"

#include <map>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/place.h"
#include "matcher/catalogue/histories.h"
#include "models/base/input_error.h"
#include "models/estimate.h"
#include "tools/numbers/numbers_in_doubt.h"
#include "tools/report/messages.h"
#include "tools/words/history_cautions.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// The model behind the answer: the table's first where it stands alone, else the average.
std::string model_words(const models::EstimateReport& fitted) {
  if (fitted.table.empty()) return in_words(messages::kNoModelFitted);
  const models::ModelRow& first = fitted.table.front();
  if (!first.has_likelihood)
    return in_words(messages::kModelAndWhat, {{"model", first.name}, {"what", first.description}});
  return in_words(messages::kAverageOverClosed);
}

}  // namespace

std::vector<DiscoveryPoint> discovery(const Identities& who, const NightReport& report) {
  std::vector<DiscoveryPoint> points;
  std::set<IndividualId> seen;
  int captures = 0;
  for (const CaptureState& capture : who.captures) {  // by night
    const CaptureFacts& facts = capture.facts;
    if (facts.site != report.site || facts.pond != report.pond || facts.night > report.night) continue;
    if (!capture.individual) continue;
    ++captures;
    seen.insert(*capture.individual);
    if (points.empty() || points.back().night != facts.night) points.push_back({facts.night, 0, 0});
    points.back().captures = captures;
    points.back().individuals = static_cast<int>(seen.size());
  }
  return points;
}

void estimate_numbers(Catalogue& catalogue, const Identities& who, int threads, NightReport& report) {
  HistoriesOptions options;
  options.site = report.site, options.pond = report.pond;
  options.from = report.night.substr(0, 4) + "-01-01", options.to = report.night;
  try {
    const Statements said = catalogue.statements();
    const CatalogueHistories made = capture_histories(said, who, options);
    const models::CaptureHistories& histories = made.histories;
    if (histories.occasion_count() < 2) {
      report.no_estimate = in_words(messages::kOneNightAlone);
      return;
    }
    models::EstimateRequest request;
    request.design = "closed", request.plots = false;
    const models::EstimateInDoubt both =
        numbers_of(said, who, doubts_of(catalogue, said, who, options, threads), options, request);
    const models::EstimateReport& fitted = both.report;
    if (fitted.answer.empty() && both.rows.empty()) return;
    ReportEstimate one;
    one.what = in_words(messages::kLargeNewtsAt, {{"place", place_of(report.site, report.pond)},
                                                  {"first", histories.dates.front()},
                                                  {"last", report.night}});
    one.model = model_words(fitted);
    one.naive = fitted.answer.empty() ? both.rows.front().certain : fitted.answer.front();
    models::Sentences warnings;
    for (const models::Sentences& some : {one.naive.warnings, fitted.warnings})
      for (const Message& warning : some) models::add_once(warnings, warning);
    for (const Message& caution : cautions(made.report))
      models::add_once(warnings, bare(caution.words() + "."));
    one.naive.warnings = std::move(warnings);
    if (!both.rows.empty()) one.corrected = both.rows.front().in_doubt;
    one.correction = both.differ.words() + (both.differ.empty() ? "" : " ") + models::words(both.why);
    report.estimates.push_back(std::move(one));
  } catch (const models::InputError& error) {
    report.no_estimate = error.what();
  } catch (const Error& error) {
    if (error.kind() == ErrorKind::storage) throw;
    report.no_estimate = error.what();
  }
}

}  // namespace evet
