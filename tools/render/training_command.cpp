#include <chrono>
#include <iostream>
#include <memory>

#include "tools/render/commands.h"
#include "tools/render/training_set.h"

namespace evet::render {

void add_training_command(CLI::App& program) {
  CLI::App* command = program.add_subcommand(
      "training", "A flat training set (see tools/render/README.md); goes on where it stopped");
  struct Arguments {
    std::string out;
    TrainingOptions options;
  };
  auto a = std::make_shared<Arguments>();
  TrainingOptions& o = a->options;
  command->add_option("--out", a->out, "folder")->required();
  command->add_option("--seed", o.world_seed, "of the world: keep fit, tune and score apart");
  command->add_option("--first", o.first_individual, "first individual");
  command->add_option("--samples", o.samples);
  command->add_option("--captures", o.captures_per_individual, "of each individual");
  command->add_option("--long-side", o.long_side_px, "of the rendered picture, px");
  command->add_option("--wild", o.wild_share, "share of pictures beyond nature");
  command->add_flag("--foreign", o.conditions.foreign,
                    "refused: foreign conditions are kept back for scores");
  command->add_option("--threads", o.threads);
  command->add_option("--without-mechanism", o.conditions.without_mechanisms);
  command->add_option("--without-background", o.conditions.without_backgrounds);
  command->add_option("--without-light", o.conditions.without_lights);
  command->callback([a] {
    const auto start = std::chrono::steady_clock::now();
    const int rendered = write_training_set(a->out, a->options);
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    std::cout << rendered << " samples in " << seconds << " s, " << 1000 * seconds / std::max(1, rendered)
              << " ms each\n";
  });
}

}  // namespace evet::render
