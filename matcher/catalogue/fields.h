// Reads the fields of one JSON object, and says which field of what is wrong.
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

namespace evet {

class Fields {
 public:
  // `item` names the object in messages: "capture entry".
  Fields(const nlohmann::json& object, std::string item);

  std::string text(const char* key) const;  // must be there and not empty
  std::string text_or_empty(const char* key) const;
  std::optional<double> number_if_any(const char* key) const;
  double number(const char* key) const;
  std::int64_t whole(const char* key) const;
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
