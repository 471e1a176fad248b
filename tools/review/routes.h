// The table of the page's addresses.
#pragma once
#include <span>
#include <string>

#include "tools/review/desk.h"
#include "tools/review/house.h"

namespace evet::review {

struct Route {
  const char* method;
  const char* path;  // parts with '*' for a value: "api/capture/*"
  nlohmann::json (*view)(Call&) = nullptr;
  Response (*picture)(Call&) = nullptr;       // does its own locking
  nlohmann::json (*house)(Visit&) = nullptr;  // needs no catalogue
  bool raw = false;                           // the body is bytes, not JSON
};

std::span<const Route> all_routes();
// Null when no route has this method and shape.
const Route* find_route(const std::string& method, const Target& target);

}  // namespace evet::review
