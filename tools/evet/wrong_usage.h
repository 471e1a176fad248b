// What an option may hold, and what is wrong with a command line, in our words: CLI11 finds that something is wrong, and
// its options say what.
#pragma once
#include <CLI/CLI.hpp>
#include <cstdint>
#include <limits>
#include <string>
#include <vector>

#include "matcher/base/error.h"

namespace evet {

// Held to these values. What is refused is thrown as an Error that names the option and what it may hold.
CLI::Option* one_of(CLI::Option* option, const std::vector<std::string>& allowed);
// Whole numbers from `least` to `most`.
CLI::Option* whole_within(CLI::Option* option, std::int64_t least,
                          std::int64_t most = std::numeric_limits<std::int64_t>::max());
CLI::Option* within(CLI::Option* option, double least, double most);

// `app` has read `args` as far as it could, and refused them with `refusal`.
Error wrong_usage(const std::string& command, CLI::App& app, const std::vector<std::string>& args,
                  const CLI::ParseError& refusal);

}  // namespace evet
