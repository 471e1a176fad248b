// How well bellies are found and straightened, on rendered photographs whose truth is known.
//
// Prints tables in Markdown. World seeds from 200 up are for scores only: nothing is fitted or tuned on them;
// develop on 100 to 199. --foreign draws patterns, floors, lights, things and camera finishes on which
// nothing was fitted.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <functional>
#include <map>
#include <memory>
#include <opencv2/imgproc.hpp>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "matcher/belly/belly_net.h"
#include "matcher/belly/find_belly.h"
#include "matcher/belly/geometry_provider.h"
#include "matcher/belly/network_provider.h"
#include "matcher/photo/read_file.h"
#include "tools/render/photo_truth.h"
#include "tools/render/scene.h"
#include "tools/train/rendered_set.h"

namespace evet {
namespace {

constexpr double kHalfWidth = 0.14;  // of the length: what an error across weighs beside one along
constexpr int kLandings = 300;       // kept of a photo, so that a large belly does not outvote a small one

struct Score {
  bool acquired = false;  // usable: neither refused nor blocked by a quality note
  bool found = false;     // a strip, usable or not
  bool head_right = false;
  double midline = 1, iou = 0;
  std::vector<double> landings;
  double p_head_right = 1, confidence = 0, p_animal = 0, p_small_kind = 0, cpu_ms = 0;
  Quality quality;
  std::string notes, mechanism, background, light;
  double bend_true = 0, roll_true = 0;
};

double cpu_ms() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return 1e3 * static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_nsec);
}

double polyline_length(const std::vector<cv::Point2d>& line) {
  double sum = 0;
  for (size_t i = 1; i < line.size(); ++i) sum += cv::norm(line[i] - line[i - 1]);
  return sum;
}

// Mean distance between two midlines at equal u, over the part inside the picture, in belly lengths. A strip
// that is read from the wrong end is scored by head_right; its midline is compared turned.
double midline_error(const render::Truth& truth, const std::vector<cv::Point2d>& found, cv::Size picture,
                     bool turn) {
  const double length = polyline_length(truth.midline);
  double sum = 0;
  int n = 0;
  for (size_t i = 0; i < truth.midline.size(); ++i) {
    const cv::Point2d t = truth.midline[i];
    if (t.x < 0 || t.y < 0 || t.x >= picture.width || t.y >= picture.height) continue;
    sum += cv::norm(t - found[turn ? found.size() - 1 - i : i]) / length;
    ++n;
  }
  return n > 0 ? sum / n : 1;
}

void score_geometry(const render::RenderedPhoto& photo, const BellyFinding& finding, Score& score) {
  const render::Truth& truth = photo.truth;
  const cv::Size size = photo.bgr.size();
  const double straight = midline_error(truth, finding.shape.midline, size, false);
  const double turned = midline_error(truth, finding.shape.midline, size, true);
  score.head_right = straight <= turned;
  score.midline = std::min(straight, turned);
  cv::Mat1b outline = cv::Mat1b::zeros(size);
  if (finding.shape.outline.size() > 2)
    cv::fillPoly(outline, std::vector<std::vector<cv::Point>>{finding.shape.outline}, cv::Scalar(255));
  const double both = cv::countNonZero(outline & truth.belly), any = cv::countNonZero(outline | truth.belly);
  score.iou = any > 0 ? both / any : 0;

  // Where does each plainly seen skin pixel land? Compared along u and across in belly lengths.
  const std::optional<StripFit>& fit = finding.fit;
  if (!fit) return;
  std::vector<double> errors;
  for (int y = 0; y < size.height; y += 6)
    for (int x = 0; x < size.width; x += 6) {
      if (!truth.clear(y, x)) continue;
      cv::Vec2f uv = truth.uv(y, x);
      if (!(uv[0] >= 0 && uv[0] <= 1 && std::abs(uv[1]) <= 0.95)) continue;
      if (!score.head_right) uv = {1 - uv[0], -uv[1]};
      // The strip position that the map lays on this pixel: a few Newton steps from the true one.
      const StripMap& map = fit->photo_from_strip;
      double u = uv[0], v = uv[1];
      for (int k = 0; k < 6; ++k) {
        const cv::Matx22d j = map.jacobian(u, v);
        const double det = cv::determinant(j);
        if (std::abs(det) < 1e-6) break;
        const cv::Point2d e = cv::Point2d(x + 0.5, y + 0.5) - map.at(u, v);
        u += std::clamp((j(1, 1) * e.x - j(0, 1) * e.y) / det, -0.1, 0.1);
        v += std::clamp((-j(1, 0) * e.x + j(0, 0) * e.y) / det, -0.3, 0.3);
        u = std::clamp(u, -0.3, 1.3), v = std::clamp(v, -1.3, 1.3);
      }
      errors.push_back(std::hypot(u - uv[0], (v - uv[1]) * kHalfWidth));
    }
  const double step = std::max(1.0, static_cast<double>(errors.size()) / kLandings);
  for (size_t i = 0; static_cast<double>(i) * step < static_cast<double>(errors.size()); ++i)
    score.landings.push_back(errors[static_cast<size_t>(static_cast<double>(i) * step)]);
}

