#include "matcher/catalogue/merge.h"

#include <algorithm>
#include <iterator>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/base/uuid.h"
#include "matcher/catalogue/catalogue_parts.h"
#include "matcher/catalogue/ledger_check.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/without_file.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using Parts = CatalogueParts;

// Entries may be added to the other catalogue while we read it; what counts is what was there at the start.
void each_until(const Store& store, std::int64_t last, const std::function<void(const Entry&)>& visit) {
  store.each_entry(Store::kStart, [&](const StoredEntry& stored) {
    if (stored.position <= last) visit(stored.entry);
  });
}

// An id or a time far ahead of this machine's clock.
void check_clock(const Entry& entry, std::int64_t now_ms, int most_days_ahead) {
  constexpr std::int64_t kDayMs = 86'400'000;
  const auto time = parse_instant(entry.time);
  const std::int64_t at =
      std::max(is_uuid7(entry.id.value) ? unix_ms_of(entry.id.value) : 0, time ? time->unix_ms : 0);
  const std::int64_t ahead = (at - now_ms) / kDayMs;
  if (ahead <= most_days_ahead) return;
  throw Error(
      ErrorKind::bad_input, "entry " + entry.id.value,
      Message(messages::kWrittenDaysAhead,
              {{"ahead", std::to_string(ahead)}, {"device", entry.device.value}, {"time", entry.time}}),
      Message(messages::kSetWrongClock, {{"ahead", std::to_string(ahead + 1)}}));
}

// Which keys it is signed with.
KeyUses check_other(const Parts& other, std::int64_t last, std::int64_t now_ms, int most_days_ahead) {
  const fs::path& folder = other.folder;
  LedgerCheck check;
  each_until(other.store, last, [&](const Entry& entry) {
    readable(entry);  // a kind of a newer version is told as such
    check.take(entry);
    check_clock(entry, now_ms, most_days_ahead);
  });
  const std::vector<Finding> findings = check.findings();
  const auto bad =
      std::find_if_not(findings.begin(), findings.end(), [](const Finding& finding) { return finding.fork; });
  if (bad == findings.end()) return check.keys();
  throw Error(ErrorKind::bad_input, folder.string(),
              Message(messages::kLedgerDoesNotHold, {{"item", bad->item}, {"wrong", bad->wrong()}}),
              Message(messages::kAuditAndMergeUnharmed, {{"folder", folder.string()}}));
}

std::vector<PhotoId> photos_spoken_of(const Store& store, std::int64_t last) {
  std::set<PhotoId> photos;
  each_until(store, last, [&](const Entry& entry) {
    if (entry.kind != PhotoTaken::kKind) return;
    if (const auto body = readable(entry)) photos.insert(std::get<PhotoTaken>(*body).photo);
  });
  return {photos.begin(), photos.end()};
}

bool whole(const PhotoStore& photos, const PhotoId& photo, bool read) {
  if (!photos.has(photo)) return false;
  if (!read) return true;
  try {
    photos.read(photo);
  } catch (const Error&) {
    return false;
  }
  return true;
}

void bring_photos(Parts& into, const Parts& other, const std::vector<PhotoId>& photos,
                  const MergeOptions& options, MergeReport& report) {
  size_t done = 0;
  for (const PhotoId& photo : photos) {
    if (!whole(into.photos, photo, options.check_photos)) {
      if (whole(other.photos, photo, true)) {
        into.photos.keep(other.photos.read(photo));
        ++report.photos;
      } else {
        report.photos_missing.push_back(photo);
      }
    }
    if (options.progress) options.progress(++done, photos.size());
  }
}

// Refuses what the database could not hold, in words, before it goes in.
void check_fits(const Store& store, const Entry& entry, const Body& body) {
  const auto known = [&](const CaptureId& capture) {
    if (!capture.empty() && !store.has_capture(capture))
      throw Error(ErrorKind::bad_input, "entry " + entry.id.value,
                  Message(messages::kCaptureInNeither, {{"capture", capture.value}}));
  };
  if (const auto* capture = std::get_if<Capture>(&body); capture && store.has_capture(capture->id))
    throw Error(ErrorKind::conflict, "capture " + capture->id.value, messages::kTakenInByDifferentEntries,
                messages::kAuditBoth);
  if (const auto* photo = std::get_if<PhotoTaken>(&body)) known(photo->capture);
  if (const auto* verdict = std::get_if<Verdict>(&body)) known(verdict->capture), known(verdict->other);
}

// Whether the entry is new here.
bool is_new(const Store& store, const Entry& entry) {
  const auto here = store.entry(entry.id);
  if (here && here->entry.hash != entry.hash)
    throw Error(ErrorKind::conflict, "entry " + entry.id.value, messages::kDifferentEntriesUnderId,
                messages::kAuditBoth);
  return !here;
}

size_t count_twins(const Identities& who) {
  size_t twins = 0;
  for (const CaptureState& capture : who.captures) twins += capture.twins.size();
  return twins;
}

}  // namespace

