#include "matcher/catalogue/fold.h"

#include <algorithm>
#include <map>
#include <set>

#include "matcher/catalogue/chains.h"
#include "matcher/catalogue/gather.h"
#include "matcher/catalogue/naming.h"
#include "matcher/catalogue/opinions.h"
#include "matcher/catalogue/version_vectors.h"

namespace evet {
namespace {

using Pair = std::pair<int, int>;
Pair pair_of(int a, int b) {
  return {std::min(a, b), std::max(a, b)};
}

// A join that someone asks for. Nodes: captures, then one for each identity known by other means.
struct Link {
  int a = 0, b = 0;
  std::vector<const Stamp*> by;  // verdicts; empty: the sheet's `individual`
  bool program = false;
  bool counts = true;
};

// Two nodes that must not be joined, and who says so.
struct Ban {
  int a = 0, b = 0;
  std::vector<EntryId> against;
  const Stamp* fresh = nullptr;  // by this "new"
};

class Folding {
 public:
  Folding(const Gathered& gathered, const Opinions& opinions, const VersionVectors& versions)
      : captures_(gathered.captures), opinions_(opinions), versions_(versions) {
    std::set<std::string> known;
    for (const GatheredCapture& capture : captures_)
      if (!capture.state.facts.individual.empty()) known.insert(capture.state.facts.individual);
    known_.assign(known.begin(), known.end());
    link_people();
    contest(false);
    link_program();
    contest(true);
  }

  void write(Identities& out);

 private:
  // Whoever places a capture says more than that it belongs to nobody.
  bool closed_by_people(size_t capture) const {
    const CaptureState& state = captures_[capture].state;
    return state.closed && state.facts.individual.empty() &&
           std::none_of(placing_[capture].begin(), placing_[capture].end(),
                        [](const Opinion* one) { return one->said->stamp.actor.kind == ActorKind::person; });
  }
  int nodes() const { return static_cast<int>(captures_.size() + known_.size()); }
  void link_people();
  void link_program();
  void contest(bool program);
  std::set<int> crossing_alone(const std::set<int>& contested, const std::vector<Ban>& bans) const;
  std::vector<Ban> broken_bans();
  void add_fresh_bans(const Opinion& fresh, const std::vector<int>& group, std::vector<Ban>& bans) const;
  std::vector<int> chain_links(const Ban& ban, const std::vector<int>& candidates) const;
  Joins joined() const;

