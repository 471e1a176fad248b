#include <chrono>
#include <iostream>
#include <memory>

#include "tools/render/commands.h"
#include "tools/render/photo_set.h"
#include "tools/render/photo_truth.h"

namespace evet::render {

void add_set_command(CLI::App& program) {
  CLI::App* command = program.add_subcommand(
      "set", "Photos of many individuals with sheet and truth (photo_set.h); goes on where it stopped");
  struct Arguments {
    std::string out, difficulty = "middle", world = "drawn";
    PhotoSetOptions options;
  };
  auto a = std::make_shared<Arguments>();
  PhotoSetOptions& o = a->options;
  Conditions& c = o.conditions;
  command->add_option("--out", a->out, "folder")->required();
  command->add_option("--seed", o.world_seed, "of the world: 1-99 fit, 100-199 tune, 200 and up score")
      ->capture_default_str();
  command->add_option("--world-kind", a->world, "the way to draw: drawn or solid")->capture_default_str();
  command->add_option("--first", o.first_individual, "first individual");
  command->add_option("--individuals", o.individuals)->capture_default_str();
  command->add_option("--captures", o.captures, "of each individual")->capture_default_str();
  command->add_option("--others", o.others, "photos that show no large newt's belly")->capture_default_str();
  command->add_option("--difficulty", a->difficulty, "gentle, middle, hardest or wild")
      ->capture_default_str();
  command->add_option("--width", o.size.width)->capture_default_str();
  command->add_option("--height", o.size.height)->capture_default_str();
  command->add_flag("--foreign", c.foreign, "conditions kept back from training");
  command->add_flag("--known", o.known, "write the individuals' names on the sheet");
  command->add_flag("--coordinates", o.coordinates, "write body coordinates and masks of every pixel");
  command->add_option("--mechanism", c.only_mechanisms);
  command->add_option("--background", c.only_backgrounds);
  command->add_option("--light", c.only_lights);
  command->add_option("--without-mechanism", c.without_mechanisms);
  command->add_option("--without-background", c.without_backgrounds);
  command->add_option("--without-light", c.without_lights);
  command->add_option("--threads", o.threads);
  command->callback([a] {
    a->options.conditions.wild = a->difficulty == "wild";
    if (!a->options.conditions.wild) a->options.conditions.difficulty = difficulty_named(a->difficulty);
    a->options.world = world_named(a->world);
    const auto start = std::chrono::steady_clock::now();
    const int rendered = write_photo_set(a->out, a->options);
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    std::cout << rendered << " photos in " << seconds << " s\n";
  });
}

}  // namespace evet::render
