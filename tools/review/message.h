// A request and its answer as plain values, so that everything behind the socket can be tested and fuzzed
// without one.
#pragma once
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "matcher/base/env.h"

namespace evet::review {

struct Request {
  std::string method;                          // "GET", "HEAD" or "POST"
  std::string target;                          // as in the request line: path and query, still encoded
  std::map<std::string, std::string> headers;  // names in lower case
  std::string body;
  std::string peer{};  // numeric address of who asks; empty where there is no socket

  std::string header(const std::string& lower_case_name) const;  // empty when absent
};

struct Response {
  int status = 200;
  std::string type = "application/json; charset=utf-8";
  std::string body;
  std::map<std::string, std::string> headers{};
};

// A target taken apart. Paths are made of letters, digits and "-_.:" between slashes; nothing is decoded in
// them, so that no spelling of ".." exists.
struct Target {
  std::vector<std::string> path;  // "/api/night/2031-05-14" -> {"api", "night", "2031-05-14"}; "/" -> {}
  std::map<std::string, std::string> query;  // decoded; the first of equal names counts
};
inline constexpr std::size_t kMaxTarget = 2048;
std::optional<Target> parse_target(std::string_view target);  // nothing when it is not one of ours

Response json_answer(const nlohmann::json& json, int status = 200);
// {"error": {"kind", "sentence"}}
Response error_answer(int status, const std::string& kind, const std::string& sentence,
                      const std::string& code = {});
// Of a page that stands for itself, with its styles and pictures inside: no script runs and nothing is fetched.
Response document(Response html);

}  // namespace evet::review
