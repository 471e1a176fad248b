#include "tools/verdicts/objections.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/base/place.h"
#include "matcher/catalogue/messages.h"
#include "tools/verdicts/messages.h"
#include "tools/verdicts/photos_agree.h"
#include "tools/verdicts/sheet_misfits.h"
#include "tools/words/items.h"
#include "tools/words/names.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// The captures that a "same" would bring together: those on one side against those on the other.
struct Sides {
  std::vector<const CaptureState*> own, theirs;
};

std::vector<const CaptureState*> group_of(const Identities& who, const CaptureState& capture) {
  if (!capture.individual) return {&capture};
  std::vector<const CaptureState*> out;
  for (const CaptureId& id : who.individual(*capture.individual)->captures) out.push_back(who.capture(id));
  return out;
}

Sides sides_of(const Identities& who, const CaptureState& capture, const CaptureState& other) {
  if (!capture.individual || capture.individual != other.individual)
    return {group_of(who, capture), group_of(who, other)};
  Sides sides{{&capture}, group_of(who, other)};  // said again: the capture against the rest
  std::erase(sides.theirs, &capture);
  return sides;
}

class Finder {
 public:
  Finder(Catalogue& catalogue, const Identities& who, const Names& names)
      : catalogue_(catalogue), who_(who), names_(names) {}

  const CaptureState& known(const CaptureId& id) const {
    const CaptureState* capture = who_.capture(id);
    if (capture == nullptr)
      throw Error(ErrorKind::not_found, capture_item(id.value), messages::kIsNotInCatalogue);
    return *capture;
  }
  void same(const CaptureState& capture, const CaptureState& other) {
    const Sides sides = sides_of(who_, capture, other);
    same_night(sides), facts(sides), place(sides), not_released(sides), known_as(sides);
    no_usable_photo(capture), no_usable_photo(other);
    photos_disagree(capture);
    closed(capture), closed(other);
  }
  void fresh(const CaptureState& capture) {
    no_usable_photo(capture);
    photos_disagree(capture);
    closed(capture);
  }
  void closing(const CaptureState& capture, const Closing& said);
  std::vector<Against> found;

 private:
  std::string called(const CaptureState& capture) const {
    return in_quotes(names_.of(capture)) + " of " + capture.facts.night;
  }
  // "N-012" for a capture that belongs to it, else the capture.
  std::string whose(const CaptureState& capture) const {
    return capture.individual ? in_quotes(names_.of(*capture.individual)) : capture_item(called(capture));
  }
  void object(const char* code, const Message& why, const CaptureState& capture,
              const CaptureState* beside = nullptr) {
    found.push_back({{code, why.words(), {}}, capture.id, beside == nullptr ? CaptureId() : beside->id});
  }
  void same_night(const Sides& sides);
  void facts(const Sides& sides);
  void place(const Sides& sides);
  void not_released(const Sides& sides);
  void known_as(const Sides& sides);
  void no_usable_photo(const CaptureState& capture);
  void photos_disagree(const CaptureState& capture);
  void closed(const CaptureState& capture);

  Catalogue& catalogue_;
  const Identities& who_;
  const Names& names_;
};

void Finder::same_night(const Sides& sides) {
  for (const CaptureState* own : sides.own)
    for (const CaptureState* their : sides.theirs)
      if (own->facts.night == their->facts.night && own != their)
        return object("same_night",
                      {messages::kInHandThatNight,
                       {{"animal", whose(*their)},
                        {"night", own->facts.night},
                        {"capture", in_quotes(names_.of(*their))},
                        {"place", place_of(their->facts.site, their->facts.pond)}}},
                      *own, their);
}

// Of each kind of misfit the pair that shows it first.
void Finder::facts(const Sides& sides) {
  std::vector<std::string> seen;
  for (const CaptureState* own : sides.own)
    for (const CaptureState* their : sides.theirs) {
      const bool first = their->facts.night <= own->facts.night;
      for (const Misfit& misfit :
           sheet_misfits(first ? their->facts : own->facts, first ? own->facts : their->facts)) {
        if (std::find(seen.begin(), seen.end(), misfit.code) != seen.end()) continue;
        seen.push_back(misfit.code);
        object(misfit.code, misfit.says, *own, their);
      }
    }
}

void Finder::place(const Sides& sides) {
  const auto at = [](const CaptureState* capture) { return capture->facts.site; };
  for (const CaptureState* own : sides.own) {
    const bool known_there = std::any_of(sides.theirs.begin(), sides.theirs.end(),
                                         [&](const CaptureState* one) { return at(one) == at(own); });
    if (known_there || at(own).empty()) continue;
    const CaptureState* their = sides.theirs.back();
    return object(
        "other_site",
        {messages::kNeverCaughtThere,
         {{"animal", whose(*their)}, {"site", in_quotes(at(own))}, {"other", in_quotes(at(their))}}},
        *own, their);
  }
}

void Finder::not_released(const Sides& sides) {
  const auto after = [&](const CaptureState* lost, const CaptureState* later) {
    if (!lost->facts.lost || later->facts.night <= lost->facts.night) return false;
    object("not_released",
           {messages::kNotReleasedThen, {{"capture", called(*lost)}, {"later", called(*later)}}}, *later,
           lost);
    return true;
  };
  for (const CaptureState* own : sides.own)
    for (const CaptureState* their : sides.theirs)
      if (after(own, their) || after(their, own)) return;
}

