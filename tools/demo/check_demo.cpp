// Says how many of the demo night's captures were matched rightly. Reads the truth of the rendered photos,
// who evet thinks is who, and its ranking of the night before anything of it was accepted.
#include <exception>
#include <fstream>
#include <iostream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>
#include <string>

namespace {

using nlohmann::json;

json read(const std::string& path) {
  std::ifstream file(path);
  if (!file) throw std::runtime_error(path + " cannot be read");
  return json::parse(file);
}

// capture -> the animal in the picture; -1 where none can be told.
std::map<std::string, int> animals(const json& truth) {
  std::map<std::string, int> out;
  for (const json& photo : truth) {
    const bool seen = photo["subject"] == "belly" && !photo["individual"].is_null();
    int& animal = out.try_emplace(photo["capture"], -1).first->second;
    if (seen) animal = photo["individual"];
  }
  return out;
}

int check(const std::string& truth_folder, const std::string& individuals, const std::string& ranking) {
  const auto earlier = animals(read(truth_folder + "/earlier.json"));
  const auto tonight = animals(read(truth_folder + "/last_night.json"));
  std::set<int> caught_before;
  for (const auto& [capture, animal] : earlier) caught_before.insert(animal);
  // Which animals evet put under each name, on the earlier nights.
  std::map<std::string, std::set<int>> under;
  const json known = read(individuals), ranked = read(ranking);
  for (const json& individual : known["individuals"])
    for (const json& capture : individual["captures"])
      if (const auto at = earlier.find(capture["capture"]); at != earlier.end())
        under[individual["individual"]].insert(at->second);

  int right = 0, wrong = 0, asked = 0, asked_rightly = 0, same = 0, fresh = 0, refused = 0, lost = 0;
  for (const json& capture : ranked["captures"]) {
    const std::string name = capture["capture"];
    const int animal = tonight.at(name);
    bool usable = false;
    for (const json& photo : capture["photos"]) usable = usable || photo["usable"];
    const bool any = !capture["candidates"].empty();
    const std::string best = any ? capture["candidates"][0]["individual"].get<std::string>() : "";
    const bool best_is_it = any && under[best] == std::set<int>{animal};
    std::string verdict;
    if (!usable) {
      verdict = animal < 0 ? (++refused, ++right, "rightly refused: no belly can be seen")
                           : (++lost, "refused, though a belly can be seen");
    } else if (animal < 0) {
      verdict = (++wrong, "WRONG: matched, though there is nothing to match");
    } else if (capture["advice"] == "look") {
      const bool helps = best_is_it || (!caught_before.contains(animal) && capture["new_probability"] > 0.5);
      ++asked;
      if (helps) ++asked_rightly;
      verdict = helps ? "left to a person, the likeliest answer is right"
                      : "left to a person, the likeliest answer is wrong";
    } else if (capture["advice"] == "same") {
      verdict = best_is_it ? (++same, ++right, "rightly caught before")
                           : (++wrong, "WRONG: joined to another animal");
    } else if (!caught_before.contains(animal)) {
      verdict = (++fresh, ++right, "rightly new");
    } else {
      verdict = (++wrong, "WRONG: called new, was caught before");
    }
    std::cout << "  " << name << "  " << verdict << "\n";
  }
  const size_t all = tonight.size();
  std::cout << "Checked against the truth: " << right << " of the night's " << all
            << " captures matched rightly (" << same << " caught before, " << fresh << " new, " << refused
            << " without a belly); " << asked << " left to a person (likeliest answer right in "
            << asked_rightly << "), " << lost << " refused though visible, " << wrong << " wrong.\n";
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 4) {
    std::cerr << "usage: evet-check-demo TRUTH_FOLDER INDIVIDUALS.json RANKING.json\n";
    return 2;
  }
  try {
    return check(argv[1], argv[2], argv[3]);
  } catch (const std::exception& error) {
    std::cerr << "evet-check-demo: " << error.what() << "\n";
    return 3;
  }
}
