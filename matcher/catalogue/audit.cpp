#include "matcher/catalogue/audit.h"

#include <set>

#include "matcher/base/error.h"
#include "matcher/catalogue/catalogue_parts.h"
#include "matcher/catalogue/growth.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/without_file.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using Parts = CatalogueParts;

void check_photos(const Parts& parts, const AuditOptions& options, AuditReport& report) {
  const std::vector<PhotoId> photos = parts.store.photos();
  report.photos = photos.size();
  const std::set<PhotoId> without = without_file(parts.store, parts.photos);
  report.never_here = {without.begin(), without.end()};
  size_t done = 0;
  for (const PhotoId& photo : photos) {
    try {
      if (without.contains(photo)) {
        if (parts.env->facts(parts.photos.path(photo)).kind != FileKind::none) parts.photos.read(photo);
      } else if (options.photos) {
        parts.photos.read(photo);
      } else if (!parts.photos.has(photo)) {
        report.findings.push_back({"photo " + photo.value, {messages::kPhotoFileGone}});
      }
    } catch (const Error& error) {
      report.findings.push_back(finding_of(error));
    }
    if (options.progress) options.progress(++done, photos.size());
  }
}

size_t stray_files(const Parts& parts) {
  const fs::path folder = parts.folder / "photos";
  std::set<std::string> known;
  for (const PhotoId& photo : parts.store.photos()) known.insert(photo.value);
  size_t stray = 0;
  if (!parts.env->exists(folder)) return 0;
  for (const std::string& name : parts.env->list_folder(folder))
    if (fs::is_directory(folder / name))
      for (const std::string& file : parts.env->list_folder(folder / name)) stray += !known.contains(file);
  return stray;
}

void check_cache(Parts& parts, AuditReport& report) {
  std::set<PhotoId> damaged;
  for (const PhotoId& photo : parts.apart ? parts.apart->cache : parts.cache.damaged()) damaged.insert(photo);
  for (const PhotoId& photo : damaged)
    report.findings.push_back({"cache",
                               {photo.empty() ? Message(messages::kCacheUnreadable)
                                              : Message(messages::kCacheDamaged, {{"photo", photo.value}})}});
}

// The proof, in text; a finding where there is none.
void check_growth(const TreeHead& from, const std::vector<Digest>& leaves, AuditReport& report) {
  const auto proof = proof_of_growth(from, leaves);
  report.proof.clear();
  if (!proof) {
    report.findings.push_back(
        {"ledger",
         {Message(messages::kNotGrownFrom, {{"entries", from.entries}, {"root", hex(from.root)}})}});
    return;
  }
  report.proof_from = text_of(from);
  for (const Digest& step : *proof) report.proof.push_back(hex(step));
}

// Of the heads seen before in this very folder: in another copy entries came in another order, and the heads
// themselves are looked for.
void check_growth_since(const std::vector<Witnessed>& witnessed, const std::vector<std::string>& hashes,
                        const std::vector<Digest>& leaves, AuditReport& report) {
  for (const Witnessed& seen : witnessed) {
    if (seen.root.empty()) continue;
    const TreeHead head = tree_head_of(seen.root, "witnessed");
    if (head.entries > 0 && head.entries <= leaves.size() && hashes[head.entries - 1] == seen.hash)
      check_growth(head, leaves, report);
  }
}

}  // namespace

void AuditOptions::check() const {
  const auto check_hash = [](const char* item, const std::string& hash) {
    if (hash.size() != 64 || hash.find_first_not_of("0123456789abcdef") != std::string::npos)
      throw Error(ErrorKind::bad_input, item, Message(messages::kIsNotHeadHash, {{"hash", hash}}),
                  messages::kGiveHeadHash);
  };
  if (!against.empty()) check_hash("against", against);
  for (const Witnessed& seen : witnessed) {
    check_hash("witnessed", seen.hash);
    if (!seen.root.empty()) tree_head_of(seen.root, "witnessed");
  }
  if (!grown_from.empty()) tree_head_of(grown_from, "grown from");
}

