// The page that is served already on this machine: whoever starts the launcher twice comes to the same page, and not
// to a second program with a list of its own.
//
// A note in the user's state folder, readable by the user alone, holds the address with its token. It outlives a
// program that was killed, so that it is believed only when the page answers.
#pragma once
#include <optional>
#include <string>

#include "tools/intake/known_catalogues.h"

namespace evet::review {

class RunningNote {
 public:
  // Best effort: without a note a second start serves a page of its own.
  RunningNote(const CatalogueHomes& homes, Env& env, std::string url);
  ~RunningNote();
  RunningNote(const RunningNote&) = delete;
  RunningNote& operator=(const RunningNote&) = delete;

 private:
  std::filesystem::path file_;
  Env& env_;
  std::string url_;
};

// An address of the page that is served already, which lets in once; nothing where none answers within a second.
std::optional<std::string> window_of_running_page(const CatalogueHomes& homes, Env& env);

}  // namespace evet::review
