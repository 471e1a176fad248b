#include "tools/evet/fill_report.h"

#include <algorithm>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/moment.h"
#include "matcher/base/version.h"
#include "matcher/catalogue/calibration.h"
#include "matcher/catalogue/photo_work.h"
#include "matcher/catalogue/search_catalogue.h"
#include "tools/evet/costs_words.h"
#include "tools/evet/look_reasons.h"
#include "tools/evet/names.h"
#include "tools/evet/report_decided.h"
#include "tools/evet/report_growth.h"
#include "tools/evet/report_strips.h"
#include "tools/evet/text.h"

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
    choose_place(request);
    for (const CaptureState& capture : who_.captures)
      if (capture.facts.night == r_.night && capture.facts.site == r_.site && capture.facts.pond == r_.pond)
        captures_.push_back(&capture);
    std::sort(captures_.begin(), captures_.end(),
              [](const CaptureState* a, const CaptureState* b) { return listed_before(*a, *b); });
  }

  NightReport fill() {
    rank();
    head();
    for (const CaptureState* capture : captures_) {
      tell_photos(*capture);
      tell(*capture);
    }
    tell_looks();
    r_.discovery = discovery(who_, r_);
    estimate_numbers(catalogue_, who_, r_);
    return std::move(r_);
  }

 private:
  void choose_place(const ReportRequest& request) {
    if (who_.captures.empty())
      throw Error(ErrorKind::not_found, catalogue_.folder().string(), "it holds no capture yet",
                  "take a night in with 'evet intake'");
    r_.night = request.night.empty() ? who_.captures.back().facts.night : request.night;
    std::set<std::pair<std::string, std::string>> places;
    for (const CaptureState& capture : who_.captures)
      if (capture.facts.night == r_.night && (request.site.empty() || capture.facts.site == request.site) &&
          (request.pond.empty() || capture.facts.pond == request.pond))
        places.insert({capture.facts.site, capture.facts.pond});
    if (places.empty())
      throw Error(ErrorKind::not_found, "night " + r_.night, "the catalogue has no capture of it there",
                  "the newest night is " + who_.captures.back().facts.night);
    if (places.size() > 1) {
      std::string list;
      for (const auto& [site, pond] : places)
        list += (list.empty() ? "" : "; ") + evet::quoted(site) +
                (pond.empty() ? "" : " --pond " + evet::quoted(pond));
      throw Error(ErrorKind::usage, "night " + r_.night,
                  "it has captures from several places, and a report is of one",
                  "name it with --site: " + list);
    }
    std::tie(r_.site, r_.pond) = *places.begin();
  }

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
    return evidence_of(gallery_->gallery.rank(*query), *gallery_);
  }

  void head() {
    r_.catalogue = catalogue_.title();
    std::set<std::string> observers, licences;
    for (const CaptureState* capture : captures_) {
      if (!capture->facts.observer.empty()) observers.insert(capture->facts.observer);
      if (!capture->facts.licence.empty()) licences.insert(capture->facts.licence);
      r_.photos_on_sheet += static_cast<int>(capture->photos.size());
    }
    r_.observers.assign(observers.begin(), observers.end());
    r_.licences.assign(licences.begin(), licences.end());
    r_.captures_on_sheet = static_cast<int>(captures_.size());
    std::set<std::string> sheets;
    LedgerQuery nights_only;
    nights_only.kind = NightIntake::kKind;
    const std::vector<EntryId>& out = who_.out_of_force;
    for (const ListedEntry& listed : catalogue_.ledger(nights_only)) {
      if (std::binary_search(out.begin(), out.end(), listed.entry.id)) continue;
      const NightIntake night = std::get<NightIntake>(body_of(listed.entry));
      if (std::find(night.nights.begin(), night.nights.end(), r_.night) == night.nights.end()) continue;
      if (!night.visits.empty() &&
          std::find(night.visits.begin(), night.visits.end(),
                    NightIntake::Visit{r_.site, r_.pond, r_.night}) == night.visits.end())
        continue;
      sheets.insert(night.sheet);
      for (const std::string& sentence : night.refused) {
        const size_t colon = std::min(sentence.find(", "), sentence.find(": "));
        const bool has_line = sentence.starts_with("line ") && colon != std::string::npos;
        r_.refused_rows.push_back(
            {has_line ? sentence.substr(0, colon) : "", has_line ? sentence.substr(colon + 2) : sentence});
      }
    }
    for (const std::string& sheet : sheets) r_.sheet += (r_.sheet.empty() ? "" : ", ") + sheet;
    r_.ledger_head = catalogue_.head_hash();
    r_.ledger_entries = static_cast<int>(catalogue_.ledger().size());
    r_.made_at = to_text(env_.now());
    r_.program = kProgram;
    r_.how = {{"Photos examined by", maker_of({})}};
    const CalibrationInForce own = calibration_in_force(catalogue_);
    const SearchOptions search = search_options_of(catalogue_);
    r_.how.emplace_back("Costs", in_words(costs_of(search)));
    r_.how.emplace_back(
        "Calibration",
        own.calibration
            ? "this catalogue's own, of " + own.calibration_by.time.substr(0, 10) + ", learned from " +
                  counted(static_cast<size_t>(own.calibration->individuals), "individual")
        : own.of_other_weights
            ? "as shipped; this catalogue's own was learned with other weights of the matching model"
            : "as shipped");
  }

  void tell_photos(const CaptureState& capture) {
    for (const PhotoState& photo : capture.photos) {
      if (photo.usable) continue;
      ReportFailedPhoto failed{photo.name, capture.facts.name, {}};
      for (const QualityNote& note : catalogue_.photo(photo.photo, capture.id).examination.notes)
        if (note.blocks) failed.reasons.push_back(note.sentence);
      r_.failed_photos.push_back(std::move(failed));
    }
  }

  ReportCapture common(const CaptureState& capture, const PhotoId& photo) {
    ReportCapture out;
    out.name = capture.facts.name, out.trap = capture.facts.trap;
    out.sex = name(capture.facts.sex), out.stage = capture.facts.stage, out.svl_mm = capture.facts.svl_mm;
    if (!photo.empty()) out.strip = strips_.strip(capture, photo);
    if (capture.disputed) out.caution = "In dispute: verdicts about this capture contradict each other.";
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
      if (first_usable(capture).empty())
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
      out.capture.decided = verdict.sentence;
      out.label = individual.name;
      out.probability = std::clamp(evidence.new_probability.value_or(1.0), 0.0, 1.0);
      r_.newcomers.push_back(std::move(out));
      return;
    }
    ReportRecapture out;
    const Shown* shown = shown_of(evidence, individual.id);
    out.capture = common(capture, shown != nullptr ? shown->query_photo : first_usable(capture));
    out.capture.decided = verdict.sentence;
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
      if (ranked != nullptr) out.why = look_reasons(*ranked, ranking.search, words);
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