double percentile(std::vector<double> values, double p) {
  if (values.empty()) return NAN;
  std::sort(values.begin(), values.end());
  return values[std::min(values.size() - 1, static_cast<size_t>(p * static_cast<double>(values.size())))];
}

double mean(const std::vector<double>& values) {
  double sum = 0;
  for (double v : values) sum += v;
  return values.empty() ? NAN : sum / static_cast<double>(values.size());
}

using Provider = std::function<BellyFinding(const Photo&)>;

Provider provider(const std::string& name) {
  if (name == "product") return [](const Photo& p) { return find_belly(p); };
  if (name == "network")
    return [](const Photo& p) { return strip_from_coordinates(p, coordinates_from_network(p)); };
  if (name == "geometry")
    return [](const Photo& p) { return strip_from_coordinates(p, coordinates_from_geometry(p)); };
  if (name.ends_with(".onnx")) {  // the product with other weights
    const auto net = std::make_shared<BellyNet>(read_file(name, name));
    return [net](const Photo& p) {
      return strip_from_coordinates(
          p,
          with_second_opinion(p, coordinates_from_looks(p, [&](const cv::Mat3b& look, const cv::Matx23d& at) {
                                return net->look(look, at);
                              })));
    };
  }
  std::fprintf(stderr,
               "belly_bench: provider '%s' is not known; use product, network, geometry or FILE.onnx\n",
               name.c_str());
  std::exit(2);
}

struct Arguments {
  std::uint64_t first_seed = 210, last_seed = 219;
  int count = 10, others = 4, long_side = 1200;
  std::vector<std::string> providers{"product"};
  std::string csv;
  bool foreign = false;
  std::string drawing = "drawn";
};

bool read_seeds(const std::string& text, Arguments& a) {
  const char *at = text.data(), *end = at + text.size();
  const auto first = std::from_chars(at, end, a.first_seed);
  if (first.ec != std::errc() || first.ptr == end || *first.ptr != '-') return false;
  const auto last = std::from_chars(first.ptr + 1, end, a.last_seed);
  return last.ec == std::errc() && last.ptr == end && a.first_seed <= a.last_seed;
}

struct Set {
  const char* name;
  render::Difficulty difficulty;
  render::Subject subject;
  bool belly() const { return subject == render::Subject::belly; }
};

const Set kSets[] = {{"middle", render::Difficulty::middle, render::Subject::belly},
                     {"hardest", render::Difficulty::hardest, render::Subject::belly},
                     {"back", render::Difficulty::middle, render::Subject::back},
                     {"small newt", render::Difficulty::middle, render::Subject::small_newt},
                     {"empty tray", render::Difficulty::middle, render::Subject::empty_tray},
                     {"leaf", render::Difficulty::middle, render::Subject::leaf},
                     {"blurred belly", render::Difficulty::middle, render::Subject::blurred}};

