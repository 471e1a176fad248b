// How often what is asked before a record is asked of what is true, and how often it is not asked of what cannot be:
// photos of one capture that disagree, and a midline drawn off the body.
//
// Photos from worlds that nothing was fitted or tuned on (200 and up). True: two photos of one animal of one evening;
// the true midline, drawn by a hand that strays across by up to a third of the belly's half-width. Absurd: two photos
// of two animals; a line that crosses the animal, lies beside it, runs down its tail, or lies anywhere in the picture.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "matcher/base/parallel.h"
#include "matcher/catalogue/photo_work.h"
#include "matcher/pattern/examine.h"
#include "matcher/photo/encode.h"
#include "tools/render/scene.h"
#include "tools/verdicts/midline_on_body.h"
#include "tools/verdicts/objections.h"
#include "tools/verdicts/photos_agree.h"

namespace evet {
namespace {

using Line = std::vector<cv::Point2d>;

struct Arguments {
  std::uint64_t world = 264;
  int animals = 60, threads = 1;
  std::string world_kind = "drawn";
};

struct Seen {
  std::optional<Pattern> pattern;  // of a photo that can be matched
  // Shares on the belly of lines drawn on it, by what was drawn.
  std::map<std::string, std::vector<double>> shares;
};

cv::Point2d turned(cv::Point2d p) {
  return {-p.y, p.x};
}

Line true_line(const render::Truth& truth, std::mt19937& random, double stray_px) {
  std::uniform_real_distribution<double> across(-stray_px, stray_px);
  Line line;
  for (std::size_t i = 0; i < truth.midline.size(); i += 16) {
    const cv::Point2d along =
        truth.midline[std::min(i + 1, truth.midline.size() - 1)] - truth.midline[i > 0 ? i - 1 : 0];
    line.push_back(truth.midline[i] + turned(along / std::max(cv::norm(along), 1.0)) * across(random));
  }
  return line;
}

// Half of the belly's width, from its area over its length.
double half_width_px(const render::Truth& truth) {
  return cv::countNonZero(truth.belly) / std::max(truth.length_px, 1.0) / 2;
}

void draw_lines(const render::RenderedPhoto& photo, const std::vector<std::byte>& file, std::mt19937& random,
                Seen& seen) {
  const render::Truth& truth = photo.truth;
  const Photo decoded = decode_photo(file, "photo", ExamineOptions{}.decode);
  const double half = half_width_px(truth);
  const cv::Point2d throat = truth.midline.front(), vent = truth.midline.back(), middle = (throat + vent) / 2;
  const cv::Point2d along = vent - throat, across = turned(along);
  const auto say = [&](const char* what, const Line& line) {
    seen.shares[what].push_back(share_on_belly(decoded, line));
  };
  say("true: the midline", true_line(truth, random, 0.05 * half));
  say("true: strays by a third of the half-width", true_line(truth, random, half / 3));
  say("absurd: across the animal", {middle - across / 2, middle, middle + across / 2});
  const cv::Point2d beside = across / cv::norm(across) * (3 * half);
  const double side = std::uniform_int_distribution<int>(0, 1)(random) == 0 ? 1 : -1;
  say("absurd: beside the animal", {throat + side * beside, middle + side * beside, vent + side * beside});
  say("absurd: down the tail", {vent + along * 0.1, vent + along * 0.5, vent + along});
  std::uniform_real_distribution<double> x(0, photo.bgr.cols), y(0, photo.bgr.rows);
  const cv::Point2d a{x(random), y(random)}, b{x(random), y(random)};
  say("absurd: anywhere", {a, (a + b) / 2, b});
}

Seen see(const Arguments& a, std::uint32_t animal, std::uint32_t shot, render::Difficulty difficulty) {
  render::CaptureSpec spec;
  spec.world_seed = a.world, spec.individual = animal, spec.capture = shot;
  spec.conditions.difficulty = difficulty, spec.size = {1600, 1200};
  spec.world = a.world_kind == "solid" ? render::World::solid : render::World::drawn;
  const render::RenderedPhoto photo = render::render(spec);
  const std::vector<std::byte> file = encode_jpeg(photo.bgr, 92);
  Seen seen;
  const Examined examined = examine_photo(file, "photo", ExamineOptions{});
  if (examined.pattern && examination_of(examined, {}).usable) seen.pattern = examined.pattern;
  std::mt19937 random(static_cast<unsigned>(a.world * 1'000'003 + animal * 17 + shot));
  draw_lines(photo, file, random, seen);
  return seen;
}

void print_row(const std::string& what, const char* difficulty, std::size_t asked, std::size_t all,
               bool absurd, double middle) {
  std::printf("| %s | %s | %zu | %zu | %zu | %.2f |\n", what.c_str(), difficulty, all, asked,
              absurd ? all - asked : asked, middle);
}

double median(std::vector<double> values) {
  if (values.empty()) return NAN;
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2),
                   values.end());
  return values[values.size() / 2];
}

