#include "tools/report/for_public.h"

#include <map>
#include <set>

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
    people_.insert(report.observers.begin(), report.observers.end());
    for (const ReportRow& row : report.rows)
      if (is_person(row.by)) people_.insert(row.by);
    for (const ReportOverride& one : report.overrides) people_.insert(one.by);
  }

  static bool is_person(const std::string& by) {
    return !by.empty() && by != "the program" && by != "the sheet";
  }
  // "Same, by KM on 2031-05-15." A code is few letters: nothing else of the text is taken for one.
  void unname(std::string& text) const {
    constexpr std::string_view by = ", by ";
    const std::size_t at = text.find(by);
    if (at == std::string::npos) return;
    for (const std::string& code : people_)
      if (text.compare(at + by.size(), code.size() + 4, code + " on ") == 0)
        return void(text.replace(at + by.size(), code.size(), "a person"));
  }

  // Captures in the order of the table of all captures.
  void number(std::string& capture) {
    if (capture.empty()) return;
    const auto at = numbers_.try_emplace(capture, std::to_string(numbers_.size() + 1)).first;
    capture = at->second;
  }
  void blank(std::string& text) const {
    constexpr std::string_view instead = "(withheld)";
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
    blank(capture.decided), unname(capture.decided);
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
  std::set<std::string> people_;  // codes
};

void withhold_captures(NightReport& report, Withholding& from) {
  for (ReportRow& row : report.rows) {
    from.number(row.capture), from.blank(row.outcome);
    if (Withholding::is_person(row.by)) row.by = "a person";
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
  int photo = 0;
  for (ReportFailedPhoto& one : report.failed_photos) {
    one.photo = "photo " + std::to_string(++photo);
    from.number(one.capture), from.blank_all(one.reasons);
  }
  for (ReportOverride& one : report.overrides) {
    constexpr const char* kElsewhere = "in the version for the authority";
    if (one.capture.empty())  // about the sheet: it names places, others than this one as well
      one.sentence = kElsewhere;
    else
      from.number(one.capture), from.blank(one.sentence);
    one.reason = kElsewhere, one.by = "a person";
  }
}

}  // namespace

NightReport for_everybody(NightReport report) {
  Withholding from(report);
  report.audience = Audience::everybody;
  withhold_captures(report, from);
  for (ReportEstimate& one : report.estimates) {
    one.what = "Large newts at this place, in this year's nights up to this one";
    from.estimate(one.naive);
    if (one.corrected) from.estimate(*one.corrected);
    from.blank(one.correction);
  }
  // It may name what else the catalogue has: other places.
  if (!report.no_estimate.empty()) report.no_estimate = "why stands in the version for the authority.";
  from.blank(report.place), from.blank(report.facts.method);
  from.blank(report.facts.weather);
  report.site.clear(), report.pond.clear(), report.catalogue.clear(), report.sheet.clear();
  report.licences.clear(), report.observers.clear(), report.picture_questions.clear();
  for (ReportRefusedRow& row : report.refused_rows) row.sentence = "in the version for the authority";
  NightFacts& facts = report.facts;
  facts.licence.clear(), facts.holder.clear(), facts.notes.clear(), facts.place.clear(),
      facts.observers.clear();
  facts.latitude.reset(), facts.longitude.reset();
  return report;
}

}  // namespace evet
