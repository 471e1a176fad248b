// What a photo's quality costs in matches, and what a second photo of the same capture gives back.
//
// A gallery of one gentle photo an individual; probes two middle and two hard photos of each. For every
// measure of quality the probes are cut into six groups of equal size: how many are ranked first, and
// the mean log-likelihood ratio (natural) of the right individual; and how many of each difficulty get
// the advice in force. The limits in matcher/belly/measure_quality.h are read off these tables, on
// tuning seeds (100 to 199).
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "matcher/pattern/examine.h"
#include "matcher/photo/encode.h"
#include "matcher/photo/read_file.h"
#include "matcher/search/join_patterns.h"
#include "matcher/search/rank.h"
#include "tools/render/scene.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

struct Arguments {
  std::uint64_t seed = 170;
  int count = 40;
  fs::path cache;
};

// Photo 0 is the gallery's, gentle; 1 and 2 middle; 3 and 4 hardest, of one capture.
constexpr int kPhotos = 5, kFirstHard = 3;

std::vector<std::byte> photo_file(const Arguments& a, int individual, int k) {
  char name[40];
  std::snprintf(name, sizeof name, "%03d_%d.jpg", individual, k);
  const fs::path path = a.cache / name;
  if (!a.cache.empty() && fs::exists(path)) return read_file(path, name);
  render::CaptureSpec spec;
  spec.world_seed = a.seed;
  spec.individual = static_cast<std::uint32_t>(individual);
  spec.capture = static_cast<std::uint32_t>(k);
  spec.years = k < kFirstHard ? 0.4 * k : 1.2;
  spec.conditions.difficulty = k == 0           ? render::Difficulty::gentle
                               : k < kFirstHard ? render::Difficulty::middle
                                                : render::Difficulty::hardest;
  spec.size = (individual + k) % 3 == 2 ? cv::Size(900, 1200) : cv::Size(1200, 900);
  std::vector<std::byte> file = encode_jpeg(render::render(spec).bgr, 94);
  if (!a.cache.empty()) {
    fs::create_directories(a.cache);
    std::ofstream(path, std::ios::binary)
        .write(reinterpret_cast<const char*>(file.data()), static_cast<std::streamsize>(file.size()));
  }
  return file;
}

struct Probe {
  Quality quality;
  std::vector<QualityNote> notes;
  bool hard = false;
  bool first = false;
  double llr = 0;
};

struct Seen {
  BellyFinding belly;
  std::optional<Pattern> pattern;  // of any strip, usable or not
};

Seen see(const Arguments& a, int individual, int k) {
  Seen seen;
  seen.belly = find_belly(decode_photo(photo_file(a, individual, k), "photo", ExamineOptions{}.decode));
  if (seen.belly.strip) seen.pattern = make_pattern(*seen.belly.strip, seen.belly.shape);
  return seen;
}

std::string id_of(int individual) {
  return "A" + std::to_string(individual);
}

// Whether the individual is ranked first, and its log-likelihood ratio.
std::pair<bool, double> rank_of(const Gallery& gallery, int individual,
                                const std::vector<Pattern>& patterns) {
  QueryCapture query;
  query.capture = CaptureId("q");
  for (std::size_t i = 0; i < patterns.size(); ++i)
    query.photos.push_back({PhotoId("p" + std::to_string(i)), patterns[i]});
  const RankedCapture ranked = gallery.rank(query);
  const IndividualId wanted(id_of(individual));
  for (const Candidate& c : ranked.candidates)
    if (c.individual == wanted) return {ranked.candidates.front().individual == wanted, c.score};
  return {false, NAN};
}

void print_curve(const char* name, std::vector<Probe> probes,
                 const std::function<double(const Quality&)>& of) {
  std::sort(probes.begin(), probes.end(),
            [&](const Probe& a, const Probe& b) { return of(a.quality) < of(b.quality); });
  std::printf("\n| %s from | to | probes | rank-1, %% | mean LLR |\n|---|---|---|---|---|\n", name);
  constexpr std::size_t kGroups = 6;
  for (std::size_t g = 0; g < kGroups; ++g) {
    const std::size_t from = probes.size() * g / kGroups, to = probes.size() * (g + 1) / kGroups;
    if (from == to) continue;
    int first = 0;
    double llr = 0;
    for (std::size_t i = from; i < to; ++i) first += probes[i].first, llr += probes[i].llr;
    const double n = static_cast<double>(to - from);
    std::printf("| %.3f | %.3f | %d | %.1f | %.2f |\n", of(probes[from].quality), of(probes[to - 1].quality),
                static_cast<int>(n), 100 * first / n, llr / n);
  }
}

void print_row(const char* name, const std::vector<std::pair<bool, double>>& ranks) {
  int first = 0;
  double llr = 0;
  for (const auto& [is_first, score] : ranks) first += is_first, llr += score;
  const double n = static_cast<double>(ranks.size());
  std::printf("| %s | %zu | %.1f | %.2f |\n", name, ranks.size(), 100 * first / n, llr / n);
}

