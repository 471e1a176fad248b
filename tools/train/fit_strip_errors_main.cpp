// evet-fit-strip-errors: fits models/weights/strip_errors.json on rendered photos.
// See its card, models/weights/strip_errors.md.
#include <CLI/CLI.hpp>
#include <fstream>
#include <iostream>
#include <opencv2/core.hpp>
#include <utility>

#include "matcher/base/error.h"
#include "tools/render/photo_truth.h"
#include "tools/train/fit_strip_errors.h"
#include "tools/train/messages.h"
#include "tools/train/rendered_set.h"

int main(int argc, char** argv) {
  using namespace evet;
  CLI::App app{"Learns from rendered photos of a fit world how found strips are wrong."};
  std::uint64_t world = 3;
  std::uint32_t hardest = 80, middle = 40;
  int modes = 24, threads = 2;
  double rest = 0.004;
  std::string out;
  app.add_option("--world", world, "seed to fit on (1 to 99)");
  std::string world_kind = "drawn";
  app.add_option("--world-kind", world_kind, "the ways to draw: so many individuals of each")
      ->check(CLI::IsMember({"drawn", "solid", "both"}));
  app.add_option("--hardest", hardest, "individuals at the hardest difficulty, two photos each");
  app.add_option("--middle", middle, "individuals at middle difficulty, two photos each");
  app.add_option("--modes", modes, "directions kept")->check(CLI::Range(1, 2 * kNodes));
  app.add_option("--rest", rest, "standard deviation of what they leave, in belly lengths");
  app.add_option("--threads", threads)->check(CLI::Range(1, 512));
  app.add_option("--out", out, "write the weights here")->required();
  CLI11_PARSE(app, argc, argv);
  try {
    cv::setNumThreads(1);
    std::vector<render::World> drawings = {render::World::drawn, render::World::solid};
    if (world_kind != "both") drawings = {render::world_named(world_kind)};
    std::vector<std::vector<double>> examples;
    for (const render::World drawing : drawings)
      for (const auto& [difficulty, individuals] :
           {std::pair(render::Difficulty::hardest, hardest), std::pair(render::Difficulty::middle, middle)})
        for (auto& example : train::rendered_examples(world, difficulty, individuals, 2, threads, drawing))
          examples.push_back(std::move(example));
    const StripErrors errors = train::fit_strip_errors(examples, modes, rest);
    std::cout << examples.size() << " strips\n";
    std::ofstream file(out);
    file << to_json(errors);
    if (!file.flush()) throw Error(ErrorKind::storage, out, messages::kWeightsCouldNotBeWritten);
  } catch (const Error& error) {
    std::cerr << error.what() << "\n";
    return exit_code(error.kind());
  }
}
