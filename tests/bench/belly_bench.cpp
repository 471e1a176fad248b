// How well bellies are found and straightened, on rendered photographs whose truth is known.
//
// Usage: belly_bench [--seed N] [--count N] [--providers network,geometry] [--size LONGSIDE] [--csv FILE]
// Prints one row a provider and difficulty. World seeds from 200 up are for scores only: nothing is fitted on
// them.
#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <functional>
#include <mutex>
#include <opencv2/features2d.hpp>
#include <opencv2/imgproc.hpp>
#include <string>
#include <thread>
#include <vector>

#include "matcher/belly/find_belly.h"
#include "matcher/belly/fit_strip.h"
#include "matcher/belly/geometry_provider.h"
#include "matcher/belly/network_provider.h"
#include "tools/render/scene.h"

namespace evet {
namespace {

using Clock = std::chrono::steady_clock;

struct Score {
  bool acquired = false;  // usable: neither refused nor blocked by a quality note
  bool found = false;     // a strip, usable or not
  bool head_right = false;
  double p_head_right = 1, midline = 1, iou = 0, landing = 1, landing_p95 = 1, seen = 0, valid_right = 0,
         ms = 0;
  double confidence = 0;
  Quality quality;
  std::string first_note, mechanism, background, light;
  double bend = 0, roll = 0, roll_true = 0;
  std::uint32_t individual = 0;
};

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
  const auto fit = fit_strip(finding.coordinates);
  if (!fit) return;
  const double half_width_share = 0.14;
  std::vector<double> errors;
  const double u_length = polyline_length(truth.midline);
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
      errors.push_back(std::hypot(u - uv[0], (v - uv[1]) * half_width_share));
    }
  (void)u_length;
  if (errors.empty()) return;
  std::sort(errors.begin(), errors.end());
  score.landing = errors[errors.size() / 2];
  score.landing_p95 = errors[errors.size() * 95 / 100];
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
  if (name == "network")
    return [](const Photo& p) { return strip_from_coordinates(p, coordinates_from_network(p)); };
  if (name == "geometry")
    return [](const Photo& p) { return strip_from_coordinates(p, coordinates_from_geometry(p)); };
  if (name == "product") return [](const Photo& p) { return find_belly(p); };
  std::fprintf(stderr, "belly_bench: provider '%s' is not known; use network, geometry or product\n",
               name.c_str());
  std::exit(2);
}

struct Arguments {
  std::uint64_t seed = 200;
  int count = 40;
  int long_side = 1600;
  std::vector<std::string> providers{"product", "network", "geometry"};
  std::string csv;
};

struct Set {
  const char* name;
  render::Difficulty difficulty;
  render::Subject subject;
};

std::vector<Score> run(const Arguments& a, const Set& set, const Provider& find) {
  std::vector<Score> scores(a.count);
  for (int i = 0; i < a.count; ++i) {
    render::CaptureSpec spec;
    spec.world_seed = a.seed;
    spec.individual = static_cast<std::uint32_t>(i);
    spec.subject = set.subject;
    spec.conditions.difficulty = set.difficulty;
    spec.size =
        i % 3 == 2 ? cv::Size(a.long_side * 3 / 4, a.long_side) : cv::Size(a.long_side, a.long_side * 3 / 4);
    const render::RenderedPhoto rendered = render::render(spec);
    Photo photo;
    photo.bgr = rendered.bgr;
    const auto start = Clock::now();
    const BellyFinding finding = find(photo);
    Score& s = scores[i];
    s.ms = std::chrono::duration<double, std::milli>(Clock::now() - start).count();
    s.found = finding.strip.has_value();
    s.acquired = finding.usable();
    s.confidence = finding.coordinates.confidence;
    s.quality = finding.quality;
    s.individual = spec.individual;
    if (!finding.notes.empty()) s.first_note = finding.notes.front().measure;
    s.mechanism = rendered.truth.mechanism, s.background = rendered.truth.background,
    s.light = rendered.truth.light;
    s.roll = finding.shape.roll, s.roll_true = rendered.truth.roll;
    s.bend = rendered.truth.bend_deg;
    s.p_head_right = finding.shape.p_head_right;
    if (s.found && set.subject == render::Subject::belly) score_geometry(rendered, finding, s);
  }
  return scores;
}

