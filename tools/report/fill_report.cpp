#include "tools/report/fill_report.h"

#include <algorithm>

#include "matcher/belly/note_words.h"
#include "matcher/catalogue/search_catalogue.h"
#include "tools/report/fill_decided.h"
#include "tools/report/fill_growth.h"
#include "tools/report/fill_head.h"
#include "tools/report/fill_strips.h"
#include "tools/report/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/look_reasons.h"
#include "tools/words/names.h"

namespace evet {
namespace {

constexpr size_t kCandidatesShown = 3;

class Filling {
 public:
  Filling(Catalogue& catalogue, const ReportRequest& request, Env& env)
      : catalogue_(catalogue),
        who_(catalogue.identities()),
        names_(who_),
        strips_(catalogue),
        env_(env),
        threads_(request.threads) {
    const NightIntake::Visit visit = choose_visit(catalogue_, request);
    r_.site = visit.site, r_.pond = visit.pond, r_.night = visit.night;
    for (const CaptureState& capture : who_.captures)
      if (capture.facts.night == r_.night && capture.facts.site == r_.site && capture.facts.pond == r_.pond)
        captures_.push_back(&capture);
    std::sort(captures_.begin(), captures_.end(),
              [](const CaptureState* a, const CaptureState* b) { return listed_before(*a, *b); });
  }

  NightReport fill() {
    rank();
    fill_head(catalogue_, who_, captures_, env_, r_);
    for (const CaptureState* capture : captures_) {
      tell_photos(*capture);
      r_.rows.push_back(row_of(*capture));
      tell(*capture);
    }
    tell_looks();
    r_.discovery = discovery(who_, r_);
    estimate_numbers(catalogue_, who_, threads_, r_);
    return std::move(r_);
  }

 private:
  // The night afresh, against everyone but the night's own captures: for captures that nobody has settled,
  // and for those that were settled without a ranking.
  void rank() {
    GalleryOptions options;
    for (const CaptureState* capture : captures_) options.leave_out.insert(capture->id);
    options.threads = threads_;
    gallery_.emplace(gallery_of(catalogue_, options));
  }

  Evidence ranked(const CaptureState& capture) {
    const auto query = query_of(catalogue_, capture.id, threads_);
    if (!query) return {};
    const std::map<CaptureId, PeopleSaid> people = people_said(catalogue_.statements(), who_, {capture.id});
    return evidence_of(gallery_->gallery.rank(*query, {.ruled_out = people.at(capture.id).ruled_out()}),
                       *gallery_);
  }

  void tell_photos(const CaptureState& capture) {
    for (const PhotoState& photo : capture.photos) {
      if (photo.usable) continue;
      ReportFailedPhoto failed{photo.name, capture.facts.name, {}};
      const Examination seen = catalogue_.photo(photo.photo, capture.id).examination;
      for (const QualityNote& note : seen.notes)
        if (note.blocks) failed.reasons.push_back(shown_note(note, seen.quality));
      r_.failed_photos.push_back(std::move(failed));
    }
  }

  std::string outcome_of(const CaptureState& capture) const {
    if (capture.individual) {
      const Individual& individual = *who_.individual(*capture.individual);
      const bool first = individual.captures.front() == capture.id;
      return in_words(first ? messages::kOutcomeNew : messages::kOutcomeAgain,
                      {{"individual", names_.of(individual)}});
    }
    if (capture.closed) return in_words(messages::kOutcomeClosed, {{"as", words(capture.closed->as)}});
    return in_words(capture.usable() ? messages::kOutcomeNotSettled : messages::kOutcomeNoUsablePhoto);
  }

  ReportRow row_of(const CaptureState& capture) {
    const CaptureFacts& facts = capture.facts;
    ReportRow row;
    row.capture = facts.name, row.trap = facts.trap, row.sex = name(facts.sex), row.stage = facts.stage;
    row.svl_mm = facts.svl_mm, row.total_mm = facts.total_mm, row.mass_g = facts.mass_g;
    row.released = !facts.lost, row.licence = facts.licence, row.notes = facts.notes;
    row.latitude = facts.latitude, row.longitude = facts.longitude;
    row.outcome = outcome_of(capture);
    if (capture.disputed) row.outcome = in_words(messages::kOutcomeInDispute, {{"outcome", row.outcome}});
    if (capture.individual)
      row.by = placed_by(catalogue_, who_, capture);
    else if (capture.closed)
      row.by = {SettledBy::Kind::person, capture.closed->by};
    return row;
  }

  ReportCapture common(const CaptureState& capture, const PhotoId& photo) {
    ReportCapture out;
    out.name = capture.facts.name, out.trap = capture.facts.trap;
    out.sex = name(capture.facts.sex), out.stage = capture.facts.stage, out.svl_mm = capture.facts.svl_mm;
    if (!photo.empty()) out.strip = strips_.strip(capture, photo);
    if (capture.disputed) out.caution = in_words(messages::kCaptureInDispute);
    return out;
  }

  PhotoId first_usable(const CaptureState& capture) const {
    for (const PhotoState& photo : capture.photos)
      if (photo.usable) return photo.photo;
    return {};
  }

