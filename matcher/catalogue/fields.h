// Reads the fields of one JSON object, and says which field of what is wrong.
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

namespace evet {

inline constexpr size_t kShortText = 1000;    // bytes of a name, a label, a code
inline constexpr size_t kLongText = 100'000;  // of anything else that people or the program write

// 64 digits 0-9, a-f: a SHA-256, such as names a photo.
bool is_sha256(const std::string& text);

class Fields {
 public:
  // `item` names the object in messages: "capture entry".
  Fields(const nlohmann::json& object, std::string item);

  // Must be there and not empty.
  std::string text(const char* key, size_t at_most = kShortText) const;
  std::string text_or_empty(const char* key, size_t at_most = kShortText) const;
  std::string sha256(const char* key) const;  // 64 lower-case hex digits
  std::string long_text(const char* key) const { return text_or_empty(key, kLongText); }
  std::optional<double> number_if_any(const char* key) const;
  double number(const char* key) const;
  std::int64_t whole(const char* key) const;
  std::int64_t whole_between(const char* key, std::int64_t low, std::int64_t high) const;
  bool flag(const char* key) const;                  // absent = false
  const nlohmann::json& any(const char* key) const;  // null when absent
  const std::string& item() const { return item_; }

 private:
  const nlohmann::json& object_;
  std::string item_;
};

// The way back: what is empty or absent is left out.
void put(nlohmann::json& object, const char* key, const std::string& value);
void put(nlohmann::json& object, const char* key, const std::optional<double>& value);
void put(nlohmann::json& object, const char* key, const std::optional<std::string>& value);
void put_flag(nlohmann::json& object, const char* key, bool value);

}  // namespace evet
