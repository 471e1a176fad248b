// `evet review`: the page of a catalogue, served until the program is stopped.
#pragma once
#include <filesystem>
#include <iosfwd>

#include "matcher/base/env.h"
#include "tools/review/page.h"

namespace evet::review {

// Prints the address to open, one line, and what the user should know, then serves until SIGINT or SIGTERM.
// Errors: those of Server, Page and PageOptions; usage when others may come in and there is no passphrase.
void serve(const std::filesystem::path& catalogue, Env& env, PageOptions options, std::ostream& out,
           std::ostream& log);

}  // namespace evet::review