Score score(const render::RenderedPhoto& rendered, const Set& set, const Provider& find) {
  Photo photo;
  photo.bgr = rendered.bgr;
  const double start = cpu_ms();
  const BellyFinding finding = find(photo);
  Score s;
  s.cpu_ms = cpu_ms() - start;
  s.found = finding.strip.has_value();
  s.acquired = finding.usable();
  s.confidence = finding.coordinates.confidence;
  s.p_animal = finding.coordinates.p_animal, s.p_small_kind = finding.coordinates.p_small_kind;
  s.quality = finding.quality;
  for (const QualityNote& note : finding.notes)
    s.notes += (s.notes.empty() ? "" : " ") + note.measure + (note.blocks ? "!" : "");
  s.mechanism = rendered.truth.mechanism, s.background = rendered.truth.background,
  s.light = rendered.truth.light;
  s.roll_true = rendered.truth.roll, s.bend_true = rendered.truth.bend_deg;
  s.p_head_right = finding.shape.p_head_right;
  if (s.found && set.belly()) score_geometry(rendered, finding, s);
  return s;
}

void write_csv(std::ofstream& out, const std::string& provider_name, const Set& set, const std::string& photo,
               const Score& s) {
  const Quality& q = s.quality;
  out << provider_name << ',' << set.name << ',' << photo << ',' << s.found << ',' << s.acquired << ','
      << s.head_right << ',' << s.p_head_right << ',' << s.midline << ',' << s.iou << ','
      << percentile(s.landings, 0.5) << ',' << percentile(s.landings, 0.95) << ',' << s.confidence << ','
      << s.p_animal << ',' << s.p_small_kind << ',' << q.p_belly << ',' << q.seen_share << ','
      << q.glare_share << ',' << q.dark_share << ',' << q.sharpness << ',' << q.belly_length_px << ','
      << q.bend_deg << ',' << s.bend_true << ',' << q.roll << ',' << s.roll_true << ',' << s.mechanism << ','
      << s.background << ',' << s.light << ',' << s.cpu_ms << ',' << s.notes << '\n';
}

struct Row {
  std::vector<double> midline, iou, landings, cpu_ms;
  int photos = 0, found = 0, acquired = 0, head = 0;
  void add(const Score& s) {
    ++photos, acquired += s.acquired, cpu_ms.push_back(s.cpu_ms);
    if (!s.found) return;
    ++found, head += s.head_right;
    midline.push_back(s.midline), iou.push_back(s.iou);
    landings.insert(landings.end(), s.landings.begin(), s.landings.end());
  }
  void print(const std::string& name) const {
    std::printf("| %s | %d | %.2f (%.2f) | %.3f | %.1f | %.2f | %.2f | %.1f | %.1f | %.0f |\n", name.c_str(),
                photos, 100 * mean(midline), 100 * percentile(midline, 0.95), mean(iou),
                found > 0 ? 100.0 * head / found : NAN, 100 * percentile(landings, 0.5),
                100 * percentile(landings, 0.95), 100.0 * (photos - found) / photos,
                100.0 * (photos - acquired) / photos, percentile(cpu_ms, 0.5));
  }
};

using Scores = std::map<std::string, std::vector<std::pair<const Set*, Score>>>;  // by provider

Scores measure(const Arguments& a) {
  std::ofstream csv;
  if (!a.csv.empty()) {
    csv.open(a.csv);
    csv << "provider,set,photo,found,acquired,head_right,p_head_right,midline,iou,landing,landing_p95,"
           "confidence,"
           "p_animal,p_small,p_belly,seen,glare,dark,sharpness,length_px,bend,bend_true,roll,roll_true,"
           "mechanism,"
           "background,light,cpu_ms,notes\n";
  }
  std::map<std::string, Provider> providers;
  for (const std::string& name : a.providers) providers[name] = provider(name);
  Scores scores;
  for (std::uint64_t seed = a.first_seed; seed <= a.last_seed; ++seed)
    for (const Set& set : kSets)
      for (int i = 0; i < (set.belly() ? a.count : a.others); ++i) {
        render::CaptureSpec spec;
        spec.world_seed = seed;
        spec.individual = static_cast<std::uint32_t>(i);
        spec.subject = set.subject;
        spec.conditions.difficulty = set.difficulty;
        spec.conditions.foreign = a.foreign;
        spec.world = render::world_named(a.drawing);
        const int long_side = a.long_side, short_side = a.long_side * 3 / 4;
        spec.size = i % 3 == 2 ? cv::Size(short_side, long_side) : cv::Size(long_side, short_side);
        const render::RenderedPhoto rendered = render::render(spec);
        for (const auto& [name, find] : providers) {
          Score s = score(rendered, set, find);
          if (csv.is_open()) write_csv(csv, name, set, fmt::format("{}/{}", seed, i), s);
          scores[name].emplace_back(&set, std::move(s));
        }
        if (csv.is_open()) csv.flush();
      }
  return scores;
}

