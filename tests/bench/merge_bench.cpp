// What it costs to read the database of a folder from elsewhere in a process apart (matcher/catalogue/
// read_apart.h): a merge, an audit, who is who, and opening it for writing, both ways, in turn, in one run, each from
// a fresh copy.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <chrono>
#include <filesystem>
#include <iostream>
#include <memory>
#include <vector>

#include "matcher/catalogue/audit.h"
#include "matcher/catalogue/merge.h"
#include "matcher/catalogue/own_databases.h"
#include "matcher/catalogue/read_apart.h"
#include "tests/matcher/catalogue/try_out.h"

namespace {

using namespace evet;
using namespace evet::try_out;
namespace fs = std::filesystem;

// Captures with a photo and a person's verdict each, as a season's ledger has them.
void draw(const fs::path& pond, int captures) {
  Catalogue catalogue = Catalogue::create(pond, "Alder Fen", person("R1"), system_env());
  constexpr int kNight = 50;
  for (int from = 0; from < captures; from += kNight) {
    std::vector<Body> bodies;
    for (int i = from; i < std::min(from + kNight, captures); ++i) {
      const std::string name = "c" + std::to_string(i);
      const CaptureId id = catalogue.new_capture_id();
      const PhotoId photo = catalogue.store_photo(bytes(pond.filename().string() + " a picture of " + name));
      bodies.push_back(Capture{id, facts("2031-05-" + std::to_string(10 + from / kNight % 20), name)});
      bodies.push_back(photo_of(photo, id, name + ".jpg"));
      bodies.push_back(Verdict{.capture = id, .answer = Answer::new_individual});
    }
    catalogue.append(person("R1"), bodies);
  }
}

double seconds(const std::function<void()>& work) {
  const auto from = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
}
double median(std::vector<double> of) {
  std::sort(of.begin(), of.end());
  return of[of.size() / 2];
}

void print(const char* what, const std::vector<double>& here, const std::vector<double>& apart) {
  std::cout << "| " << what << " | " << median(here) << " | " << median(apart) << " | "
            << median(apart) / median(here) << " |\n";
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"What reading a folder from elsewhere in a process apart costs"};
  int captures = 5000, times = 5;
  app.add_option("--captures", captures, "In each of the two catalogues")->check(CLI::Range(1, 1'000'000));
  app.add_option("--times", times, "Each is measured so often")->check(CLI::Range(1, 1000));
  CLI11_PARSE(app, argc, argv);

  const auto maker = std::make_shared<ConfinedMaker>(std::vector{ReadersApart::confined()});
  ReadersApart readers(maker, 0);
  const Folder folder;
  const fs::path house = folder.path / "house", field = folder.path / "field", copy = folder.path / "copy";
  draw(house, captures), draw(field, captures);
  std::vector<double> merges[2], audits[2], reads[2], opens[2];
  for (int turn = 0; turn < times; ++turn)
    for (const bool apart : {turn % 2 == 0, turn % 2 != 0}) {
      OwnDatabases nothing_known(system_env(), {});
      ReadersApart::use(apart ? &readers : nullptr);
      fs::remove_all(copy);
      fs::copy(house, copy, fs::copy_options::recursive);
      Catalogue into = Catalogue::open(copy, system_env());
      into.identities();
      merges[apart].push_back(seconds([&] {
        Catalogue from = Catalogue::open_apart(field, system_env());
        merge(into, from, person("R1"));
      }));
      audits[apart].push_back(seconds([&] {
        Catalogue looked_at = Catalogue::open_apart(field, system_env(), true);
        if (!audit(looked_at).holds()) std::abort();
      }));
      fs::remove_all(copy);
      fs::copy(field, copy, fs::copy_options::recursive);
      OwnDatabases::use(&nothing_known);
      reads[apart].push_back(
          seconds([&] { Catalogue::open(copy, system_env(), {.access = Access::read}).identities(); }));
      opens[apart].push_back(seconds([&] { Catalogue::open(copy, system_env()); }));
      OwnDatabases::use(nullptr);
    }
  std::cout << "| " << captures
            << " captures, a photo and a verdict each | in this process, s | apart, s | ratio |\n"
            << "|---|---:|---:|---:|\n";
  print("merge into as many", merges[0], merges[1]);
  print("audit", audits[0], audits[1]);
  print("opened for reading, and who is who", reads[0], reads[1]);
  print("opened for writing the first time", opens[0], opens[1]);
}
