// Commands run as the program runs them: databases of folders from elsewhere are read in processes apart, and what
// was made here is known by a list (tools/evet/main.cpp).
#pragma once
#include <filesystem>
#include <memory>
#include <sstream>
#include <vector>

#include "matcher/catalogue/own_databases.h"
#include "matcher/catalogue/read_apart.h"
#include "tools/evet/commands.h"

namespace evet::faults {

// While it lives; before any thread.
struct AsTheProgram {
  ReadersApart readers{std::make_shared<ConfinedMaker>(std::vector{ReadersApart::confined()}), 0};
  OwnDatabases own;
  explicit AsTheProgram(const std::filesystem::path& list) : own(system_env(), list) {
    ReadersApart::use(&readers), OwnDatabases::use(&own);
  }
};

inline int code_of(const Args& args) {
  std::ostringstream out, err;
  Console console{out, err, false, false, false, system_env()};
  return run_evet(args, console);
}

}  // namespace evet::faults
