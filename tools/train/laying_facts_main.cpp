// evet-laying-facts: writes what a network's looks give on rendered photos, beside the truth, as CSV.
#include <CLI/CLI.hpp>
#include <fstream>
#include <iostream>
#include <mutex>
#include <opencv2/core.hpp>

#include "matcher/base/error.h"
#include "matcher/belly/belly_net.h"
#include "matcher/photo/read_file.h"
#include "tools/render/on_threads.h"
#include "tools/train/laying_facts.h"
#include "tools/train/messages.h"

namespace {

using evet::render::CaptureSpec;

struct Asked {
  std::string net, out, kind = "drawn";
  std::uint64_t world = 50;
  std::uint32_t bellies = 100, others = 20, first = 0;
  int side = 1024, threads = 2;
};

std::vector<CaptureSpec> specs_of(const Asked& asked) {
  using evet::render::Difficulty, evet::render::Subject;
  std::vector<CaptureSpec> specs;
  const auto plan = [&](std::uint32_t individual, Difficulty difficulty, Subject subject) {
    CaptureSpec spec;
    spec.world = asked.kind == "solid" ? evet::render::World::solid : evet::render::World::drawn;
    spec.world_seed = asked.world;
    spec.individual = individual;
    spec.subject = subject;
    spec.size = {asked.side, asked.side * 3 / 4};
    spec.conditions.difficulty = difficulty;
    specs.push_back(spec);
  };
  for (std::uint32_t i = 0; i < asked.bellies; ++i)
    plan(asked.first + i, i % 2 ? Difficulty::hardest : Difficulty::middle, Subject::belly);
  constexpr Subject kOthers[] = {Subject::back, Subject::small_newt, Subject::leaf, Subject::empty_tray,
                                 Subject::blurred};
  for (std::uint32_t i = 0; i < asked.others; ++i) plan(asked.first + i, Difficulty::middle, kOthers[i % 5]);
  return specs;
}

void run(const Asked& asked) {
  const auto bytes = evet::read_file(asked.net, asked.net);
  std::ofstream out(asked.out);
  evet::train::write_header(out);
  const std::vector<CaptureSpec> specs = specs_of(asked);
  std::vector<evet::train::LayingFacts> all(specs.size());
  evet::render::on_threads(specs.size(), asked.threads, [&](std::size_t i) {
    thread_local evet::BellyNet net(bytes);
    all[i] = evet::train::laying_facts(
        specs[i], [&](const cv::Mat3b& look, const cv::Matx23d& at) { return net.look(look, at); });
    for (auto& laid : all[i].laid)
      laid.laid.coordinates = {};  // maps of thousands of photos would fill the memory
  });
  for (const auto& facts : all) evet::train::write_rows(out, facts);
  if (!out.flush())
    throw evet::Error(evet::ErrorKind::storage, asked.out, evet::messages::kCouldNotBeWritten);
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"Writes what a belly network's looks give on rendered photos, beside the truth, as CSV."};
  Asked asked;
  app.add_option("--net", asked.net, "belly.onnx")->required()->check(CLI::ExistingFile);
  app.add_option("--out", asked.out, "CSV file")->required();
  app.add_option("--world-kind", asked.kind)->check(CLI::IsMember({"drawn", "solid"}));
  app.add_option("--world", asked.world, "seed: 1 to 99 to fit on, 100 to 199 to tune on")
      ->check(CLI::Range(1, 199));
  app.add_option("--bellies", asked.bellies, "photos, half of middle and half of the hardest difficulty");
  app.add_option("--others", asked.others, "photos that show no belly");
  app.add_option("--first", asked.first, "number of the first individual");
  app.add_option("--side", asked.side, "longer side of the photos, pixels")->check(CLI::Range(256, 4000));
  app.add_option("--threads", asked.threads)->check(CLI::Range(1, 512));
  CLI11_PARSE(app, argc, argv);
  try {
    cv::setNumThreads(1);
    run(asked);
  } catch (const evet::Error& error) {
    std::cerr << error.what() << "\n";
    return evet::exit_code(error.kind());
  }
}
