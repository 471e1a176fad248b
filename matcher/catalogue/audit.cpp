#include "matcher/catalogue/audit.h"

#include <set>

#include "matcher/base/error.h"
#include "matcher/catalogue/catalogue_parts.h"
#include "matcher/catalogue/growth.h"
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
        report.findings.push_back({"photo " + photo.value, "its file is gone from the catalogue"});
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
    report.findings.push_back(
        {"cache", photo.empty() ? "it cannot be read; delete the folder, it is made again"
                                : "what is kept of photo " + photo.value +
                                      " is not as it was written; delete the folder, it is made again"});
}

// The proof, in text; a finding where there is none.
void check_growth(const TreeHead& from, const std::vector<Digest>& leaves, AuditReport& report) {
  const auto proof = proof_of_growth(from, leaves);
  report.proof.clear();
  if (!proof) {
    report.findings.push_back({"ledger", "it does not begin with the " + std::to_string(from.entries) +
                                             " entries of tree root " + hex(from.root) +
                                             ", in their order: some were changed or left out, or that root "
                                             "is of another copy of the catalogue"});
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
      throw Error(ErrorKind::bad_input, item, "'" + hash + "' is not a head hash",
                  "give the 64 digits (0-9, a-f) printed on a report or by an earlier audit");
  };
  if (!against.empty()) check_hash("against", against);
  for (const Witnessed& seen : witnessed) {
    check_hash("witnessed", seen.hash);
    if (!seen.root.empty()) tree_head_of(seen.root, "witnessed");
  }
  if (!grown_from.empty()) tree_head_of(grown_from, "grown from");
}

AuditReport audit(Catalogue& catalogue, const AuditOptions& options) {
  options.check();
  Parts& parts = parts_of(catalogue);
  AuditReport report;
  // What breaks on the way is a finding like others: the rest is looked at all the same.
  const auto step = [&](const char* item, const auto& look) {
    try {
      look();
    } catch (const Error& error) {
      report.findings.push_back({item, error.what()});
    }
  };
  const auto add_all = [&](const char* item, const std::vector<std::string>& lines) {
    for (const std::string& line : lines) report.findings.push_back({item, line});
  };
  if (parts.apart) add_all("database", parts.apart->ledger.database);
  if (!parts.apart) step("database", [&] { add_all("database", parts.store.integrity()); });
  if (!parts.apart) step("database", [&] { add_all("database", parts.store.schema_changes()); });

  LedgerCheck check;
  std::vector<std::string> hashes;
  std::vector<Digest> leaves;
  const auto take = [&](const Entry& entry) {
    check.take(entry);
    report.head = entry.hash;
    hashes.push_back(entry.hash);
    leaves.push_back(leaf_hash(entry.hash));
  };
  step("ledger", [&] {
    // Another program may be writing: what counts is what is there now.
    const std::int64_t last = parts.apart ? 0 : parts.store.last_position();
    if (parts.apart)
      for (const StoredEntry& stored : parts.apart->ledger.entries) take(stored.entry);
    else
      parts.store.each_entry(Store::kStart, [&](const StoredEntry& stored) {
        if (stored.position <= last) take(stored.entry);
      });
  });
  if (parts.apart) add_all("ledger", bare_each(parts.apart->ledger.ledger));
  report.set_aside = check.set_aside();
  report.entries = check.entries();
  report.devices = check.devices();
  report.keys = check.keys().all();
  report.unsigned_entries = check.keys().unsigned_entries();
  report.unsigned_since = check.keys().unsigned_since();
  report.root = hex(root_of(leaves));
  check_growth_since(options.witnessed, hashes, leaves, report);
  if (!options.grown_from.empty())
    check_growth(tree_head_of(options.grown_from, "grown from"), leaves, report);
  // Every write of the program ends in an entry that vouches for all there is, branches of a fork included
  // once a merge has brought them together.
  const size_t covered = check.covered_by(report.head).value_or(0);
  for (Finding& finding : check.findings())
    (finding.fork && covered == report.entries ? report.forks : report.findings)
        .push_back(std::move(finding));
  if (report.findings.empty() && covered < report.entries)
    report.findings.push_back(
        {"ledger", std::to_string(report.entries - covered) +
                       " entries are vouched for by no later one: they were put in past "
                       "the program"});
  if (parts.apart)
    add_all("projections", parts.apart->ledger.projections);
  else
    step("projections", [&] { add_all("projections", parts.store.stale_projections()); });
  step("photos", [&] { check_photos(parts, options, report); });
  check_cache(parts, report);
  step("photos", [&] { report.stray_files = stray_files(parts); });

  const auto look_for = [&](const std::string& hash) {
    AuditAgainst against{hash, check.entry_with(hash), 0, 0};
    against.covered = check.covered_by(hash).value_or(0);
    against.added_since = report.entries - against.covered;
    if (!against.entry)
      report.findings.push_back(
          {"hash " + hash,
           "no entry has it: the ledger was cut back or written anew since it was printed, or "
           "it was printed of another catalogue"});
    return against;
  };
  if (!options.against.empty()) report.against = look_for(options.against);
  for (const Witnessed& seen : options.witnessed) report.witnessed.push_back(look_for(seen.hash));
  return report;
}

}  // namespace evet
