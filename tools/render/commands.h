// The subcommands of evet-render. Each adds itself to the program's options.
#pragma once
#include <CLI/CLI.hpp>

namespace evet::render {

void add_sheet_command(CLI::App& program);
void add_set_command(CLI::App& program);
void add_demo_command(CLI::App& program);
void add_training_command(CLI::App& program);

}  // namespace evet::render
