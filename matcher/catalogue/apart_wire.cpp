#include "matcher/catalogue/apart_wire.h"

#include <cstring>
#include <limits>

#include "matcher/base/printable.h"

namespace evet {
namespace {

enum class Says : std::uint8_t { row, finding, error, done };

constexpr std::size_t kPiece = 1 << 16, kMostWords = 10'000;
constexpr std::size_t kMostFindings = 1'000'000;

void require(bool holds) {
  if (!holds) throw LineBroken("it says what no reader says");
}

template <class Value>
void put(std::string& to, Value value) {
  to.append(reinterpret_cast<const char*>(&value), sizeof value);
}
void put_text(std::string& to, std::string_view text) {
  put(to, static_cast<std::uint32_t>(text.size()));
  to += text;
}

class Piece {
 public:
  explicit Piece(std::string_view bytes) : bytes_(bytes) {}
  bool empty() const { return bytes_.empty(); }
  template <class Value>
  Value get() {
    Value value;
    std::memcpy(&value, take(sizeof value).data(), sizeof value);
    return value;
  }
  std::string text(std::size_t at_most = std::numeric_limits<std::size_t>::max()) {
    const auto size = get<std::uint32_t>();
    require(size <= at_most);
    return std::string(take(size));
  }

 private:
  std::string_view take(std::size_t size) {
    require(size <= bytes_.size());
    const std::string_view some = bytes_.substr(0, size);
    bytes_.remove_prefix(size);
    return some;
  }
  std::string_view bytes_;
};

StoredEntry get_row(Piece& piece) {
  StoredEntry stored;
  stored.position = piece.get<std::int64_t>();
  Entry& entry = stored.entry;
  const auto kind = piece.get<std::uint8_t>();
  require(kind <= static_cast<std::uint8_t>(ActorKind::program));
  entry.actor.kind = static_cast<ActorKind>(kind);
  entry.seq = piece.get<std::int64_t>();
  for (std::string* text : {&entry.id.value, &entry.device.value, &entry.time, &entry.actor.name, &entry.kind,
                            &entry.body, &entry.prev, &entry.hash})
    *text = piece.text();
  return stored;
}

ApartError get_error(Piece& piece) {
  ApartError error;
  error.kind = static_cast<ErrorKind>(piece.get<std::uint8_t>());
  require(error.kind == ErrorKind::bad_input || error.kind == ErrorKind::unsupported ||
          error.kind == ErrorKind::too_large || error.kind == ErrorKind::storage);
  error.altered = piece.get<std::uint8_t>() != 0;
  error.words = printable(piece.text(kMostWords));
  return error;
}

}  // namespace

void ApartTeller::row(const StoredEntry& stored) {
  const Entry& entry = stored.entry;
  put(waiting_, Says::row);
  put(waiting_, stored.position);
  put(waiting_, static_cast<std::uint8_t>(entry.actor.kind));
  put(waiting_, entry.seq);
  for (const std::string* text : {&entry.id.value, &entry.device.value, &entry.time, &entry.actor.name,
                                  &entry.kind, &entry.body, &entry.prev, &entry.hash})
    put_text(waiting_, *text);
  send_if(kPiece);
}
void ApartTeller::finding(ToldOf of, const std::string& words) {
  put(waiting_, Says::finding);
  put(waiting_, of);
  put_text(waiting_, std::string_view(words).substr(0, kMostWords));
  send_if(kPiece);
}
void ApartTeller::error(const ApartError& error) {
  put(waiting_, Says::error);
  put(waiting_, static_cast<std::uint8_t>(error.kind));
  put(waiting_, static_cast<std::uint8_t>(error.altered));
  put_text(waiting_, std::string_view(error.words).substr(0, kMostWords));
  send_if(0);
}
void ApartTeller::done() {
  put(waiting_, Says::done);
  send_if(0);
}
void ApartTeller::send_if(std::size_t more_than) {
  if (waiting_.size() <= more_than) return;
  line_.put_text(waiting_);
  waiting_.clear();
}

std::optional<ApartError> listen(Line& line, std::uint64_t at_most, const ApartListener& to) {
  std::int64_t last = std::numeric_limits<std::int64_t>::min();
  std::size_t findings = 0;
  for (;;) {
    const std::string bytes = line.get_text(at_most);
    require(!bytes.empty());
    at_most -= bytes.size();
    for (Piece piece(bytes); !piece.empty();) switch (static_cast<Says>(piece.get<std::uint8_t>())) {
        case Says::row: {
          StoredEntry stored = get_row(piece);
          require(stored.position > last);
          last = stored.position;
          to.row(std::move(stored));
          break;
        }
        case Says::finding: {
          const auto of = piece.get<std::uint8_t>();
          require(of <= static_cast<std::uint8_t>(ToldOf::state) && ++findings <= kMostFindings);
          to.finding(static_cast<ToldOf>(of), printable(piece.text(kMostWords)));
          break;
        }
        case Says::error:
          return get_error(piece);
        case Says::done:
          return std::nullopt;
        default:
          require(false);
      }
  }
}

}  // namespace evet