// How often each measure is spoken of, and whether those probes are matched all the same.
void print_advice(const std::vector<Probe>& probes) {
  std::printf(
      "\n| advice or refusal | of middle, %% | of hardest, %% | probes | rank-1, %% | mean LLR "
      "|\n|---|---|---|---|---|---|\n");
  struct Row {
    int middle = 0, hard = 0, first = 0;
    double llr = 0;
  };
  std::map<std::string, Row> rows;
  int middle = 0, hard = 0;
  for (const Probe& p : probes) {
    ++(p.hard ? hard : middle);
    const auto add = [&](const std::string& name) {
      Row& row = rows[name];
      ++(p.hard ? row.hard : row.middle), row.first += p.first, row.llr += p.llr;
    };
    for (const QualityNote& note : p.notes) add(note.measure + (note.blocks ? ", refused" : ""));
    add(p.notes.empty() ? "(nothing said)" : "(any)");
  }
  for (const auto& [name, row] : rows) {
    const int n = row.middle + row.hard;
    std::printf("| %s | %.1f | %.1f | %d | %.1f | %.2f |\n", name.c_str(),
                100.0 * row.middle / std::max(1, middle), 100.0 * row.hard / std::max(1, hard), n,
                100.0 * row.first / n, row.llr / n);
  }
}

// One gentle photo of each individual that has a usable one.
Gallery enrol(const Arguments& a, std::vector<int>& enrolled) {
  std::vector<GalleryEntry> entries;
  for (int i = 0; i < a.count; ++i)
    if (Seen seen = see(a, i, 0); seen.belly.usable()) {
      entries.push_back({IndividualId(id_of(i)),
                         CaptureId("c" + id_of(i)),
                         PhotoId("r" + id_of(i)),
                         std::move(*seen.pattern),
                         {}});
      enrolled.push_back(i);
    }
  SearchOptions options;
  options.keep = a.count;
  options.shortlist = a.count;
  return Gallery(std::move(entries), options);
}

// Searches by one photo of a capture, by two of it, and by what the two were joined into.
struct Together {
  std::vector<std::pair<bool, double>> one, two, joined;
  int left_out = 0;
  void add(const Gallery& gallery, int individual, const std::vector<Pattern>& same_capture) {
    one.push_back(rank_of(gallery, individual, {same_capture[0]}));
    one.push_back(rank_of(gallery, individual, {same_capture[1]}));
    two.push_back(rank_of(gallery, individual, same_capture));
    JoinedPattern both = join_patterns(same_capture);
    left_out += both.used.size() < 2;
    joined.push_back(rank_of(gallery, individual, {both.pattern}));
  }
  void print() const {
    std::printf(
        "\n| two hardest photos of one capture (%d pairs not joined) | searches | rank-1, %% | mean LLR "
        "|\n|---|---|---|---|\n",
        left_out);
    print_row("one photo", one);
    print_row("both, each compared", two);
    print_row("both, joined into one pattern", joined);
  }
};

void print_curves(const std::vector<Probe>& probes) {
  print_curve("sharpness", probes, [](const Quality& q) { return q.sharpness; });
  print_curve("glare_share", probes, [](const Quality& q) { return q.glare_share; });
  print_curve("dark_share", probes, [](const Quality& q) { return q.dark_share; });
  print_curve("seen_share", probes, [](const Quality& q) { return q.seen_share; });
  print_curve("belly_length_px", probes, [](const Quality& q) { return q.belly_length_px; });
  print_curve("bend_deg", probes, [](const Quality& q) { return q.bend_deg; });
  print_curve("roll", probes, [](const Quality& q) { return q.roll; });
  print_curve("p_belly", probes, [](const Quality& q) { return q.p_belly; });
}

void bench(const Arguments& a) {
  std::vector<int> enrolled;
  const Gallery gallery = enrol(a, enrolled);
  std::printf(
      "World seed %llu, gallery of %zu individuals, one gentle photo each; probes two middle and two hardest "
      "photos of each. LLR: natural log-likelihood ratio of the right individual. ",
      static_cast<unsigned long long>(a.seed), enrolled.size());
  std::vector<Probe> probes;
  Together together;
  int refused = 0, all = 0;
  for (int i : enrolled) {
    std::vector<Pattern> same_capture;
    for (int k = 1; k < kPhotos; ++k) {
      ++all;
      Seen seen = see(a, i, k);
      refused += !seen.belly.usable();
      if (!seen.pattern) continue;
      const auto [first, llr] = rank_of(gallery, i, {*seen.pattern});
      probes.push_back({seen.belly.quality, seen.belly.notes, k >= kFirstHard, first, llr});
      if (k >= kFirstHard) same_capture.push_back(*seen.pattern);
    }
    if (same_capture.size() >= 2) together.add(gallery, i, same_capture);
  }
  std::printf("%d probes, %d without a strip, %d refused by the limits in force, ranked all the same.\n", all,
              all - static_cast<int>(probes.size()), refused);
  print_advice(probes);
  print_curves(probes);
  together.print();
}

}  // namespace
}  // namespace evet

int main(int argc, char** argv) {
  cv::setNumThreads(1);
  CLI::App app{"Measures what a photo's quality costs in matches."};
  evet::Arguments a;
  app.add_option("--seed", a.seed, "of the world: 100 to 199");
  app.add_option("--count", a.count, "individuals");
  app.add_option("--cache", a.cache, "keep the rendered photos, as JPEG, in this folder");
  CLI11_PARSE(app, argc, argv);
  evet::bench(a);
}