void Finder::known_as(const Sides& sides) {
  for (const CaptureState* own : sides.own)
    for (const CaptureState* their : sides.theirs) {
      const std::string &a = own->facts.individual, &b = their->facts.individual;
      if (a.empty() || b.empty() || a == b) continue;
      return object("known_as_other",
                    {messages::kKnownUnderTwoNames,
                     {{"capture", called(*own)},
                      {"individual", in_quotes(a)},
                      {"other", called(*their)},
                      {"another", in_quotes(b)}}},
                    *own, their);
    }
}

void Finder::no_usable_photo(const CaptureState& capture) {
  if (capture.usable()) return;
  object("no_usable_photo", {messages::kNobodyCanSeeWho, {{"capture", called(capture)}}}, capture);
}

void Finder::photos_disagree(const CaptureState& capture) {
  if (const auto llr = least_agreement(catalogue_, capture); llr && *llr < -kPhotosDisagree)
    object("photos_disagree", {messages::kPhotosOfTwoAnimals, {{"capture", called(capture)}}}, capture);
}

void Finder::closed(const CaptureState& capture) {
  if (!capture.closed) return;
  object("closed",
         {messages::kCaptureWasClosed,
          {{"capture", called(capture)},
           {"by", capture.closed->by},
           {"on", capture.closed->on},
           {"as", words(capture.closed->as)}}},
         capture);
}

void Finder::closing(const CaptureState& capture, const Closing& said) {
  if (capture.individual)
    object("settled",
           {capture.by_program ? messages::kBelongsByProgram : messages::kBelongsByPerson,
            {{"capture", called(capture)}, {"individual", whose(capture)}}},
           capture);
  if (said.as != ClosedAs::same_capture) {
    if (capture.usable())
      object("usable_photo",
             {said.as == ClosedAs::no_animal ? messages::kHasBellyInPhoto : messages::kHasUsablePhoto,
              {{"capture", called(capture)}}},
             capture);
    return;
  }
  const CaptureState& other = known(said.other);
  if (other.facts.night != capture.facts.night)
    object("other_night",
           {messages::kOfDifferentNights, {{"capture", called(capture)}, {"other", called(other)}}}, capture,
           &other);
  if (const auto llr = best_agreement(catalogue_, capture, other); llr && *llr < -kPhotosDisagree)
    object("photos_disagree",
           {messages::kPhotosLookLikeTwo, {{"capture", called(capture)}, {"other", called(other)}}}, capture,
           &other);
}

}  // namespace

Objections::Objections(Catalogue& catalogue) : Objections(catalogue, catalogue.identities()) {}
Objections::Objections(Catalogue& catalogue, const Identities& who)
    : catalogue_(catalogue), who_(who), names_(who_) {}

std::vector<Against> Objections::to(const Verdict& verdict) const {
  if (verdict.blind) return {};
  Finder finder(catalogue_, who_, names_);
  const CaptureState& capture = finder.known(verdict.capture);
  if (verdict.answer == Answer::same) finder.same(capture, finder.known(verdict.other));
  if (verdict.answer == Answer::new_individual) finder.fresh(capture);
  return std::move(finder.found);
}

std::vector<Against> Objections::to(const Closing& closing) const {
  Finder finder(catalogue_, who_, names_);
  finder.closing(finder.known(closing.capture), closing);
  return std::move(finder.found);
}

std::vector<Against> objections_to(Catalogue& catalogue, const Verdict& verdict) {
  return Objections(catalogue).to(verdict);
}

std::vector<Against> objections_to(Catalogue& catalogue, const Closing& closing) {
  return Objections(catalogue).to(closing);
}

HeldBack hold_back(Catalogue& catalogue, Ranking& ranking, const Identities* who) {
  HeldBack out;
  const Objections objections(catalogue, who != nullptr ? *who : catalogue.identities());
  for (RankedCapture& ranked : ranking.captures) {
    if (ranked.advice == Advice::look) continue;
    Verdict verdict{.capture = ranked.capture, .answer = Answer::new_individual};
    if (ranked.advice == Advice::same) {
      verdict.answer = Answer::same;
      verdict.other = ranking.gallery.capture_of.at(ranked.candidates.front().best_photo);
    }
    std::vector<Against> found = objections.to(verdict);
    if (found.empty()) continue;
    ranked.advice = Advice::look;
    out.emplace(ranked.capture, std::move(found));
  }
  return out;
}

std::vector<Objection> overrule(const std::vector<Against>& found, const std::string& reason,
                                const std::vector<std::string>* shown, const std::string& item,
                                const Message& what_to_do) {
  std::vector<Objection> out;
  std::vector<std::string> sentences;
  bool all_shown = true;
  for (const Against& one : found) {
    out.push_back(one.objection);
    out.back().reason = reason;
    sentences.push_back(one.objection.sentence);
    all_shown = all_shown && (shown == nullptr ||
                              std::find(shown->begin(), shown->end(), one.objection.code) != shown->end());
  }
  if (out.empty() || (all_shown && !reason.empty())) return out;
  throw Error(ErrorKind::conflict, item, bare(listed(sentences, messages::kAndAlso)), what_to_do);
}

}  // namespace evet
