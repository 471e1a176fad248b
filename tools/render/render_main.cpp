#include <exception>
#include <iostream>

#include "tools/render/commands.h"

int main(int argc, char** argv) {
  CLI::App program("Renders photographs of large newts' bellies with their truth", "evet-render");
  program.require_subcommand(1);
  evet::render::add_sheet_command(program);
  evet::render::add_training_command(program);
  evet::render::add_set_command(program);
  evet::render::add_demo_command(program);
  try {
    program.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return program.exit(error) == 0 ? 0 : 2;
  } catch (const std::exception& error) {
    std::cerr << "evet-render: " << error.what() << "\n";
    return 3;
  }
  return 0;
}
