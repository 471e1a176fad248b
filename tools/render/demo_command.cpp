#include <fstream>
#include <iostream>
#include <memory>
#include <stdexcept>

#include "tools/render/commands.h"
#include "tools/render/demo_scenario.h"

namespace evet::render {

namespace {

struct DemoArguments {
  std::string out = "demo_images";
  std::uint64_t seed = 523;
  int width = 1600, height = 1200, threads = 1;
};

void write_truth(const std::filesystem::path& path, const nlohmann::ordered_json& truths) {
  std::ofstream file(path);
  // One photo a line, so that a change shows in a diff.
  file << "[\n";
  for (std::size_t i = 0; i < truths.size(); ++i)
    file << truths[i].dump() << (i + 1 < truths.size() ? ",\n" : "\n");
  file << "]\n";
  file.close();
  if (!file) throw std::runtime_error("cannot write " + path.string());
}

void make_demo(const DemoArguments& a) {
  const std::filesystem::path out = a.out;
  const DemoScenario scenario = demo_scenario(a.seed, {a.width, a.height});
  std::filesystem::create_directories(out / "truth");
  write_truth(out / "truth" / "earlier.json", write_night(out / "earlier", scenario.earlier, a.threads));
  write_truth(out / "truth" / "last_night.json",
              write_night(out / "last_night", scenario.last_night, a.threads));
  std::cout << scenario.earlier.size() << " + " << scenario.last_night.size() << " photos in " << a.out
            << "\n";
}

}  // namespace

void add_demo_command(CLI::App& program) {
  CLI::App* command =
      program.add_subcommand("demo", "The demo's two seasons at an invented pond, with sheets and truth");
  auto a = std::make_shared<DemoArguments>();
  command->add_option("--out", a->out, "folder")->capture_default_str();
  command->add_option("--seed", a->seed, "of the world: 200 or more, so that nothing was fitted on it")
      ->check(CLI::Range(std::uint64_t{200}, std::numeric_limits<std::uint64_t>::max()))
      ->capture_default_str();
  command->add_option("--width", a->width, "of a landscape photo, px")->check(CLI::Range(64, 8000));
  command->add_option("--height", a->height)->check(CLI::Range(64, 8000));
  command->add_option("--threads", a->threads)->check(CLI::Range(1, 64));
  command->callback([a] { make_demo(*a); });
}

}  // namespace evet::render
