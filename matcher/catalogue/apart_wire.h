// What a process that reads a database apart (read_apart.h) tells: rows of the ledger, and what is wrong. Taken
// from bytes that may be anything: each row and text within bounds, positions ever greater, no more in all than
// the database could have held.
#pragma once
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "matcher/base/error.h"
#include "matcher/catalogue/stored_entry.h"
#include "matcher/photo/wire.h"

namespace evet {

// What else is told beside rows.
enum class ToldOf : std::uint8_t { database, ledger, projections, cache, unread, device, device_file, state };

struct ApartError {
  ErrorKind kind = ErrorKind::storage;
  bool altered = false;  // an AlteredCatalogue
  std::string words;     // without the item
};

// In the process apart: what is told goes out in pieces.
class ApartTeller {
 public:
  explicit ApartTeller(Line& line) : line_(line) {}
  void row(const StoredEntry& stored);
  void finding(ToldOf of, const std::string& words);
  void error(const ApartError& error);
  void done();

 private:
  void send_if(std::size_t more_than);
  Line& line_;
  std::string waiting_;
};

struct ApartListener {
  std::function<void(StoredEntry)> row;
  std::function<void(ToldOf, std::string)> finding;
};
// Until it says that it is done, or why not. `at_most`: bytes in all. Errors: LineBroken.
std::optional<ApartError> listen(Line& line, std::uint64_t at_most, const ApartListener& to);

}  // namespace evet
