#include "tools/report/for_public.h"

#include <map>

#include "tools/report/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet {
namespace {

class Withholding {
 public:
  explicit Withholding(const NightReport& report) {
    for (const std::string* name : {&report.site, &report.pond})
      if (!name->empty()) private_.push_back(lower_ascii(*name));
    for (std::size_t i = 0; i < report.rows.size(); ++i)
      numbers_.emplace(report.rows[i].capture, std::to_string(i + 1));
  }

  static void unname(SettledBy& by) {
    if (by.kind == SettledBy::Kind::person) by.code = a_person();
  }
  static std::string a_person() { return in_words(messages::kAPerson); }

  // Captures in the order of the table of all captures.
  void number(std::string& capture) {
    if (capture.empty()) return;
    const auto at = numbers_.try_emplace(capture, std::to_string(numbers_.size() + 1)).first;
    capture = at->second;
  }
  void blank(std::string& text) const {
    const std::string instead = in_words(messages::kWithheld);
    for (const std::string& name : private_)
      for (std::size_t at = 0; (at = lower_ascii(text).find(name, at)) != std::string::npos;
           at += instead.size())
        text.replace(at, name.size(), instead);
  }
  void blank_all(std::vector<std::string>& texts) const {
    for (std::string& text : texts) blank(text);
  }
  Message blanked(const Message& said) const {
    std::string text = said.words();
    blank(text);
    return bare(std::move(text));
  }
  void strip(ReportStrip& strip) const { strip.photo.clear(); }
  void capture(ReportCapture& capture) {
    number(capture.name);
    capture.trap.clear();
    strip(capture.strip);
    capture.reason.clear();
    blank(capture.decided.individual), unname(capture.decided.by);
  }
  void candidate(ReportCandidate& candidate) const {
    strip(candidate.before);
    blank(candidate.individual);
  }
  void estimate(models::Estimate& estimate) const {
    for (models::Sentences* list : {&estimate.warnings, &estimate.assumptions})
      for (Message& one : *list) one = blanked(one);
    if (!estimate.undefined.empty()) estimate.undefined = blanked(estimate.undefined.message());
  }

 private:
  std::vector<std::string> private_;
  std::map<std::string, std::string> numbers_;
};

void withhold_captures(NightReport& report, Withholding& from) {
  for (ReportRow& row : report.rows) {
    from.number(row.capture), from.blank(row.outcome);
    Withholding::unname(row.by);
    row.trap.clear(), row.licence.clear(), row.notes.clear();
    row.latitude.reset(), row.longitude.reset();
  }
  for (ReportRecapture& one : report.recaptures) from.capture(one.capture), from.candidate(one.match);
  for (ReportNew& one : report.newcomers) from.capture(one.capture), from.blank(one.label);
  for (ReportLook& one : report.looks) {
    from.capture(one.capture);
    one.why.clear();
    for (ReportCandidate& candidate : one.candidates) from.candidate(candidate);
  }
  for (ReportUnusable& one : report.unusable) from.capture(one.capture);
  std::size_t photo = 0;
  for (ReportFailedPhoto& one : report.failed_photos) {
    one.photo = in_words(messages::kPhotoNumbered, {{"number", ++photo}});
    from.number(one.capture), from.blank_all(one.reasons);
  }
  for (ReportOverride& one : report.overrides) {
    const std::string elsewhere = in_words(messages::kInTheOtherVersion);
    if (one.capture.empty())  // about the sheet: it names places, others than this one as well
      one.sentence = elsewhere;
    else
      from.number(one.capture), from.blank(one.sentence);
    one.reason = elsewhere, one.by = Withholding::a_person();
  }
}

}  // namespace

NightReport for_everybody(NightReport report) {
  Withholding from(report);
  report.audience = Audience::everybody;
  withhold_captures(report, from);
  for (ReportEstimate& one : report.estimates) {
    one.what = in_words(messages::kLargeNewtsHere);
    from.estimate(one.naive);
    if (one.corrected) from.estimate(*one.corrected);
    from.blank(one.correction);
  }
  // It may name what else the catalogue has: other places.
  if (!report.no_estimate.empty()) report.no_estimate = in_words(messages::kWhyStandsElsewhere);
  from.blank(report.place), from.blank(report.facts.method);
  from.blank(report.facts.weather);
  report.site.clear(), report.pond.clear(), report.catalogue.clear(), report.sheet.clear();
  report.licences.clear(), report.observers.clear(), report.picture_questions.clear();
  for (ReportRefusedRow& row : report.refused_rows) row.sentence = in_words(messages::kInTheOtherVersion);
  NightFacts& facts = report.facts;
  facts.licence.clear(), facts.holder.clear(), facts.notes.clear(), facts.place.clear(),
      facts.observers.clear();
  facts.latitude.reset(), facts.longitude.reset();
  return report;
}

}  // namespace evet