void print_heading(const char* of) {
  std::printf(
      "\n| %s | photos | midline error, %% of length: mean (95 %%) | outline IoU | head end right, %% | "
      "landing error, %% of length: median | landing 95 %% | no strip, %% | failure to acquire, %% | "
      "CPU ms |\n|---|---|---|---|---|---|---|---|---|---|\n",
      of);
}

void print_tables(const Arguments& a, const Scores& scores) {
  std::printf(
      "Rendered photos of world seeds %llu to %llu%s, %d pixels on the long side; failures to acquire are "
      "photos "
      "without a strip or refused by a quality note; the errors are of all photos with a strip.\n",
      static_cast<unsigned long long>(a.first_seed), static_cast<unsigned long long>(a.last_seed),
      a.foreign              ? ", foreign conditions"
      : a.drawing == "solid" ? ", solid world"
                             : "",
      a.long_side);
  print_heading("provider, difficulty");
  for (const std::string& name : a.providers)
    for (const Set& set : kSets) {
      Row row;
      for (const auto& [of, s] : scores.at(name))
        if (of == &set) row.add(s);
      if (set.belly() && row.photos > 0) row.print(fmt::format("{}, {}", name, set.name));
    }
  std::printf(
      "\n| provider, no belly | pictures | refused, %% | given a strip but refused, %% "
      "|\n|---|---|---|---|\n");
  for (const std::string& name : a.providers)
    for (const Set& set : kSets) {
      int all = 0, refused = 0, strip = 0;
      for (const auto& [of, s] : scores.at(name))
        if (of == &set) ++all, refused += !s.acquired, strip += s.found && !s.acquired;
      if (!set.belly() && all > 0)
        std::printf("| %s, %s | %d | %.1f | %.1f |\n", name.c_str(), set.name, all, 100.0 * refused / all,
                    100.0 * strip / all);
    }
  const std::string& main = a.providers.front();
  using Condition = std::string Score::*;
  for (const auto& [heading, condition] :
       {std::pair<const char*, Condition>{"pattern, both difficulties", &Score::mechanism},
        {"background, both difficulties", &Score::background},
        {"light, both difficulties", &Score::light}}) {
    std::map<std::string, Row> rows;
    for (const auto& [set, s] : scores.at(main))
      if (set->belly()) rows[s.*condition].add(s);
    print_heading(heading);
    for (const auto& [name, row] : rows) row.print(name);
  }
}

}  // namespace
}  // namespace evet

int main(int argc, char** argv) {
  using namespace evet;
  cv::setNumThreads(1);
  CLI::App app{"Scores how well bellies are found and straightened."};
  Arguments a;
  std::string seeds;
  app.add_option("--seeds", seeds, "of worlds, FIRST-LAST: 100 to 199 to develop, 200 and up to score")
      ->check([&](const std::string& text) { return read_seeds(text, a) ? "" : "write it as 210-219"; });
  app.add_option("--count", a.count, "bellies of each seed and difficulty");
  app.add_option("--others", a.others, "pictures of each subject that is no belly, and seed");
  app.add_option("--providers", a.providers, "product, network, geometry or a network's FILE.onnx")
      ->delimiter(',');
  app.add_option("--size", a.long_side, "pixels on the long side")->check(CLI::Range(100, 10000));
  app.add_option("--world-kind", a.drawing, "the way to draw")->check(CLI::IsMember({"drawn", "solid"}));
  app.add_flag("--foreign", a.foreign, "conditions kept back from training; seeds from 200 up");
  app.add_option("--csv", a.csv, "write one line a photo to this file");
  CLI11_PARSE(app, argc, argv);
  if (a.foreign && a.first_seed < train::kFirstScoredWorld) {
    std::fprintf(stderr,
                 "belly_bench: foreign conditions are kept back from fits and tuning; score them on "
                 "--seeds from 200 up\n");
    return 2;
  }
  print_tables(a, measure(a));
}