void MergeOptions::check() const {
  if (most_days_ahead < 0 || most_days_ahead > 100'000)
    throw Error(ErrorKind::usage, "--days-ahead",
                Message(messages::kOutOfRange, {{"text", std::to_string(most_days_ahead)}}),
                messages::kUseDaysAhead);
}

namespace {

void bring_entries(Parts& to, const Parts& from, std::int64_t last, MergeReport& report) {
  // First the captures, so that what speaks of them finds them, in whatever order it arrived over there.
  for (const bool captures : {true, false})
    each_until(from.store, last, [&](const Entry& entry) {
      if ((entry.kind == Capture::kKind) != captures || !is_new(to.store, entry)) return;
      ++report.entries;
      const auto body = readable(entry);
      if (!body) {
        to.store.insert(entry);
        return;
      }
      check_fits(to.store, entry, *body);
      to.store.insert(entry, *body);
      report.captures += entry.kind == Capture::kKind;
      report.verdicts += entry.kind == Verdict::kKind;
    });
}

// Photos whose file never was here: those before, and of the new ones those that the other had none of.
std::vector<PhotoId> still_without_file(const Parts& to, const std::set<PhotoId>& before,
                                        const std::set<PhotoId>& known, const MergeReport& report) {
  std::set<PhotoId> without = before;
  std::set_difference(report.photos_missing.begin(), report.photos_missing.end(), known.begin(), known.end(),
                      std::inserter(without, without.end()));
  std::erase_if(without, [&](const PhotoId& photo) { return to.photos.has(photo); });
  return {without.begin(), without.end()};
}

// What is there now, all of it, in one entry of this device's chain.
void vouch(Parts& to, const Actor& actor, const MergeOptions& options, const MergeReport& report,
           std::vector<PhotoId> without) {
  Chain chain = to.chain(actor);
  Merge merge{to.store.heads(),
              {},
              static_cast<std::int64_t>(report.entries),
              static_cast<std::int64_t>(report.photos),
              "merged",
              options.in_spite_of,
              std::move(without)};
  merge.heads.erase(chain.device);
  for (auto& [device, end] : to.store.ends())
    if (const auto head = merge.heads.find(device);
        device == chain.device ? end != chain.head : head == merge.heads.end() || end != head->second)
      merge.also.emplace_back(device, std::move(end));
  to.add(chain, actor, merge);
}

// What the merge brought to light: disputes, entries set aside, and pictures of which the sheets do not agree.
void tell_of_changes(const Identities& before, const Identities& after, MergeReport& report) {
  for (const Dispute& dispute : after.disputes) {
    const bool old = std::any_of(before.disputes.begin(), before.disputes.end(), [&](const Dispute& one) {
      return one.a == dispute.a && one.b == dispute.b;
    });
    if (!old) report.disputes.push_back(dispute);
  }
  std::set_difference(after.set_aside.begin(), after.set_aside.end(), before.set_aside.begin(),
                      before.set_aside.end(), std::back_inserter(report.set_aside));
  for (const CaptureState& capture : after.captures) {
    const CaptureState* old = before.capture(capture.id);
    if (!capture.said_otherwise.empty() && (old == nullptr || old->said_otherwise != capture.said_otherwise))
      report.questions.push_back(capture.id);
  }
}

}  // namespace

MergeReport merge(Catalogue& into, Catalogue& other, const Actor& actor, const MergeOptions& options) {
  options.check();
  Parts& to = parts_of(into);
  Parts& from = parts_of(other);
  if (!to.writable) throw Error(ErrorKind::storage, to.folder.string(), messages::kOpenForReadingOnly);
  if (fs::equivalent(to.folder, from.folder))
    throw Error(ErrorKind::conflict, from.folder.string(), messages::kSameCatalogue,
                messages::kNameAnotherCatalogue);
  const std::int64_t last = from.store.last_position();
  const KeyUses theirs = check_other(from, last, to.env->now().unix_ms, options.most_days_ahead);

  MergeReport report;
  KeyUses ours;
  to.store.each_entry(Store::kStart, [&](const StoredEntry& stored) {
    ours.take(stored.entry, signing_claimed(stored.entry));
  });
  report.new_keys = new_keys(theirs, ours);
  for (const KeyUse& use : ours.all()) report.known_signers.insert(use.who);
  const Identities before = into.identities();
  const std::vector<PhotoId> known = to.store.photos();
  const std::set<PhotoId> without_before = without_file(to.store, to.photos);
  bring_photos(to, from, photos_spoken_of(from.store, last), options, report);
  to.store.transaction([&] {
    bring_entries(to, from, last, report);
    std::vector<PhotoId> without =
        still_without_file(to, without_before, {known.begin(), known.end()}, report);
    // Nothing new, unless a file came that was missing: from now on it would be missed.
    if (report.entries == 0 && without.size() == without_before.size()) return;
    vouch(to, actor, options, report, std::move(without));
    fold(to.store.statements(to.store.last_position()));
  });
  const Identities& after = into.identities();
  tell_of_changes(before, after, report);
  report.twins = count_twins(after) - count_twins(before);
  report.head = into.head_hash();
  return report;
}

}  // namespace evet