  // What was shown of this individual, or of one that has been joined to it since.
  const Shown* shown_of(const Evidence& evidence, const IndividualId& individual) const {
    for (const Shown& shown : evidence.shown) {
      const CaptureState* capture = who_.capture(shown.capture);
      if (shown.individual == individual || (capture != nullptr && capture->individual == individual))
        return &shown;
    }
    return nullptr;
  }

  ReportCandidate candidate(const CaptureState& capture, const Shown& shown) {
    ReportCandidate out;
    out.individual = names_.of(shown.individual);
    const CaptureState* before = who_.capture(shown.capture);
    if (before != nullptr && before->individual) out.individual = names_.of(*before->individual);
    out.probability = std::clamp(shown.probability, 0.0, 1.0);
    out.matched_spots = shown.matched_spots;
    if (before == nullptr) return out;
    out.before = strips_.strip(*before, shown.photo);
    out.ties = strips_.ties(capture, shown.query_photo, *before, shown.photo);
    return out;
  }

  void tell(const CaptureState& capture) {
    const Decided verdict = decided(catalogue_, who_, capture);
    if (!capture.individual) {
      if (capture.closed || first_usable(capture).empty())
        r_.unusable.push_back({common(capture, {})});
      else
        to_look_at_.push_back(&capture);
      return;
    }
    const Individual& individual = *who_.individual(*capture.individual);
    std::vector<const CaptureState*> earlier;
    for (const CaptureId& id : individual.captures) {
      if (id == capture.id) break;
      earlier.push_back(who_.capture(id));
    }
    const Evidence evidence = verdict.evidence ? *verdict.evidence : ranked(capture);
    if (earlier.empty()) {
      ReportNew out;
      out.capture = common(capture, first_usable(capture));
      out.capture.decided = verdict.decided, out.capture.reason = verdict.reason;
      out.label = individual.name;
      out.probability = std::clamp(evidence.new_probability.value_or(1.0), 0.0, 1.0);
      r_.newcomers.push_back(std::move(out));
      return;
    }
    ReportRecapture out;
    const Shown* shown = shown_of(evidence, individual.id);
    out.capture = common(capture, shown != nullptr ? shown->query_photo : first_usable(capture));
    out.capture.decided = verdict.decided, out.capture.reason = verdict.reason;
    if (shown != nullptr)
      out.match = candidate(capture, *shown);
    else if (const PhotoId photo = first_usable(*earlier.back()); !photo.empty())
      out.match.before = strips_.strip(*earlier.back(), photo);
    out.match.individual = names_.of(individual);
    out.first_night = earlier.front()->facts.night;
    out.last_night = earlier.back()->facts.night;
    out.earlier_captures = static_cast<int>(earlier.size());
    for (const CaptureState* before : earlier)
      if (before->facts.night == out.last_night && before->facts.svl_mm)
        out.last_svl_mm = before->facts.svl_mm;
    r_.recaptures.push_back(std::move(out));
  }

  // Captures of the night that nobody has settled, ranked together, in the order in which looking gains most.
  void tell_looks() {
    if (to_look_at_.empty()) return;
    RankRequest request;
    request.night = r_.night, request.threads = threads_;
    const Ranking ranking = rank_unsettled(catalogue_, request);
    const LookNames words{[&](const IndividualId& id) { return names_.of(id); },
                          [&](const CaptureId& id) { return who_.capture(id)->facts.name; }};
    const auto gain = [&](const CaptureState* capture) {
      const RankedCapture* ranked = ranking.of(capture->id);
      return ranked == nullptr ? 0 : ranked->gain;
    };
    std::stable_sort(to_look_at_.begin(), to_look_at_.end(),
                     [&](const CaptureState* a, const CaptureState* b) { return gain(a) > gain(b); });
    for (const CaptureState* capture : to_look_at_) {
      const RankedCapture* ranked = ranking.of(capture->id);
      const Evidence evidence = ranked == nullptr ? Evidence{} : evidence_of(*ranked, ranking.gallery);
      ReportLook out;
      out.capture =
          common(*capture, evidence.shown.empty() ? first_usable(*capture) : evidence.shown[0].query_photo);
      out.new_probability = std::clamp(evidence.new_probability.value_or(1.0), 0.0, 1.0);
      if (ranked != nullptr) {
        const PeopleSaid& people = ranking.people.at(capture->id);
        out.why = in_words(look_reasons(*ranked, people, ranking.search, words));
        for (const Message& said : ruled_out_words(people, words)) out.why.push_back(said.words());
      }
      for (const Shown& shown : evidence.shown) {
        if (out.candidates.size() == kCandidatesShown) break;
        out.candidates.push_back(candidate(*capture, shown));
      }
      r_.looks.push_back(std::move(out));
    }
  }

  Catalogue& catalogue_;
  const Identities who_;  // a copy: it must outlive other calls on the catalogue
  const Names names_;
  ReportStrips strips_;
  Env& env_;
  const int threads_;
  NightReport r_;
  std::vector<const CaptureState*> captures_, to_look_at_;
  std::optional<CatalogueGallery> gallery_;
};

}  // namespace

NightReport fill_report(Catalogue& catalogue, const ReportRequest& request, Env& env) {
  return Filling(catalogue, request, env).fill();
}

}  // namespace evet