void write_csv(std::ofstream& out, const std::string& provider_name, const Set& set,
               const std::vector<Score>& scores) {
  for (const Score& s : scores)
    out << provider_name << ',' << set.name << ',' << s.individual << ',' << s.found << ',' << s.acquired
        << ',' << s.head_right << ',' << s.p_head_right << ',' << s.midline << ',' << s.iou << ','
        << s.landing << ',' << s.landing_p95 << ',' << s.confidence << ',' << s.quality.seen_share << ','
        << s.quality.glare_share << ',' << s.quality.sharpness << ',' << s.quality.p_belly << ',' << s.roll
        << ',' << s.roll_true << ',' << s.bend << ',' << s.mechanism << ',' << s.background << ',' << s.light
        << ',' << s.first_note << ',' << s.ms << '\n';
}

void print_belly_row(const std::string& name, const Set& set, const std::vector<Score>& scores) {
  std::vector<double> midline, iou, landing, tail, ms;
  int found = 0, acquired = 0, head = 0;
  for (const Score& s : scores) {
    ms.push_back(s.ms);
    acquired += s.acquired;
    if (!s.found) continue;
    ++found;
    head += s.head_right;
    midline.push_back(s.midline), iou.push_back(s.iou), landing.push_back(s.landing),
        tail.push_back(s.landing_p95);
  }
  const double n = static_cast<double>(scores.size());
  std::printf("%-9s %-8s %4d | %6.2f %6.2f | %6.3f | %6.1f | %6.2f %6.2f | %6.1f %6.1f | %6.0f %6.0f\n",
              name.c_str(), set.name, static_cast<int>(n), 100 * mean(midline),
              100 * percentile(midline, 0.95), mean(iou), found > 0 ? 100.0 * head / found : NAN,
              100 * percentile(landing, 0.5), 100 * percentile(tail, 0.5), 100 * (1 - found / n),
              100 * (1 - acquired / n), percentile(ms, 0.5), percentile(ms, 0.95));
}

}  // namespace
}  // namespace evet

int main(int argc, char** argv) {
  using namespace evet;
  Arguments a;
  for (int i = 1; i + 1 < argc; i += 2) {
    const std::string key = argv[i], value = argv[i + 1];
    if (key == "--seed") a.seed = std::stoull(value);
    if (key == "--count") a.count = std::stoi(value);
    if (key == "--size") a.long_side = std::stoi(value);
    if (key == "--csv") a.csv = value;
    if (key == "--providers") {
      a.providers.clear();
      for (size_t from = 0; from <= value.size();) {
        const size_t to = std::min(value.find(',', from), value.size());
        a.providers.push_back(value.substr(from, to - from));
        from = to + 1;
      }
    }
  }
  std::ofstream csv;
  if (!a.csv.empty()) {
    csv.open(a.csv);
    csv << "provider,set,individual,found,acquired,head_right,p_head_right,midline,iou,landing,landing_p95,"
           "confidence,"
           "seen,glare,sharpness,p_belly,roll,roll_true,bend,mechanism,background,light,note,ms\n";
  }
  using render::Difficulty;
  using render::Subject;
  std::printf("world seed %llu, %d photos a row, long side %d px\n", static_cast<unsigned long long>(a.seed),
              a.count, a.long_side);
  std::printf(
      "provider  set         n | midline %% of length | IoU    | head %% | landing %% (median, median of "
      "p95) | "
      "not found %%, FTA %% | ms median, p95\n");
  for (const std::string& name : a.providers) {
    const Provider find = provider(name);
    for (const Set& set : {Set{"gentle", Difficulty::gentle, Subject::belly},
                           Set{"middle", Difficulty::middle, Subject::belly},
                           Set{"hardest", Difficulty::hardest, Subject::belly}}) {
      const auto scores = run(a, set, find);
      if (csv) write_csv(csv, name, set, scores);
      print_belly_row(name, set, scores);
      std::fflush(stdout);
    }
    for (const Set& set : {Set{"back", Difficulty::middle, Subject::back},
                           Set{"tray", Difficulty::middle, Subject::empty_tray},
                           Set{"leaf", Difficulty::middle, Subject::leaf},
                           Set{"small", Difficulty::middle, Subject::small_newt},
                           Set{"blurred", Difficulty::middle, Subject::blurred}}) {
      const auto scores = run(a, set, find);
      if (csv) write_csv(csv, name, set, scores);
      const auto refused =
          std::count_if(scores.begin(), scores.end(), [](const Score& s) { return !s.acquired; });
      std::printf("%-9s %-8s %4d | refused %.1f %%\n", name.c_str(), set.name, a.count,
                  100.0 * refused / a.count);
      std::fflush(stdout);
    }
  }
}