  const std::vector<GatheredCapture>& captures_;
  const Opinions& opinions_;
  const VersionVectors& versions_;
  std::vector<std::string> known_;
  std::vector<Link> links_;
  std::map<Pair, std::vector<EntryId>> differences_;
  std::vector<std::vector<const Opinion*>> placing_;  // of each capture: verdicts that place it
  std::vector<bool> fresh_;                           // declared new, by people or by the program
  std::vector<Dispute> disputes_;
  std::vector<bool> disputed_;
  std::vector<Overridden> overridden_;
};

void Folding::link_people() {
  const size_t count = captures_.size();
  placing_.resize(count), fresh_.resize(count), disputed_.resize(count);
  std::map<Pair, size_t> link_at;
  for (const Opinion& opinion : opinions_.people) {
    const auto subject = static_cast<size_t>(opinion.subject);
    if (opinion.answer() == Answer::new_individual) {
      fresh_[subject] = true;
      placing_[subject].push_back(&opinion);
      continue;
    }
    const Pair pair = pair_of(opinion.subject, opinion.other);
    if (opinion.answer() == Answer::different) differences_[pair].push_back(opinion.said->stamp.id);
    if (opinion.answer() != Answer::same) continue;
    const auto [at, added] = link_at.emplace(pair, links_.size());
    if (added) links_.push_back({pair.first, pair.second, {}, false, true});
    links_[at->second].by.push_back(&opinion.said->stamp);
    placing_[subject].push_back(&opinion);
    placing_[static_cast<size_t>(opinion.other)].push_back(&opinion);
  }
  for (size_t i = 0; i < count; ++i) {
    const std::string& individual = captures_[i].state.facts.individual;
    if (individual.empty()) continue;
    const auto at = std::lower_bound(known_.begin(), known_.end(), individual) - known_.begin();
    links_.push_back({static_cast<int>(i), static_cast<int>(count) + static_cast<int>(at), {}, false, true});
  }
}

void Folding::link_program() {
  std::set<int> settled_by_people;
  std::set<Pair> judged_by_people;
  for (const Opinion& opinion : opinions_.people) {
    if (opinion.answer() != Answer::different) settled_by_people.insert(opinion.subject);
    if (opinion.other >= 0) judged_by_people.insert(pair_of(opinion.subject, opinion.other));
  }
  for (const Opinion& opinion : opinions_.program) {
    const bool spoken_for =
        settled_by_people.contains(opinion.subject) ||
        (opinion.other >= 0 && judged_by_people.contains(pair_of(opinion.subject, opinion.other)));
    const auto subject = static_cast<size_t>(opinion.subject);
    const bool closed = closed_by_people(subject) ||
                        (opinion.other >= 0 && closed_by_people(static_cast<size_t>(opinion.other)));
    if (spoken_for || closed) {
      overridden_.push_back({opinion.said->stamp.id, captures_[subject].state.id});
      continue;
    }
    if (opinion.answer() == Answer::new_individual) {
      fresh_[subject] = true;
      placing_[subject].push_back(&opinion);
    } else if (opinion.answer() == Answer::same) {
      links_.push_back({opinion.subject, opinion.other, {&opinion.said->stamp}, true, true});
      placing_[subject].push_back(&opinion);
      placing_[static_cast<size_t>(opinion.other)].push_back(&opinion);
    }
  }
}

Joins Folding::joined() const {
  Joins joins(nodes());
  for (const Link& link : links_)
    if (link.counts) joins.join(link.a, link.b);
  return joins;
}

// "New" forbids a join with every capture that had been placed among individuals, by a verdict that its
// reader could have known, or by the sheet; not with one placed only by a comparison with this very capture.
void Folding::add_fresh_bans(const Opinion& fresh, const std::vector<int>& group,
                             std::vector<Ban>& bans) const {
  for (const int other : group) {
    if (other == fresh.subject) continue;
    const GatheredCapture& capture = captures_[static_cast<size_t>(other)];
    const Stamp& said = fresh.said->stamp;
    bool placed = !capture.state.facts.individual.empty() && versions_.happened_before(capture.stamp, said);
    for (const Opinion* opinion : placing_[static_cast<size_t>(other)])
      placed = placed || (opinion->subject != fresh.subject && opinion->other != fresh.subject &&
                          versions_.happened_before(opinion->said->stamp, said));
    if (placed) bans.push_back({fresh.subject, other, {said.id}, &said});
  }
}

std::vector<Ban> Folding::broken_bans() {
  Joins joins = joined();
  std::vector<Ban> bans;
  for (const auto& [pair, against] : differences_)
    if (joins.root(pair.first) == joins.root(pair.second))
      bans.push_back({pair.first, pair.second, against, nullptr});

  const int first_known = static_cast<int>(captures_.size());
  std::map<int, std::vector<int>> known_in;
  for (int node = first_known; node < nodes(); ++node) known_in[joins.root(node)].push_back(node);
  for (const auto& [root, list] : known_in)
    for (size_t i = 0; i < list.size(); ++i)
      for (size_t j = i + 1; j < list.size(); ++j) bans.push_back({list[i], list[j], {}, nullptr});

  std::map<int, std::vector<int>> group_of;  // only of groups that hold a capture that people declared new
  std::vector<const Opinion*> fresh;
  for (const Opinion& opinion : opinions_.people)
    if (opinion.answer() == Answer::new_individual) {
      fresh.push_back(&opinion);
      group_of[joins.root(opinion.subject)];
    }
  for (int node = 0; node < first_known; ++node)
    if (const auto group = group_of.find(joins.root(node)); group != group_of.end())
      group->second.push_back(node);
  for (const Opinion* opinion : fresh) add_fresh_bans(*opinion, group_of[joins.root(opinion->subject)], bans);
  return bans;
}

// The links on the chains that break a ban. A reader who declared a capture new and later joined it to
// another, directly or not, changed their mind: chains over such a link do not count against them.
std::vector<int> Folding::chain_links(const Ban& ban, const std::vector<int>& candidates) const {
  std::vector<Edge> edges;
  std::vector<int> link_of;
  for (const int index : candidates) {
    const Link& link = links_[static_cast<size_t>(index)];
    const bool revised = ban.fresh != nullptr && !link.by.empty() &&
                         std::all_of(link.by.begin(), link.by.end(), [&](const Stamp* by) {
                           return by->actor == ban.fresh->actor && by->id > ban.fresh->id;
                         });
    if (revised) continue;
    edges.push_back({link.a, link.b});
    link_of.push_back(index);
  }
  std::vector<int> on_chain;
  for (const int edge : edges_between(ban.a, ban.b, edges))
    on_chain.push_back(link_of[static_cast<size_t>(edge)]);
  return on_chain;
}

void Folding::contest(bool program) {
  const std::vector<Ban> bans = broken_bans();
  if (bans.empty()) return;
  Joins joins = joined();
  std::map<int, std::vector<int>> links_in;
  for (const Ban& ban : bans) links_in[joins.root(ban.a)];
  for (size_t i = 0; i < links_.size(); ++i)
    if (const auto at = links_in.find(joins.root(links_[i].a)); at != links_in.end() && links_[i].counts)
      at->second.push_back(static_cast<int>(i));

  std::set<int> contested;
  const auto id_of = [&](int node) {
    if (node < static_cast<int>(captures_.size())) return captures_[static_cast<size_t>(node)].state.id;
    for (const GatheredCapture& capture : captures_)  // an identity known by other means: its first capture
      if (capture.state.facts.individual == known_[static_cast<size_t>(node) - captures_.size()])
        return capture.state.id;
    return CaptureId();
  };
  for (const Ban& ban : bans) {
    const std::vector<int> chain = chain_links(ban, links_in[joins.root(ban.a)]);
    if (chain.empty()) continue;
    std::vector<int> weak;  // what gives way: the program's word before people's, verdicts before the sheet
    for (const int index : chain)
      if (program ? links_[static_cast<size_t>(index)].program
                  : !links_[static_cast<size_t>(index)].by.empty())
        weak.push_back(index);
    if (!program) {
      // Two captures under one known identity, said to be different: a chain that no verdict is part of.
      std::vector<int> firm;
      for (const int index : chain)
        if (links_[static_cast<size_t>(index)].by.empty()) firm.push_back(index);
      const std::vector<int> left = chain_links(ban, firm);
      weak.insert(weak.end(), left.begin(), left.end());
    }
    contested.insert(weak.begin(), weak.end());
    if (program) continue;
    Dispute dispute{id_of(ban.a), id_of(ban.b), ban.against, {}};
    for (const int index : weak) {
      const Link& link = links_[static_cast<size_t>(index)];
      for (const Stamp* by : link.by) dispute.contested.push_back(by->id);
      for (const int node : {link.a, link.b})
        if (node < static_cast<int>(captures_.size())) disputed_[static_cast<size_t>(node)] = true;
    }
    for (const int node : {ban.a, ban.b})
      if (node < static_cast<int>(captures_.size())) disputed_[static_cast<size_t>(node)] = true;
    std::sort(dispute.contested.begin(), dispute.contested.end());
    disputes_.push_back(std::move(dispute));
  }
  const std::set<int> alone = program ? crossing_alone(contested, bans) : std::set<int>();
  const bool some_do = !alone.empty() && alone.size() < contested.size();
  for (const int index : some_do ? alone : contested) {
    Link& link = links_[static_cast<size_t>(index)];
    link.counts = false;
    if (link.program)
      overridden_.push_back({link.by.front()->id, captures_[static_cast<size_t>(link.a)].state.id});
  }
  if (some_do) contest(true);
}

// Of the program's verdicts on broken chains those that cross a ban each by itself: the others, which only
// complete their chains, are not to go with them.
std::set<int> Folding::crossing_alone(const std::set<int>& contested, const std::vector<Ban>& bans) const {
  Joins without(nodes());
  for (size_t i = 0; i < links_.size(); ++i)
    if (links_[i].counts && !contested.contains(static_cast<int>(i))) without.join(links_[i].a, links_[i].b);
  std::set<Pair> apart;
  for (const Ban& ban : bans) apart.insert(pair_of(without.root(ban.a), without.root(ban.b)));
  std::set<int> alone;
  for (const int index : contested) {
    const Link& link = links_[static_cast<size_t>(index)];
    if (apart.contains(pair_of(without.root(link.a), without.root(link.b)))) alone.insert(index);
  }
  return alone;
}

void Folding::write(Identities& out) {
  Joins joins = joined();
  const size_t count = captures_.size();
  std::vector<bool> known(count), by_person(count);
  for (const Link& link : links_) {
    if (!link.counts) continue;
    for (const int node : {link.a, link.b})
      if (node < static_cast<int>(count)) {
        if (!link.program) by_person[static_cast<size_t>(node)] = true;
        if (link.by.empty()) known[static_cast<size_t>(node)] = true;
      }
  }
  for (const Opinion& opinion : opinions_.people)
    if (opinion.answer() == Answer::new_individual) by_person[static_cast<size_t>(opinion.subject)] = true;

  std::map<int, std::vector<size_t>> groups;  // captures_ is in order of age, so each group is as well
  for (size_t i = 0; i < count; ++i) groups[joins.root(static_cast<int>(i))].push_back(i);
  for (const GatheredCapture& capture : captures_) out.captures.push_back(capture.state);
  for (const auto& [root, group] : groups) {
    Individual individual;
    for (const size_t i : group) {
      individual.placed = individual.placed || known[i] || fresh_[i];
      individual.disputed = individual.disputed || disputed_[i];
      individual.captures.push_back(captures_[i].state.id);
    }
    const bool is_individual = individual.placed || group.size() > 1;
    individual.id = IndividualId(individual.captures.front().value);
    for (const size_t i : group) {
      if (is_individual || disputed_[i] || !closed_by_people(i)) out.captures[i].closed.reset();
      out.captures[i].disputed = disputed_[i];
      out.captures[i].by_program = is_individual && !by_person[i];
      if (is_individual) out.captures[i].individual = individual.id;
    }
    if (is_individual) out.individuals.push_back(std::move(individual));
  }
  out.disputes = std::move(disputes_);
  out.overridden = std::move(overridden_);
}

}  // namespace

Identities fold(const Statements& statements) {
  const Retractions retractions(statements);
  Identities out = fold(statements, retractions, VersionVectors(statements.merges));
  out.out_of_force = retractions.all();
  return out;
}

Identities fold(const Statements& statements, const Retractions& retractions,
                const VersionVectors& versions) {
  const Gathered gathered = gather(statements, retractions);
  const Opinions counted = opinions(statements, retractions, gathered.index_of);
  Identities out;
  Folding(gathered, counted, versions).write(out);
  finish(out, statements, retractions, gathered);
  out.set_aside = statements.set_aside;
  out.set_aside.insert(out.set_aside.end(), gathered.set_aside.begin(), gathered.set_aside.end());
  std::sort(out.set_aside.begin(), out.set_aside.end());
  sort_findings(out);
  return out;
}

void sort_findings(Identities& who) {
  const auto at = [&](const CaptureId& id) { return who.capture_at.at(id); };
  std::sort(who.disputes.begin(), who.disputes.end(), [&](const Dispute& x, const Dispute& y) {
    const std::pair one(at(x.a), at(x.b)), other(at(y.a), at(y.b));
    return one != other ? one < other : x.against < y.against;
  });
  std::sort(who.overridden.begin(), who.overridden.end(),
            [](const Overridden& x, const Overridden& y) { return x.verdict < y.verdict; });
}

}  // namespace evet
