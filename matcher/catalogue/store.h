// catalogue.sqlite: the ledger and its projections, through SQLiteCpp. Knows rows and
// transactions, not meaning.
#pragma once
#include <filesystem>
#include <functional>
#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/env.h"
#include "matcher/base/message.h"
#include "matcher/catalogue/entry.h"
#include "matcher/catalogue/ledger_query.h"
#include "matcher/catalogue/records.h"
#include "matcher/catalogue/statements.h"
#include "matcher/catalogue/stored_entry.h"

namespace evet {

struct StoreParts;  // store_parts.h

class Store {
 public:
  // Before every entry, those included that were put in past the program at a position it never gives.
  static constexpr std::int64_t kStart = std::numeric_limits<std::int64_t>::min();

  // Writes a new file with the schema and nothing else.
  static void create(const std::filesystem::path& file);
  // Errors: bad_input when the file holds what would act by itself: a view, a trigger that is not the
  // program's, a table of its name with other columns.
  Store(const std::filesystem::path& file, bool write, int busy_timeout_ms);
  // In memory; `file` is the name in errors.
  static Store in_memory(const std::filesystem::path& file);
  // Of a file, without reading on: two numbers of its header, of which the first changes with every change.
  static std::string state_of(const std::filesystem::path& file);
  // Puts this one in the place of what `file` holds, whole or not at all, without reading more of that than its
  // header; other programs that have it open go on with what is there then. False, and nothing is done, where the
  // file has changed since it was in `state`.
  bool put_into(const std::filesystem::path& file, const std::string& state, int busy_timeout_ms) const;
  // Whether what a stopped program left half written has to be played back before anything can be read, and
  // may not be, since the file is open for reading.
  bool needs_playback() const;
  ~Store();
  Store(Store&&) noexcept;

  // Runs `work` in one transaction that has the write lock from its start; undone when `work` throws.
  void transaction(const std::function<void()>& work);

  // Inside a transaction. Projects the entry as well; returns its position.
  std::int64_t insert(const Entry& entry, const Body& body);
  std::int64_t insert(const Entry& entry);  // of one that is set aside: the tables hold nothing of it
  void set_here(const std::string& key, const std::string& value);
  void rebuild_projections();

  std::optional<std::string> here(const std::string& key) const;
  bool projections_current() const;
  std::int64_t last_position() const;
  std::string last_id() const;  // empty when there is none
  std::optional<Merge::Head> head(const DeviceId& device) const;
  std::map<DeviceId, Merge::Head> heads() const;
  std::vector<std::pair<DeviceId, Merge::Head>> ends() const;  // of every chain, and of each branch of a fork

  bool has_capture(const CaptureId& id) const;
  bool has_photo(const PhotoId& id) const;
  bool has_entry(const EntryId& id) const;
  // Whether a person has an entry signed with this key; with any, where it is empty.
  bool has_signed(const std::string& person, const std::string& key) const;
  std::optional<StoredEntry> entry(const EntryId& id) const;
  std::optional<StoredEntry> entry_at(std::int64_t position) const;
  void each_entry(std::int64_t after_position, const std::function<void(const StoredEntry&)>& visit) const;
  std::vector<StoredEntry> list(const LedgerQuery& query) const;
  // Everything said up to `position`, from the projections.
  Statements statements(std::int64_t position) const;
  std::vector<CaptureId> captures_with_photo(const PhotoId& photo) const;
  std::optional<std::int64_t> photo_entry(const PhotoId& photo, const CaptureId& capture) const;
  std::vector<PhotoId> photos() const;
  std::optional<Body> first_body() const;  // of the oldest catalogue_made

  // For the audit, each a list of findings, empty when all is well.
  std::vector<Message> integrity() const;          // SQLite's own
  std::vector<Message> schema_changes() const;     // tables, indices and triggers that are not as made
  std::vector<Message> stale_projections() const;  // tables that differ from what the ledger gives anew

 private:
  explicit Store(std::unique_ptr<StoreParts> parts);
  static const std::map<std::string, std::string>& schema_as_made();
  bool any_row(const char* question, const std::string& value) const;
  void project_all(StoreParts& into) const;
  std::unique_ptr<StoreParts> parts_;
};

}  // namespace evet
