// How well captures are identified, on rendered photographs whose truth is known: from photo file to advice,
// and, to see what the strip costs, the same with strips cut along the truth.
//
// Prints a table in Markdown. World seeds from 200 up are for scores only: nothing is fitted or tuned on
// them; develop on 100 to 199.
#include <CLI/CLI.hpp>
#include <array>
#include <chrono>
#include <fstream>
#include <functional>
#include <iostream>
#include <map>

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
  std::vector<std::string> difficulties = {"middle"};
  std::string source = "pipeline", stage = "all", keep, weights, errors;
  std::vector<std::uint32_t> search_photos = {1};
  std::uint32_t refused = 20;
  bool rotate = false;
  int threads = 2;
};

std::string night_of(double years) {  // ISO dates sort as time does
  const int days = static_cast<int>(years * 365.25);
  return fmt::format("{:04d}-{:02d}-{:02d}", 2031 + days / 336, 1 + days % 336 / 28, 1 + days % 28);
}

// A set of any size, a part at a time: photos and strips need half a megabyte each, patterns a tenth of it.
void for_each_part(const Arguments& a, const std::function<void(const SetSpec&)>& work) {
  constexpr std::uint32_t kPart = 100;
  for (std::uint32_t done = 0; done < a.spec.individuals; done += kPart) {
    SetSpec part = a.spec;
    part.first = done, part.individuals = std::min(kPart, a.spec.individuals - done);
    work(part);
  }
}

std::string years_apart(double years) {
  return years < 0.5 ? "under half a year" : years < 1 ? "half a year to 1" : years < 2 ? "1 to 2" : "2 to 3";
}

// The last capture is the search, or each in turn with --rotate.
void add_captures(std::vector<trial::KnownCapture>& out, const std::vector<SetStrip>& strips,
                  const Arguments& a) {
  double before = 0;  // years of the capture before
  for (const SetStrip& s : strips) {
    const auto& [capture, photo, last, years] = s.facts.plan;
    if (photo == 0) {
      trial::KnownCapture known;
      known.individual = fmt::format("{:05}", s.facts.individual);
      known.capture.capture = CaptureId{fmt::format("{:05}-{}", s.facts.individual, capture)};
      known.capture.facts.night = night_of(years);
      known.groups = {{"mechanism", s.facts.mechanism},
                      {"background", s.facts.background},
                      {"light", s.facts.light},
                      {"years apart", years_apart(years - before)}};
      known.enrolled = a.rotate || !last, known.searched = a.rotate || last;
      out.push_back(std::move(known));
    }
    before = years;
    if (s.strip)
      out.back().capture.photos.push_back(
          {PhotoId{fmt::format("{:05}-{}-{}", s.facts.individual, capture, photo)},
           make_pattern(*s.strip, s.p_head_right)});
  }
}

// The same with the first photos of each searched capture only.
std::vector<trial::KnownCapture> with_first_photos(std::vector<trial::KnownCapture> captures,
                                                   std::uint32_t photos) {
  for (trial::KnownCapture& known : captures)
    if (known.searched)
      std::erase_if(known.capture.photos, [&](const QueryPhoto& p) {
        return std::stoul(p.photo.value.substr(p.photo.value.rfind('-') + 1)) >= photos;
      });
  return captures;
}

// Mated searches whose mate lies below the odds that none, or the allowed share, of the non-mated exceed.
void print_groups(const trial::Trial& trial, const trial::Scores& scores, const std::string& by) {
  const double odds = scores.points.at(0).odds;
  std::map<std::string, std::array<int, 3>> rows;  // searches, first in rank, missed
  for (const trial::Search& s : trial.searches) {
    if (!s.mated || !s.acquired) continue;
    std::array<int, 3>& row = rows[s.groups.at(by)];
    ++row[0], row[1] += s.mate_rank == 1, row[2] += s.mate_odds < odds;
  }
  std::cout << "\n| " << by << " | mated searches | rank-1 | missed at FPIR 1 % |\n|---|---|---|---|\n";
  for (const auto& [name, row] : rows)
    std::cout << fmt::format("| {} | {} | {} | {} |\n", name, row[0], row[1], row[2]);
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
    spec.varied = false, spec.last_photos = 1;
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

// One difficulty: with each number of photos a searched capture.
void measure(Arguments a, const std::string& difficulty, const trial::RunOptions& options) {
  a.spec.difficulty = train::difficulty_named(difficulty);
  const StripSource source = a.source == "truth" ? StripSource::truth : StripSource::pipeline;
  std::vector<trial::KnownCapture> captures;
  for_each_part(a, [&](const SetSpec& part) {
    if (a.stage == "render")
      train::keep_rendered(part, a.keep, a.threads);
    else if (const auto strips = train::kept_strips(part, source, a.keep, a.threads); a.stage == "all")
      add_captures(captures, strips, a);
  });
  if (a.stage != "all") return;
  for (const std::uint32_t photos : a.search_photos) {
    const auto start = std::chrono::steady_clock::now();
    const trial::Trial trial = trial::run(with_first_photos(captures, photos), options);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    std::cout << fmt::format(
        "## World {}, {} difficulty, searched with {} photo(s)\n\n{} individuals, {} captures each, the last "
        "searched, strips from {}\n\n",
        a.spec.world, difficulty, photos, a.spec.individuals,
        a.spec.varied ? fmt::format("2 to {}", a.spec.captures) : std::to_string(a.spec.captures),
        source == StripSource::truth ? "the truth" : "the photo alone");
    const trial::Scores scores = trial::score(trial);
    std::cout << trial::markdown(trial, scores)
              << fmt::format("| a search, {} thread(s) | {:.0f} ms |\n", a.threads,
                             1000 * took.count() / static_cast<double>(trial.searches.size()));
    print_groups(trial, scores, "years apart");
    std::cout << "\n";
    if (!a.errors.empty()) write_errors(trial, a.errors);
  }
  if (a.refused > 0 && source == StripSource::pipeline) print_refused(a);
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"Scores the whole way from photo to advice on rendered individuals."};
  Arguments a;
  a.spec.world = 150;
  app.add_option("--world", a.spec.world, "seed: 100 to 199 to develop, 200 and up to score");
  app.add_option("--individuals", a.spec.individuals);
  app.add_option("--captures", a.spec.captures, "of each individual");
  app.add_flag("--varied", a.spec.varied, "individuals with 2 captures up to that number, in turn");
  app.add_option("--last-photos", a.spec.last_photos, "photos that the set holds of the last capture");
  app.add_option("--search-photos", a.search_photos, "how many of them are searched with; one run for each")
      ->delimiter(',');
  app.add_option("--stage", a.stage, "stop when photos are rendered, or examined (with --keep)")
      ->check(CLI::IsMember({"render", "examine", "all"}));
  app.add_option("--difficulty", a.difficulties, "one run for each")
      ->delimiter(',')
      ->check(CLI::IsMember({"gentle", "middle", "hardest"}));
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
    trial::RunOptions options;
    options.threads = a.threads;
    if (!a.weights.empty()) {
      std::ifstream file(a.weights);
      const std::string text{std::istreambuf_iterator<char>(file), {}};
      options.search.model = std::make_shared<MatchingModel>(parse_matching_model(text, a.weights));
    }
    for (const std::string& difficulty : a.difficulties) measure(a, difficulty, options);
  } catch (const Error& error) {
    std::cerr << error.what() << "\n";
    return exit_code(error.kind());
  }
}