namespace {

// In the words of the process that read the folder.
std::vector<Message> bare_each(const std::vector<std::string>& lines) {
  std::vector<Message> out;
  out.reserve(lines.size());
  for (const std::string& line : lines) out.push_back(bare(line));
  return out;
}

// What breaks on the way is a finding like others: the rest is looked at all the same.
template <class Look>
void step(AuditReport& report, const char* item, const Look& look) {
  try {
    look();
  } catch (const Error& error) {
    report.findings.push_back({item, {bare(error.what())}});
  }
}

void add_all(AuditReport& report, const char* item, const std::vector<Message>& lines) {
  for (const Message& line : lines) report.findings.push_back({item, {line}});
}

void check_database(const Parts& parts, AuditReport& report) {
  if (parts.apart) return add_all(report, "database", bare_each(parts.apart->ledger.database));
  step(report, "database", [&] { add_all(report, "database", parts.store.integrity()); });
  step(report, "database", [&] { add_all(report, "database", parts.store.schema_changes()); });
}

// Of all entries, in the ledger's order.
struct Taken {
  std::vector<std::string> hashes;
  std::vector<Digest> leaves;
};

Taken take_entries(const Parts& parts, LedgerCheck& check, AuditReport& report) {
  Taken taken;
  const auto take = [&](const Entry& entry) {
    check.take(entry);
    report.head = entry.hash;
    taken.hashes.push_back(entry.hash);
    taken.leaves.push_back(leaf_hash(entry.hash));
  };
  step(report, "ledger", [&] {
    // Another program may be writing: what counts is what is there now.
    const std::int64_t last = parts.apart ? 0 : parts.store.last_position();
    if (parts.apart)
      for (const StoredEntry& stored : parts.apart->ledger.entries) take(stored.entry);
    else
      parts.store.each_entry(Store::kStart, [&](const StoredEntry& stored) {
        if (stored.position <= last) take(stored.entry);
      });
  });
  if (parts.apart) add_all(report, "ledger", bare_each(parts.apart->ledger.ledger));
  return taken;
}

void check_ledger(const Parts& parts, const AuditOptions& options, LedgerCheck& check, AuditReport& report) {
  const Taken taken = take_entries(parts, check, report);
  report.set_aside = check.set_aside();
  report.entries = check.entries();
  report.devices = check.devices();
  report.keys = check.keys().all();
  report.unsigned_entries = check.keys().unsigned_entries();
  report.unsigned_since = check.keys().unsigned_since();
  report.root = hex(root_of(taken.leaves));
  check_growth_since(options.witnessed, taken.hashes, taken.leaves, report);
  if (!options.grown_from.empty())
    check_growth(tree_head_of(options.grown_from, "grown from"), taken.leaves, report);
  // Every write of the program ends in an entry that vouches for all there is, branches of a fork included
  // once a merge has brought them together.
  const size_t covered = check.covered_by(report.head).value_or(0);
  for (Finding& finding : check.findings())
    (finding.fork && covered == report.entries ? report.forks : report.findings)
        .push_back(std::move(finding));
  if (report.findings.empty() && covered < report.entries)
    report.findings.push_back(
        {"ledger", {Message(messages::kNotVouchedFor, {{"entries", report.entries - covered}})}});
}

AuditAgainst look_for(const std::string& hash, const LedgerCheck& check, AuditReport& report) {
  AuditAgainst against{hash, check.entry_with(hash), 0, 0};
  against.covered = check.covered_by(hash).value_or(0);
  against.added_since = report.entries - against.covered;
  if (!against.entry) report.findings.push_back({"hash " + hash, {messages::kNoEntryWithHash}});
  return against;
}

}  // namespace

AuditReport audit(Catalogue& catalogue, const AuditOptions& options) {
  options.check();
  Parts& parts = parts_of(catalogue);
  AuditReport report;
  check_database(parts, report);
  LedgerCheck check;
  check_ledger(parts, options, check, report);
  if (parts.apart)
    add_all(report, "projections", bare_each(parts.apart->ledger.projections));
  else
    step(report, "projections", [&] { add_all(report, "projections", parts.store.stale_projections()); });
  step(report, "photos", [&] { check_photos(parts, options, report); });
  check_cache(parts, report);
  step(report, "photos", [&] { report.stray_files = stray_files(parts); });
  if (!options.against.empty()) report.against = look_for(options.against, check, report);
  for (const Witnessed& seen : options.witnessed)
    report.witnessed.push_back(look_for(seen.hash, check, report));
  return report;
}

}  // namespace evet
