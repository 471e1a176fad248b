#include "matcher/catalogue/opinions.h"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>

namespace evet {
namespace {

// Keeps the verdict with the greater id.
template <class Key>
void keep_newer(std::map<Key, Opinion>& newest, const Key& key, const Opinion& opinion) {
  const auto [at, added] = newest.emplace(key, opinion);
  if (!added && at->second.said->stamp.id < opinion.said->stamp.id) at->second = opinion;
}

void sort_by_id(std::vector<Opinion>& list) {
  std::sort(list.begin(), list.end(),
            [](const Opinion& a, const Opinion& b) { return a.said->stamp.id < b.said->stamp.id; });
}

}  // namespace

Opinions opinions(const Statements& statements, const Retractions& retractions,
                  const std::unordered_map<CaptureId, int>& index_of) {
  using Reader = std::string;
  std::map<std::tuple<Reader, int, int>, Opinion> of_pair;
  std::map<std::pair<Reader, int>, Opinion> fresh, same;
  std::map<int, Opinion> program;
  for (const auto& said : statements.verdicts) {
    if (said.what.planted || retractions.retracts(said.stamp.id)) continue;
    const auto subject = index_of.find(said.what.capture), other = index_of.find(said.what.other);
    const bool is_fresh = said.what.answer == Answer::new_individual;
    if (subject == index_of.end() || (!is_fresh && other == index_of.end())) continue;
    const Opinion opinion{&said, subject->second, is_fresh ? -1 : other->second};
    if (opinion.subject == opinion.other) continue;  // twins
    if (said.stamp.actor.kind == ActorKind::program) {
      keep_newer(program, opinion.subject, opinion);
      continue;
    }
    const Reader& reader = said.stamp.actor.name;
    if (is_fresh)
      keep_newer(fresh, {reader, opinion.subject}, opinion);
    else
      keep_newer(of_pair,
                 {reader, std::min(opinion.subject, opinion.other), std::max(opinion.subject, opinion.other)},
                 opinion);
  }
  for (const auto& [key, opinion] : of_pair)
    if (opinion.answer() == Answer::same) keep_newer(same, {std::get<0>(key), opinion.subject}, opinion);

  const auto newer = [](const std::map<std::pair<Reader, int>, Opinion>& list, const Reader& reader,
                        const Opinion& than) {
    const auto found = list.find({reader, than.subject});
    return found != list.end() && found->second.said->stamp.id > than.said->stamp.id;
  };
  Opinions all;
  for (const auto& [key, opinion] : of_pair)
    if (opinion.answer() != Answer::same || !newer(fresh, std::get<0>(key), opinion))
      all.people.push_back(opinion);
  for (const auto& [key, opinion] : fresh)
    if (!newer(same, key.first, opinion)) all.people.push_back(opinion);
  for (const auto& [subject, opinion] : program) all.program.push_back(opinion);
  sort_by_id(all.people);
  sort_by_id(all.program);
  return all;
}

}  // namespace evet
