// How well captures are identified, on rendered photographs whose truth is known: from photo file to advice,
// and, to see what the strip costs, the same with strips cut along the truth.
//
// Prints Markdown; how far it has come goes to standard error. The same figures for any number of threads,
// but for the seconds. World seeds from 200 up are for scores only: nothing is fitted or tuned on them;
// develop on 100 to 199.
//
// --foreign draws patterns, floors, lights, things and camera finishes on which nothing was fitted.
//
// The size asked of a release: --world W --individuals 1040 --captures 4 --varied --last-photos 2
// --search-photos 1,2 --look-alikes 300 --difficulty middle,hardest --threads N. A photo costs half a second
// of one thread, a search a third.
#include <CLI/CLI.hpp>
#include <array>
#include <chrono>
#include <fstream>
#include <functional>
#include <iostream>
#include <map>
#include <set>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "matcher/search/likelihood.h"
#include "tests/bench/weights_file.h"
#include "tools/render/on_threads.h"
#include "tools/render/photo_truth.h"
#include "tools/train/rendered_set.h"
#include "tools/trial/trial_run.h"
#include "tools/trial/trial_text.h"

namespace {

using namespace evet;
using train::SetSpec;
using train::SetStrip;
using train::StripSource;
using Captures = std::vector<trial::KnownCapture>;
using Clock = std::chrono::steady_clock;

struct Arguments {
  SetSpec spec;
  std::vector<std::string> difficulties = {"middle"};
  std::string source = "pipeline", stage = "all", keep, weights, errors, out;
  std::vector<std::uint32_t> search_photos = {1};
  std::uint32_t refused = 20, look_alikes = 0;
  bool rotate = false;
  int threads = 2;
  StripSource from() const { return source == "truth" ? StripSource::truth : StripSource::pipeline; }
};

double since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

std::string night_of(double years) {  // ISO dates sort as time does
  const int days = static_cast<int>(years * 365.25);
  return fmt::format("{:04d}-{:02d}-{:02d}", 2031 + days / 336, 1 + days % 336 / 28, 1 + days % 28);
}

// A set of any size, a part at a time: a photo and its strips need a megabyte, patterns a twentieth of it.
void for_each_part(const Arguments& a, const SetSpec& whole,
                   const std::function<void(const SetSpec&)>& work) {
  const std::uint32_t size =
      a.keep.empty() ? std::max(100U, 8U * static_cast<std::uint32_t>(a.threads)) : 100;
  const auto start = Clock::now();
  for (std::uint32_t done = 0; done < whole.individuals; done += size) {
    SetSpec part = whole;
    part.first = done, part.individuals = std::min(size, whole.individuals - done);
    work(part);
    std::cerr << fmt::format("{}: {} of {} individuals photographed, {:.0f} s\n", whole.name(),
                             done + part.individuals, whole.individuals, since(start))
              << std::flush;
  }
}

std::string years_apart(double years) {
  return years <= 0.31 ? "same season" : years <= 1 ? "to a year" : "1 to 3 years";
}

// The last capture is the search, or each in turn with --rotate; look-alikes are only ever in the gallery.
void add_captures(Captures& out, const std::vector<SetStrip>& strips, const Arguments& a) {
  std::vector<std::optional<Pattern>> patterns(strips.size());
  render::on_threads(strips.size(), a.threads, [&](size_t i) {
    if (strips[i].strip) patterns[i] = train::pattern_of(strips[i]);
  });
  double before = 0;  // years of the capture before
  for (size_t i = 0; i < strips.size(); ++i) {
    const train::PhotoFacts& facts = strips[i].facts;
    const auto& [capture, photo, last, years] = facts.plan;
    const bool known_only = facts.individual >= train::kLookAlikes;
    if (photo == 0) {
      trial::KnownCapture known;
      known.individual = fmt::format("{:06}", facts.individual);
      known.capture.capture = CaptureId{fmt::format("{:06}-{}", facts.individual, capture)};
      known.capture.facts.night = night_of(years);
      known.groups = {{"mechanism", facts.mechanism},
                      {"background", facts.background},
                      {"light", facts.light},
                      {"years apart", years_apart(years - before)}};
      known.enrolled = a.rotate || !last || known_only, known.searched = (a.rotate || last) && !known_only;
      out.push_back(std::move(known));
    }
    before = years;
    if (patterns[i])
      out.back().capture.photos.push_back(
          {PhotoId{fmt::format("{:06}-{}-{}", facts.individual, capture, photo)}, std::move(*patterns[i])});
  }
}

Captures captures_of(const Arguments& a, const SetSpec& whole) {
  Captures out;
  for_each_part(a, whole, [&](const SetSpec& part) {
    if (a.stage == "render")
      train::keep_rendered(part, a.keep, a.threads);
    else if (const auto strips = train::kept_strips(part, a.from(), a.keep, a.threads); a.stage == "all")
      add_captures(out, strips, a);
  });
  return out;
}

// The same with the first photos of each searched capture only.
Captures with_first_photos(Captures captures, std::uint32_t photos) {
  for (trial::KnownCapture& known : captures)
    if (known.searched)
      std::erase_if(known.capture.photos, [&](const QueryPhoto& p) {
        return std::stoul(p.photo.value.substr(p.photo.value.rfind('-') + 1)) >= photos;
      });
  return captures;
}

// Searches and what went wrong at the odds that 1 %, or none, of the non-mated searches exceed.
struct Wrong {
  int mated = 0, first = 0, missed = 0, missed_at_none = 0, non_mated = 0, false_found = 0;
  void add(const trial::Search& s, const trial::Scores& at) {
    if (!s.acquired) return;
    const double odds = at.points[0].odds, odds_none = at.points.back().odds;
    if (s.mated)
      ++mated, first += s.mate_rank == 1, missed += s.mate_odds < odds,
          missed_at_none += s.mate_odds < odds_none;
    else
      ++non_mated, false_found += s.best_odds >= odds;
  }
  std::string row(const std::string& name) const {
    return fmt::format("| {} | {} | {} | {} | {} | {} | {} |\n", name, mated, first, missed, missed_at_none,
                       non_mated, false_found);
  }
  static std::string head(const std::string& by) {
    return "\n| " + by +
           " | mated searches | rank-1 | missed at FPIR 1 % | missed at no false positive | non-mated "
           "searches | "
           "found someone at FPIR 1 % |\n|---|---|---|---|---|---|---|\n";
  }
};

std::string groups_text(const trial::Trial& trial, const trial::Scores& scores, const std::string& by) {
  std::map<std::string, Wrong> rows;
  for (const trial::Search& s : trial.searches) rows[s.groups.at(by)].add(s, scores);
  std::string out = Wrong::head(by);
  for (const auto& [name, wrong] : rows) out += wrong.row(name);
  return out;
}

trial::Trial searched(const Captures& captures, trial::RunOptions options, const std::string& what) {
  const auto start = Clock::now();
  options.progress = [&](size_t done, size_t of) {
    if (done == of || done % std::max<size_t>(1, of / 10) == 0)
      std::cerr << fmt::format("{}: {} of {} searched, {:.0f} s\n", what, done, of, since(start))
                << std::flush;
  };
  return trial::run(captures, options);
}

// The same searches when the gallery also holds an animal of the same kind of pattern, density and colour,
// and when it does not, at the odds of the whole run.
std::string look_alikes_text(const Captures& captures, const Captures& alike, const trial::Trial& without,
                             const trial::Scores& scores, const trial::RunOptions& options) {
  std::set<std::string> wanted;
  for (const trial::KnownCapture& c : alike)
    if (!c.capture.photos.empty())
      wanted.insert(fmt::format("{:06}", std::stoul(c.individual) - train::kLookAlikes));
  Captures all = captures;
  for (trial::KnownCapture& c : all) c.searched = c.searched && wanted.contains(c.individual);
  all.insert(all.end(), alike.begin(), alike.end());
  Wrong with_them, without_them;
  int nearest = 0, non_mated = 0;
  for (const trial::Search& s : without.searches)
    if (wanted.contains(s.individual)) without_them.add(s, scores);
  for (const trial::Search& s : searched(all, options, "look-alikes").searches) {
    with_them.add(s, scores);
    if (s.mated || !s.acquired) continue;
    ++non_mated;
    nearest += s.best_individual == fmt::format("{:06}", std::stoul(s.individual) + train::kLookAlikes);
  }
  return Wrong::head("look-alikes") + with_them.row("one in the gallery") +
         without_them.row("the same captures without") +
         fmt::format("\nThe look-alike is the best candidate of {} of {} non-mated searches.\n", nearest,
                     non_mated);
}

std::string refused_text(const Arguments& a) {
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
  return fmt::format("\nNot a belly, and refused: {:.1f} %, {} of {}{}.\n", 100.0 * refused / shown, refused,
                     shown, each);
}

void write_errors(const trial::Trial& trial, const std::string& difficulty, std::uint32_t photos,
                  std::ofstream& file) {
  for (const trial::Search& s : trial.searches)
    file << fmt::format("{},{},{},{:d},{:d},{},{:.2f},{:.2f},{},{},{},{},{}\n", difficulty, photos,
                        s.individual, s.mated, s.acquired, s.mate_rank, s.mate_odds, s.best_odds,
                        name(s.advice), s.groups.at("years apart"), s.groups.at("mechanism"),
                        s.groups.at("background"), s.groups.at("light"));
}

class Report {  // to standard output and, if wanted, to a file as well
 public:
  explicit Report(const std::string& path) {
    if (path.empty()) return;
    file_.open(path);
    if (!file_) throw Error(ErrorKind::storage, path, "it cannot be written");
  }
  void add(const std::string& text) {
    std::cout << text << std::flush;
    if (file_.is_open()) file_ << text << std::flush;
  }

