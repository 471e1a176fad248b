#include "tools/verdicts/labels.h"

#include <algorithm>
#include <map>

#include "matcher/base/error.h"
#include "tools/words/text.h"

namespace evet {
namespace {

bool bears(const Individual& individual, const std::string& label) {
  return individual.label == label || individual.name == label || individual.id.value == label ||
         std::find(individual.aliases.begin(), individual.aliases.end(), label) != individual.aliases.end();
}

}  // namespace

void refuse_shared_label(const Identities& who, const std::string& label, const std::set<IndividualId>& own) {
  for (const Individual& individual : who.individuals) {
    if (!bears(individual, label) || own.contains(individual.id)) continue;
    const CaptureFacts& first = who.capture(individual.captures.front())->facts;
    throw Error(ErrorKind::conflict, "label " + evet::quoted(label),
                "another individual bears it, first caught on " + first.night,
                "give another label, or say that the two are the same");
  }
}

std::vector<std::string> shared_labels(const Identities& who) {
  std::map<std::string, std::vector<std::string>> bearers;
  for (const Individual& individual : who.individuals)
    if (!individual.label.empty()) bearers[individual.label].push_back(individual.name);
  std::vector<std::string> out;
  for (const auto& [label, names] : bearers)
    if (names.size() > 1)
      out.push_back(counted(names.size(), "individual") + " were given the label " + evet::quoted(label) +
                    ", and go by " + listed(names) +
                    ": give all but one another label, or say that they are the same.");
  return out;
}

}  // namespace evet
