#include "matcher/base/error.h"

#include "matcher/base/printable.h"

namespace evet {
namespace {
std::string sentence(const std::string& item, const Reason& reason) {
  return item.empty() ? reason.words() : item + ": " + reason.words();
}
std::optional<Message> bare_if_any(const std::string& words) {
  return words.empty() ? std::nullopt : std::optional(bare(words));
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
    : Error(kind, item, Reason{bare(what_is_wrong), bare_if_any(what_would_be_right)}) {}

Error::Error(ErrorKind kind, const std::string& item, const Message& wrong)
    : Error(kind, item, Reason{wrong, std::nullopt}) {}

Error::Error(ErrorKind kind, const std::string& item, const Message& wrong, const Message& right)
    : Error(kind, item, Reason{wrong, right}) {}

Error::Error(ErrorKind kind, const std::string& item, Reason reason)
    : std::runtime_error(sentence(printable(item), reason)),
      kind_(kind),
      item_(printable(item)),
      said_(std::move(reason)) {}

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
