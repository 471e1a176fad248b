// A catalogue on disk: one folder with the ledger (catalogue.sqlite), the photos bit for bit (photos/) and a
// disposable cache (cache/). Everything anyone says goes in through append(); who is who comes out of
// identities(), folded from the ledger and never stored as truth.
//
// One object serves one thread; several objects and several processes may have the same folder open. A
// write is one transaction: when append() returns, the entries are on the disk; when it throws, none of
// them is. Errors of all functions: Error{storage} when the disk or the database fails, or another
// program keeps it busy.
#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/env.h"
#include "matcher/catalogue/cache.h"
#include "matcher/catalogue/entry.h"
#include "matcher/catalogue/fold.h"
#include "matcher/catalogue/ledger_query.h"
#include "matcher/catalogue/statements.h"

namespace evet {

enum class Access { read, write };

struct CatalogueOptions {
  Access access = Access::write;
  int busy_timeout_ms = 10000;  // how long to wait while another program writes
  void check() const;
};

struct ListedEntry {
  std::int64_t position = 0;  // order of arrival in this folder
  Entry entry;
};

struct CatalogueParts;  // catalogue_parts.h

class Catalogue {
 public:
  // Makes `folder` (which must not exist, or be empty) into a catalogue. Errors: conflict
  // when something is there.
  static Catalogue create(const std::filesystem::path& folder, const std::string& title, const Actor& actor,
                          Env& env);
  // One made elsewhere: taken_over.h. Errors: not_found, bad_input (no catalogue), unsupported (a newer version's).
  static Catalogue open(const std::filesystem::path& folder, Env& env, const CatalogueOptions& options = {});
  // For reading a folder from elsewhere, its database in a process that can do no harm (read_apart.h) where the
  // program has one; else as open() does. What is read is what was there now. For an audit what cannot be read
  // is no error but a finding.
  static Catalogue open_apart(const std::filesystem::path& folder, Env& env, bool for_audit = false,
                              const CatalogueOptions& options = {.access = Access::read});
  Catalogue(Catalogue&&) noexcept;
  Catalogue& operator=(Catalogue&&) noexcept;
  ~Catalogue();

  // Adds what `actor` says, all or nothing, and returns the entries as written. Errors: bad_input for a body
  // that names a capture, photo or entry that is neither in the catalogue nor earlier in `bodies`.
  std::vector<Entry> append(const Actor& actor, const std::vector<Body>& bodies);
  CaptureId new_capture_id();

  // Keeps the photo before any entry speaks of it; storing it twice keeps one file. Returns
  // its name: its SHA-256.
  PhotoId store_photo(BytesView bytes);
  bool has_photo(const PhotoId& photo) const;
  // Errors: not_found; storage when the bytes are no longer those that were stored.
  Bytes read_photo(const PhotoId& photo) const;
  // Captures whose photos have these very bytes, in any night.
  std::vector<CaptureId> captures_with_photo(const PhotoId& photo);
  // The photo's entry with its newest examination. Errors: not_found.
  PhotoTaken photo(const PhotoId& photo, const CaptureId& capture);

  // Who is who now; also takes in what other programs have written since. Valid until the next
  // call on this object.
  const Identities& identities();
  Identities identities_as_of(const std::string& date_or_time);
  const Statements& statements();

  // With a kind only those that body_of() can read.
  std::vector<ListedEntry> ledger(const LedgerQuery& query = {}) const;
  std::optional<ListedEntry> entry(const EntryId& id) const;
  // Hash of the newest entry: it covers every entry there is. Print it on reports.
  std::string head_hash() const;
  std::string title() const;

  Cache& cache();
  const std::filesystem::path& folder() const;
  // What a user should know about where the catalogue lies (a network drive, a read-only cache); often empty.
  std::vector<std::string> warnings() const;

 private:
  explicit Catalogue(std::unique_ptr<CatalogueParts> parts);
  std::unique_ptr<CatalogueParts> parts_;
  friend CatalogueParts& parts_of(Catalogue& catalogue);
};

// For merge, audit and repair, in this folder.
inline CatalogueParts& parts_of(Catalogue& catalogue) {
  return *catalogue.parts_;
}

}  // namespace evet
