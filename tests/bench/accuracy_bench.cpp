// How well captures are identified, on rendered photographs whose truth is known: from photo file to advice,
// and, to see what the strip costs, the same with strips cut along the truth.
//
// Prints a table in Markdown. World seeds from 200 up are for scores only: nothing is fitted or tuned on
// them; develop on 100 to 199.
#include <CLI/CLI.hpp>
#include <chrono>
#include <fstream>
#include <iostream>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "matcher/pattern/make_pattern.h"
#include "matcher/search/likelihood.h"
#include "tools/evet/trial_run.h"
#include "tools/evet/trial_text.h"
#include "tools/train/rendered_set.h"

namespace {

using namespace evet;
using train::SetSpec;
using train::SetStrip;
using train::StripSource;

struct Arguments {
  SetSpec spec;
  std::string difficulty = "middle", source = "pipeline", keep, weights, errors;
  std::uint32_t photos_a_capture = 1, refused = 20;
  bool rotate = false;
  int threads = 2;
};

std::string night_of(double years) {  // ISO dates sort as time does
  const int days = static_cast<int>(years * 365.25);
  return fmt::format("{:04d}-{:02d}-{:02d}", 2031 + days / 336, 1 + days % 336 / 28, 1 + days % 28);
}

// Captures of `photos` photos each: the renderer's captures taken in turn. The last is the search, or each in
// turn with --rotate.
std::vector<trial::KnownCapture> known_captures(const std::vector<SetStrip>& strips, const Arguments& a) {
  std::vector<trial::KnownCapture> out;
  for (const SetStrip& s : strips) {
    if (s.capture % a.photos_a_capture == 0) {
      trial::KnownCapture known;
      known.individual = fmt::format("{:05}", s.individual);
      known.capture.capture =
          CaptureId{fmt::format("{:05}-{}", s.individual, s.capture / a.photos_a_capture)};
      known.capture.facts.night = night_of(s.years);
      known.groups = {{"mechanism", s.mechanism}, {"background", s.background}, {"light", s.light}};
      const bool last = s.capture / a.photos_a_capture + 1 == a.spec.captures / a.photos_a_capture;
      known.enrolled = a.rotate || !last, known.searched = a.rotate || last;
      out.push_back(std::move(known));
    }
    if (s.strip)
      out.back().capture.photos.push_back({PhotoId{fmt::format("{:05}-{}", s.individual, s.capture)},
                                           make_pattern(*s.strip, s.p_head_right)});
  }
  return out;
}

void print_refused(const Arguments& a) {
  int refused = 0, shown = 0;
  std::string each;
  using render::Subject;
  for (const auto& [name, subject] :
       {std::pair{"back", Subject::back}, std::pair{"empty tray", Subject::empty_tray},
        std::pair{"leaf", Subject::leaf}, std::pair{"small newt", Subject::small_newt},
        std::pair{"blurred", Subject::blurred}}) {
    SetSpec spec = a.spec;
    spec.subject = subject, spec.individuals = a.refused, spec.captures = 1;
    int here = 0;
    const std::vector<SetStrip> strips = train::kept_strips(spec, StripSource::pipeline, a.keep, a.threads);
    for (const SetStrip& s : strips) here += !s.strip;
    refused += here, shown += static_cast<int>(strips.size());
    each += fmt::format(", {} {} of {}", name, here, strips.size());
  }
  std::cout << fmt::format("| not a belly: refused | {:.1f} %, {} of {}{} |\n", 100.0 * refused / shown,
                           refused, shown, each);
}

void write_errors(const trial::Trial& trial, const std::string& path) {
  std::ofstream file(path);
  file << "individual,mated,acquired,mate_rank,mate_odds,best_odds,advice,mechanism,background,light\n";
  for (const trial::Search& s : trial.searches)
    file << fmt::format("{},{:d},{:d},{},{:.2f},{:.2f},{},{},{},{}\n", s.individual, s.mated, s.acquired,
                        s.mate_rank, s.mate_odds, s.best_odds, name(s.advice), s.groups.at("mechanism"),
                        s.groups.at("background"), s.groups.at("light"));
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"Scores the whole way from photo to advice on rendered individuals."};
  Arguments a;
  a.spec.world = 150;
  app.add_option("--world", a.spec.world, "seed: 100 to 199 to develop, 200 and up to score");
  app.add_option("--individuals", a.spec.individuals);
  app.add_option("--captures", a.spec.captures, "photos of each individual");
  app.add_option("--photos-a-capture", a.photos_a_capture);
  app.add_option("--difficulty", a.difficulty)->check(CLI::IsMember({"gentle", "middle", "hardest"}));
  app.add_option("--strips", a.source)->check(CLI::IsMember({"truth", "pipeline"}));
  app.add_option("--width", a.spec.photo.width);
  app.add_option("--height", a.spec.photo.height);
  app.add_option("--refused", a.refused, "pictures of each kind that is not a belly; 0 leaves them out");
  app.add_flag("--rotate", a.rotate, "search with each capture in turn, not with the last only");
  app.add_option("--keep", a.keep, "keep rendered photos and strips in this folder");
  app.add_option("--weights", a.weights, "matching weights other than those built in");
  app.add_option("--errors", a.errors, "write one line a search to this CSV");
  app.add_option("--threads", a.threads);
  CLI11_PARSE(app, argc, argv);
  try {
    a.spec.difficulty = train::difficulty_named(a.difficulty);
    const StripSource source = a.source == "truth" ? StripSource::truth : StripSource::pipeline;
    trial::RunOptions options;
    options.threads = a.threads;
    if (!a.weights.empty()) {
      std::ifstream file(a.weights);
      const std::string text{std::istreambuf_iterator<char>(file), {}};
      options.search.model = std::make_shared<MatchingModel>(parse_matching_model(text, a.weights));
    }
    const auto captures = known_captures(train::kept_strips(a.spec, source, a.keep, a.threads), a);
    const auto start = std::chrono::steady_clock::now();
    const trial::Trial trial = trial::run(captures, options);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    std::cout << fmt::format(
        "World {}, {} difficulty, {} individuals x {} captures of {} photo(s), strips from {}\n\n",
        a.spec.world, a.difficulty, a.spec.individuals, a.spec.captures / a.photos_a_capture,
        a.photos_a_capture, source == StripSource::truth ? "the truth" : "the photo alone");
    std::cout << trial::markdown(trial, trial::score(trial));
    if (a.refused > 0 && source == StripSource::pipeline) print_refused(a);
    std::cout << fmt::format("| a search, {} thread(s) | {:.0f} ms |\n", a.threads,
                             1000 * took.count() / static_cast<double>(trial.searches.size()));
    if (!a.errors.empty()) write_errors(trial, a.errors);
  } catch (const Error& error) {
    std::cerr << error.what() << "\n";
    return exit_code(error.kind());
  }
}
