// How many photographs without a newt are refused, on pictures that no training saw.
//
// tools/train/fetch_grounds.sh FOLDER opencv-doc mate-backgrounds plasma-workspace-wallpapers fetches some.
// Pictures that could be matched are named with what was said of them.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <map>
#include <string>
#include <vector>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "matcher/base/parallel.h"
#include "matcher/belly/find_belly.h"
#include "matcher/photo/decode.h"
#include "matcher/photo/read_file.h"

namespace {

using namespace evet;
namespace fs = std::filesystem;

struct Looked {
  std::string name, group, why;  // why not: the first blocking note's measure; empty for a belly
  double p_belly = 0;
};

// "opencv-doc" of "opencv-doc-0123456789ab.jpg": what comes before the last hyphen.
std::string group_of(const std::string& stem) {
  const std::size_t end = stem.rfind('-');
  return end == std::string::npos ? "others" : stem.substr(0, end);
}

Looked look(const fs::path& path) {
  Looked out{path.filename().string(), group_of(path.stem().string()), "", 0};
  const BellyFinding found = find_belly(decode_photo(read_file(path, out.name), out.name));
  out.p_belly = found.quality.p_belly;
  const auto blocking = std::find_if(found.notes.begin(), found.notes.end(),
                                     [](const QualityNote& note) { return note.blocks; });
  if (!found.usable()) out.why = blocking == found.notes.end() ? "no strip" : blocking->measure;
  return out;
}

void print(const std::vector<Looked>& all) {
  struct Count {
    int pictures = 0, refused = 0;
  };
  std::map<std::string, Count> groups;
  std::map<std::string, int> reasons;
  for (const Looked& each : all) {
    for (const std::string& group : {each.group, std::string("all")})
      ++groups[group].pictures, groups[group].refused += !each.why.empty();
    if (!each.why.empty()) ++reasons[each.why];
  }
  std::cout << "| of | pictures | refused |\n|---|---:|---:|\n";
  for (const auto& [name, count] : groups)
    std::cout << fmt::format("| {} | {} | {} ({:.1f} %) |\n", name, count.pictures, count.refused,
                             100.0 * count.refused / count.pictures);
  std::cout << "\nWhy refused:";
  for (const auto& [reason, count] : reasons) std::cout << fmt::format(" {} {};", reason, count);
  std::cout << "\n\nTaken for a belly:\n";
  for (const Looked& each : all)
    if (each.why.empty()) std::cout << fmt::format("- {}, p_belly {:.2f}\n", each.name, each.p_belly);
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"Counts how many photographs without a newt are refused."};
  fs::path folder = "build/photographs";
  int threads = 2;
  app.add_option("folder", folder, "of JPEG files; what comes before a name's last hyphen is its group");
  app.add_option("--threads", threads)->check(CLI::Range(1, 512));
  CLI11_PARSE(app, argc, argv);
  try {
    if (!fs::is_directory(folder))
      throw Error(ErrorKind::not_found, folder.string(), "there is no such folder",
                  "fetch photographs with tools/train/fetch_grounds.sh");
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder))
      if (entry.path().extension() == ".jpg") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    if (files.empty()) throw Error(ErrorKind::bad_input, folder.string(), "it holds no .jpg file");
    std::vector<Looked> all(files.size());
    for_each_item(files.size(), threads, [&](std::size_t i) { all[i] = look(files[i]); });
    print(all);
  } catch (const Error& error) {
    std::cerr << error.what() << "\n";
    return exit_code(error.kind());
  }
}