 private:
  std::ofstream file_;
};

// Captures with the given number of usable photos or more, and the same captures with fewer photos.
std::string photos_text(const std::map<std::uint32_t, trial::Trial>& trials,
                        const std::map<std::uint32_t, trial::Scores>& scores, const Captures& captures) {
  const std::uint32_t most = trials.rbegin()->first;
  std::set<std::string> whole;
  for (const trial::KnownCapture& c : captures)
    if (c.searched && c.capture.photos.size() >= most) whole.insert(c.capture.capture.value);
  std::string out = Wrong::head("photos a search, the same captures");
  for (const auto& [photos, trial] : trials) {
    Wrong wrong;
    for (const trial::Search& s : trial.searches)
      if (whole.contains(s.capture)) wrong.add(s, scores.at(photos));
    out += wrong.row(std::to_string(photos));
  }
  return out;
}

const char* conditions_text(const Arguments& a) {
  return a.spec.foreign                           ? ", foreign conditions"
         : a.spec.drawing == render::World::solid ? ", solid world"
                                                  : "";
}

// One difficulty: with each number of photos a searched capture.
void measure(Arguments a, const std::string& difficulty, const trial::RunOptions& options, Report& report,
             std::ofstream& errors) {
  a.spec.difficulty = train::difficulty_named(difficulty);
  const Captures captures = captures_of(a, a.spec);
  Captures alike;
  if (a.look_alikes > 0) {
    SetSpec spec = a.spec;
    spec.look_alikes = true, spec.varied = false, spec.captures = 2, spec.last_photos = 1;
    spec.individuals = std::min(a.look_alikes, a.spec.individuals);
    alike = captures_of(a, spec);
  }
  if (a.stage != "all") return;
  std::map<std::uint32_t, trial::Trial> trials;
  std::map<std::uint32_t, trial::Scores> scores;
  for (const std::uint32_t photos : a.search_photos) {
    const std::string what = fmt::format("world {}, {}, {} photo(s)", a.spec.world, difficulty, photos);
    const Captures some = with_first_photos(captures, photos);
    const auto start = Clock::now();
    const trial::Trial& trial = trials[photos] = searched(some, options, what);
    const double seconds = since(start);
    trial::ScoreOptions wanted;
    wanted.allowed_fpir = {0.01, 0.001, 0};
    const trial::Scores& s = scores[photos] = trial::score(trial, wanted);
    report.add(fmt::format(
        "## World {}, {} difficulty{}, searched with {} photo(s)\n\n{} individuals, {} captures each, "
        "{} searched, strips from {}\n\n",
        a.spec.world, difficulty, conditions_text(a), photos, a.spec.individuals,
        a.spec.varied ? fmt::format("2 to {}", a.spec.captures) : std::to_string(a.spec.captures),
        a.rotate ? "each in turn" : "the last",
        a.from() == StripSource::truth ? "the truth" : "the photo alone"));
    report.add(trial::markdown(trial, s));
    report.add(fmt::format("| need no look | {:.2f} % ({:.2f}-{:.2f}) |\n", 100 * (1 - s.look.given.value),
                           100 * (1 - s.look.given.high), 100 * (1 - s.look.given.low)));
    report.add(fmt::format("| a search, {} thread(s) | {:.0f} ms; of one thread {:.0f} ms |\n", a.threads,
                           1000 * seconds / static_cast<double>(trial.searches.size()),
                           1000 * a.threads * seconds / static_cast<double>(trial.searches.size())));
    for (const char* by : {"years apart", "mechanism", "background", "light"})
      report.add(groups_text(trial, s, by));
    if (!alike.empty()) report.add(look_alikes_text(some, alike, trial, s, options));
    report.add("\n");
    if (errors.is_open()) write_errors(trial, difficulty, photos, errors);
  }
  if (trials.size() > 1)
    report.add(fmt::format("## World {}, {} difficulty{}, number of photos\n", a.spec.world, difficulty,
                           conditions_text(a)) +
               photos_text(trials, scores, captures) + "\n");
  if (a.refused > 0 && a.from() == StripSource::pipeline) report.add(refused_text(a) + "\n");
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
  app.add_option("--look-alikes", a.look_alikes,
                 "individuals searched again with a look-alike in the gallery");
  app.add_option("--stage", a.stage, "stop when photos are rendered, or examined (with --keep)")
      ->check(CLI::IsMember({"render", "examine", "all"}));
  app.add_option("--difficulty", a.difficulties, "one run for each")
      ->delimiter(',')
      ->check(CLI::IsMember({"gentle", "middle", "hardest"}));
  app.add_flag("--foreign", a.spec.foreign, "conditions kept back from training; worlds from 200 up");
  std::string drawing = "drawn";
  app.add_option("--world-kind", drawing, "the way to draw")->check(CLI::IsMember({"drawn", "solid"}));
  app.add_option("--strips", a.source)->check(CLI::IsMember({"truth", "pipeline"}));
  app.add_option("--width", a.spec.photo.width);
  app.add_option("--height", a.spec.photo.height);
  app.add_option("--refused", a.refused, "pictures of each kind that is not a belly; 0 leaves them out");
  app.add_flag("--rotate", a.rotate, "search with each capture in turn, not with the last only");
  app.add_option("--keep", a.keep, "keep rendered photos and strips in this folder");
  app.add_option("--weights", a.weights, "matching weights other than those built in");
  app.add_option("--errors", a.errors, "write one line a search to this CSV");
  app.add_option("--out", a.out, "write what is printed to this file too");
  app.add_option("--threads", a.threads)->check(CLI::Range(1, 512));
  CLI11_PARSE(app, argc, argv);
  try {
    a.spec.drawing = render::world_named(drawing);
    cv::setNumThreads(1);
    trial::RunOptions options;
    options.threads = a.threads;
    options.search.model = matching_model_in(a.weights);
    Report report(a.out);
    std::ofstream errors;
    if (!a.errors.empty()) {
      errors.open(a.errors);
      errors << "difficulty,photos,individual,mated,acquired,mate_rank,mate_odds,best_odds,advice,"
                "years_apart,mechanism,background,light\n";
    }
    for (const std::string& difficulty : a.difficulties) measure(a, difficulty, options, report, errors);
  } catch (const Error& error) {
    std::cerr << error.what() << "\n";
    return exit_code(error.kind());
  }
}