void measure(const Arguments& a, render::Difficulty difficulty, const char* name) {
  const auto animals = static_cast<std::size_t>(a.animals);
  std::vector<Seen> seen(2 * animals);
  for_each_item(seen.size(), a.threads, [&](std::size_t i) {
    seen[i] = see(a, static_cast<std::uint32_t>(i / 2), static_cast<std::uint32_t>(i % 2), difficulty);
  });
  std::vector<double> same, different;
  for (std::size_t i = 0; i < animals; ++i) {
    if (seen[2 * i].pattern && seen[2 * i + 1].pattern)
      same.push_back(agreement_of(*seen[2 * i].pattern, *seen[2 * i + 1].pattern));
    for (std::size_t step = 1; step <= 5 && step < animals; ++step)
      if (const Seen& other = seen[2 * ((i + step) % animals) + 1]; seen[2 * i].pattern && other.pattern)
        different.push_back(agreement_of(*seen[2 * i].pattern, *other.pattern));
  }
  const auto disagree = [](const std::vector<double>& of) {
    return static_cast<std::size_t>(
        std::count_if(of.begin(), of.end(), [](double llr) { return llr < -kPhotosDisagree; }));
  };
  print_row("photos, true: one animal", name, disagree(same), same.size(), false, median(same));
  print_row("photos, absurd: two animals", name, disagree(different), different.size(), true,
            median(different));
  std::map<std::string, std::vector<double>> shares;
  for (const Seen& one : seen)
    for (const auto& [what, of] : one.shares) shares[what].insert(shares[what].end(), of.begin(), of.end());
  for (const auto& [what, of] : shares)
    print_row(
        "midline, " + what, name,
        static_cast<std::size_t>(std::count_if(of.begin(), of.end(), [](double s) { return s < kOnBelly; })),
        of.size(), what.starts_with("absurd"), median(of));
}

int run(int argc, char** argv) {
  Arguments a;
  CLI::App program("How often what is asked before a record is asked rightly", "gates_bench");
  program.add_option("--world", a.world)->check(CLI::Range(std::uint64_t{200}, std::uint64_t{100'000}));
  program.add_option("--world-kind", a.world_kind)->check(CLI::IsMember({"drawn", "solid"}));
  program.add_option("--animals", a.animals)->check(CLI::Range(2, 10'000));
  program.add_option("--threads", a.threads);
  CLI11_PARSE(program, argc, argv);
  std::printf(
      "World %llu (%s), %d animals with two photos each. Asked: below -%.1f natural logs of the ratio of two "
      "photos, or less than %.0f %% of a line on the belly.\n\n",
      static_cast<unsigned long long>(a.world), a.world_kind.c_str(), a.animals, kPhotosDisagree,
      100 * kOnBelly);
  std::printf(
      "| what is recorded | difficulty | cases | asked | errors | median |\n|---|---|---:|---:|---:|---:|\n");
  measure(a, render::Difficulty::middle, "middle");
  measure(a, render::Difficulty::hardest, "hardest");
  std::printf(
      "\nErrors: asked of what is true, not asked of what is absurd. Median: of the natural log of the "
      "ratio, or "
      "of the share of the line that lies on the belly. Photos that cannot be matched are in no pair.\n");
  return 0;
}

}  // namespace
}  // namespace evet

int main(int argc, char** argv) {
  return evet::run(argc, argv);
}
