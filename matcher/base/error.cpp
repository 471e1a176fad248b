#include "matcher/base/error.h"

#include "matcher/base/printable.h"

namespace evet {
namespace {
std::string sentence(const std::string& item, const std::string& wrong, const std::string& right) {
  std::string text = item.empty() ? wrong : item + ": " + wrong;
  if (!right.empty()) text += "; " + right;
  return text;
}
struct KindFacts {
  const char* name;
  int exit_code;
  int http_status;
};
KindFacts facts(ErrorKind kind) {
  switch (kind) {
    case ErrorKind::usage:
      return {"usage", 2, 400};
    case ErrorKind::bad_input:
      return {"bad_input", 3, 422};
    case ErrorKind::not_found:
      return {"not_found", 3, 404};
    case ErrorKind::conflict:
      return {"conflict", 3, 409};
    case ErrorKind::unsupported:
      return {"unsupported", 3, 415};
    case ErrorKind::too_large:
      return {"too_large", 3, 413};
    case ErrorKind::storage:
      return {"storage", 4, 507};
  }
  return {"storage", 4, 507};
}
}  // namespace

Error::Error(ErrorKind kind, const std::string& item, const std::string& what_is_wrong,
             const std::string& what_would_be_right)
    : std::runtime_error(sentence(printable(item), what_is_wrong, what_would_be_right)),
      kind_(kind),
      item_(printable(item)) {}

int exit_code(ErrorKind kind) {
  return facts(kind).exit_code;
}
int http_status(ErrorKind kind) {
  return facts(kind).http_status;
}
const char* name(ErrorKind kind) {
  return facts(kind).name;
}

}  // namespace evet
