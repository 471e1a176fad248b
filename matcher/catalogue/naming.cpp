#include "matcher/catalogue/naming.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace evet {
namespace {

// Seven letters and digits from the id's random end, in an alphabet without I, L, O, U (Crockford's base 32).
std::string short_name(const std::string& id, size_t letters) {
  static constexpr char kAlphabet[] = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  std::uint64_t bits = 0;
  for (const char c : id)
    if (c != '-') bits = bits << 4 | static_cast<std::uint64_t>(c <= '9' ? c - '0' : c - 'a' + 10);
  std::string name;
  for (size_t i = 0; i < letters; ++i, bits >>= 5) {
    if (i == 3) name += '-';
    name += kAlphabet[bits & 31];
  }
  return name;
}

struct Name {
  EntryId first;  // when this capture was first given a name
  EntryId given;
  std::string text;
  bool current = true;
};

Sex sex_of(const Individual& individual, const Identities& identities) {
  int balance = 0;
  for (const CaptureId& id : individual.captures) {
    const Sex sex = identities.capture(id)->facts.sex;
    balance += sex == Sex::female ? 1 : sex == Sex::male ? -1 : 0;
  }
  return balance > 0 ? Sex::female : balance < 0 ? Sex::male : Sex::unknown;
}

}  // namespace

std::string own_name(const Individual& individual) {
  return individual.label.empty() ? short_name(individual.id.value, 7) : individual.label;
}
std::string distinct_name(const Individual& individual) {
  return own_name(individual) + " (" + short_name(individual.id.value, 12) + ")";
}

void finish(Identities& identities, const Statements& statements, const Retractions& retractions,
            const Gathered& gathered) {
  for (size_t i = 0; i < identities.captures.size(); ++i) {
    identities.capture_at[identities.captures[i].id] = i;
    for (const CaptureId& twin : identities.captures[i].twins) identities.capture_at[twin] = i;
  }
  const auto age = [&](const Individual& individual) {
    return identities.capture_at.at(individual.captures.front());
  };
  std::sort(identities.individuals.begin(), identities.individuals.end(),
            [&](const Individual& a, const Individual& b) { return age(a) < age(b); });

  std::vector<std::vector<Name>> names(identities.captures.size());
  for (size_t i = 0; i < gathered.captures.size(); ++i)
    if (const std::string& known = gathered.captures[i].state.facts.individual; !known.empty())
      names[i].push_back({gathered.captures[i].stamp.id, gathered.captures[i].stamp.id, known, true});
  for (const auto& said : statements.labels)
    if (const auto at = identities.capture_at.find(said.what.capture);
        at != identities.capture_at.end() && !retractions.retracts(said.stamp.id))
      names[at->second].push_back({said.stamp.id, said.stamp.id, said.what.label, true});
  for (auto& of_capture : names) {
    std::sort(of_capture.begin(), of_capture.end(),
              [](const Name& a, const Name& b) { return a.given < b.given; });
    for (Name& name : of_capture) {
      name.first = of_capture.front().first;
      name.current = &name == &of_capture.back();
    }
  }

  std::map<std::string, int> bearers;
  for (Individual& individual : identities.individuals) {
    std::vector<Name> all;
    for (const CaptureId& id : individual.captures) {
      const auto& of_capture = names[identities.capture_at.at(id)];
      all.insert(all.end(), of_capture.begin(), of_capture.end());
    }
    std::sort(all.begin(), all.end(), [](const Name& a, const Name& b) {
      return std::tuple(!a.current, a.first, a.given) < std::tuple(!b.current, b.first, b.given);
    });
    for (const Name& name : all) {
      if (individual.label.empty()) individual.label = name.text;
      const auto& known = individual.aliases;
      if (name.text != individual.label && std::find(known.begin(), known.end(), name.text) == known.end())
        individual.aliases.push_back(name.text);
    }
    individual.name = own_name(individual);
    individual.sex = sex_of(individual, identities);
    ++bearers[individual.name];
  }
  for (size_t i = 0; i < identities.individuals.size(); ++i) {
    Individual& individual = identities.individuals[i];
    identities.individual_at[individual.id] = i;
    if (bearers[individual.name] > 1) individual.name = distinct_name(individual);
  }
}

}  // namespace evet
