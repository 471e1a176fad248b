#include "tools/review/assets.h"

namespace evet::review {
namespace {

std::string type_of(const std::string& name) {
  if (name.ends_with(".html")) return "text/html; charset=utf-8";
  if (name.ends_with(".css")) return "text/css; charset=utf-8";
  if (name.ends_with(".svg")) return "image/svg+xml";
  return "text/javascript; charset=utf-8";
}

}  // namespace

std::optional<Response> asset(const std::string& name) {
  for (const AssetFile& file : embedded_assets())
    if (name == file.name) return Response{.type = type_of(name), .body = {file.begin, file.end}};
  return std::nullopt;
}

}  // namespace evet::review
