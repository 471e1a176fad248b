#include "matcher/catalogue/audit.h"

#include <set>

#include "matcher/base/error.h"
#include "matcher/catalogue/catalogue_parts.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using Parts = CatalogueAccess::Parts;

void check_photos(const Parts& parts, const AuditOptions& options, AuditReport& report) {
  const std::vector<PhotoId> photos = parts.store.photos();
  report.photos = photos.size();
  size_t done = 0;
  for (const PhotoId& photo : photos) {
    try {
      if (options.photos) {
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

}  // namespace

void AuditOptions::check() const {
  if (against.empty()) return;
  if (against.size() != 64 || against.find_first_not_of("0123456789abcdef") != std::string::npos)
    throw Error(ErrorKind::bad_input, "against", "'" + against + "' is not a head hash",
                "give the 64 digits (0-9, a-f) printed on a report or by an earlier audit");
}

AuditReport audit(Catalogue& catalogue, const AuditOptions& options) {
  options.check();
  const Parts& parts = CatalogueAccess::parts(catalogue);
  AuditReport report;
  for (const std::string& line : parts.store.integrity()) report.findings.push_back({"database", line});
  for (const std::string& line : parts.store.schema_changes()) report.findings.push_back({"database", line});

  LedgerCheck check;
  // Another program may be writing: what counts is what is there now.
  const std::int64_t last = parts.store.last_position();
  parts.store.each_entry(Store::kStart, [&](const StoredEntry& stored) {
    if (stored.position > last) return;
    check.take(stored.entry);
    report.head = stored.entry.hash;
  });
  for (Finding& finding : check.findings()) report.findings.push_back(std::move(finding));
  report.entries = check.entries();
  report.devices = check.devices();
  // Every write of the program ends in an entry that vouches for all there is.
  if (const size_t covered = check.covered_by(report.head).value_or(0);
      report.findings.empty() && covered < report.entries)
    report.findings.push_back(
        {"ledger", std::to_string(report.entries - covered) +
                       " entries are vouched for by no later one: they were put in past "
                       "the program"});
  for (const std::string& line : parts.store.stale_projections())
    report.findings.push_back({"projections", line});
  check_photos(parts, options, report);
  report.stray_files = stray_files(parts);

  if (!options.against.empty()) {
    AuditAgainst against{options.against, check.entry_with(options.against), 0, 0};
    against.covered = check.covered_by(options.against).value_or(0);
    against.added_since = report.entries - against.covered;
    if (!against.entry)
      report.findings.push_back(
          {"hash " + options.against,
           "no entry has it: the ledger was cut back or written anew since it was printed, or "
           "it was printed of another catalogue"});
    report.against = std::move(against);
  }
  return report;
}

}  // namespace evet
