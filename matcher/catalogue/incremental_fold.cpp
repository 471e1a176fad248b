#include "matcher/catalogue/incremental_fold.h"

#include <algorithm>
#include <iterator>
#include <set>

#include "matcher/catalogue/naming.h"

namespace evet {
namespace {

// Captures that have to be folded together for the sake of a verdict, whether it wins or not. What people say
// are different need not be: it forbids a join, and a join holds together what it joins. "Cannot tell" is a
// person's word as well, before which the program's gives way.
bool holds_together(const Said<Verdict>& said) {
  return !said.what.planted && !said.what.other.empty() &&
         (said.what.answer != Answer::different || said.stamp.actor.kind == ActorKind::program);
}

}  // namespace

IncrementalFold::Taken IncrementalFold::Taken::all_of(const Statements& s) {
  return {s.captures.size(),  s.photos.size(),  s.corrections.size(),  s.merges.size(),
          s.verdicts.size(),  s.labels.size(),  s.examinations.size(), s.withdrawals.size(),
          s.set_aside.size(), s.closings.size()};
}

const Identities& IncrementalFold::update(const Statements& statements) {
  const Taken now = Taken::all_of(statements);
  const bool rare = !retractions_ || now.captures != taken_.captures || now.photos != taken_.photos ||
                    now.corrections != taken_.corrections || now.merges != taken_.merges ||
                    now.set_aside != taken_.set_aside;
  try {
    std::vector<size_t> touched;
    const bool whole = !in_order(statements) || rare;
    if (!whole) note_new(statements, touched);
    if (whole || !note_retractions(statements, touched))
      fold_whole(statements);
    else if (const auto cluster = clusters_of(statements, std::move(touched)); !cluster.empty())
      take_over(fold(part_of(statements, cluster), *retractions_, *versions_), cluster);
  } catch (...) {
    retractions_.reset();  // half taken in: the next call begins anew
    throw;
  }
  taken_ = now;
  return who_;
}

void IncrementalFold::fold_whole(const Statements& statements) {
  ++whole_folds_;
  retractions_ = std::make_unique<Retractions>(statements);
  versions_ = std::make_unique<VersionVectors>(statements.merges);
  who_ = fold(statements, *retractions_, *versions_);
  who_.out_of_force = retractions_->all();

  mentions_.assign(who_.captures.size(), {});
  captures_with_.clear(), examinations_of_.clear(), known_as_.clear(), bearers_.clear();
  const auto about = [&](const auto& list, const auto& capture_in, auto Mentions::*mentioned) {
    for (size_t i = 0; i < list.size(); ++i)
      if (const auto at = who_.capture_at.find(capture_in(list[i].what)); at != who_.capture_at.end())
        (mentions_[at->second].*mentioned).push_back(i);
  };
  about(
      statements.captures, [](const Capture& said) { return said.id; }, &Mentions::captures);
  about(
      statements.photos, [](const PhotoSaid& said) { return said.capture; }, &Mentions::photos);
  about(
      statements.corrections, [](const Correction& said) { return said.capture; }, &Mentions::corrections);
  about(
      statements.labels, [](const LabelGiven& said) { return said.capture; }, &Mentions::labels);
  about(
      statements.closings, [](const Closing& said) { return said.capture; }, &Mentions::closings);
  for (size_t i = 0; i < statements.verdicts.size(); ++i) mention(statements, i, nullptr);
  for (size_t i = 0; i < statements.examinations.size(); ++i)
    examinations_of_[statements.examinations[i].what.photo].push_back(i);
  for (size_t i = 0; i < who_.captures.size(); ++i) {
    const CaptureState& capture = who_.captures[i];
    for (const PhotoState& photo : capture.photos) captures_with_[photo.photo].push_back(i);
    if (!capture.facts.individual.empty()) known_as_[capture.facts.individual].push_back(i);
  }
  for (const Individual& individual : who_.individuals) ++bearers_[own_name(individual)];
}

void IncrementalFold::mention(const Statements& statements, size_t verdict, std::vector<size_t>* touched) {
  const Verdict& what = statements.verdicts[verdict].what;
  for (const CaptureId* id : {&what.capture, &what.other})
    if (const auto at = who_.capture_at.find(*id); at != who_.capture_at.end()) {
      mentions_[at->second].verdicts.push_back(verdict);
      if (touched != nullptr) touched->push_back(at->second);
    }
}

void IncrementalFold::examined(const PhotoId& photo, std::vector<size_t>* touched) const {
  if (const auto at = captures_with_.find(photo); at != captures_with_.end())
    touched->insert(touched->end(), at->second.begin(), at->second.end());
}

// Whether what has been said since is younger than all that was said before.
bool IncrementalFold::in_order(const Statements& statements) {
  EntryId oldest, newest = newest_;
  const auto look = [&](const auto& list, size_t from) {
    for (size_t i = from; i < list.size(); ++i) {
      const EntryId& id = list[i].stamp.id;
      if (oldest.empty() || id < oldest) oldest = id;
      if (newest < id) newest = id;
    }
  };
  look(statements.verdicts, taken_.verdicts), look(statements.labels, taken_.labels);
  look(statements.closings, taken_.closings);
  look(statements.examinations, taken_.examinations), look(statements.withdrawals, taken_.withdrawals);
  const bool younger = oldest.empty() || newest_ < oldest;
  newest_ = newest;
  return younger;
}

// What has been said since, and about whom.
void IncrementalFold::note_new(const Statements& statements, std::vector<size_t>& touched) {
  for (size_t i = taken_.verdicts; i < statements.verdicts.size(); ++i) mention(statements, i, &touched);
  const auto note = [&](const auto& list, size_t from, auto Mentions::*mentioned) {
    for (size_t i = from; i < list.size(); ++i)
      if (const auto at = who_.capture_at.find(list[i].what.capture); at != who_.capture_at.end()) {
        (mentions_[at->second].*mentioned).push_back(i);
        touched.push_back(at->second);
      }
  };
  note(statements.labels, taken_.labels, &Mentions::labels);
  note(statements.closings, taken_.closings, &Mentions::closings);
  for (size_t i = taken_.examinations; i < statements.examinations.size(); ++i) {
    const PhotoId& photo = statements.examinations[i].what.photo;
    examinations_of_[photo].push_back(i);
    examined(photo, &touched);
  }
}

// What new withdrawals and adjudications put out of force, or back into it, and whom that touches. False when
// it is a capture, a photo or a correction.
bool IncrementalFold::note_retractions(const Statements& statements, std::vector<size_t>& touched) {
  const bool acted =
      statements.withdrawals.size() != taken_.withdrawals ||
      std::any_of(statements.verdicts.begin() + static_cast<std::ptrdiff_t>(taken_.verdicts),
                  statements.verdicts.end(), [](const auto& said) { return !said.what.settles.empty(); });
  if (!acted) return true;
  auto retractions = std::make_unique<Retractions>(statements);
  std::vector<EntryId> out = retractions->all(), changed;
  std::set_symmetric_difference(out.begin(), out.end(), who_.out_of_force.begin(), who_.out_of_force.end(),
                                std::back_inserter(changed));
  const auto is_changed = [&](const auto& said) {
    return std::binary_search(changed.begin(), changed.end(), said.stamp.id);
  };
  const auto any_changed = [&](const auto& list) {
    return std::any_of(list.begin(), list.end(), is_changed);
  };
  if (any_changed(statements.captures) || any_changed(statements.photos) ||
      any_changed(statements.corrections))
    return false;
  const auto touch = [&](const CaptureId& id) {
    if (const auto at = who_.capture_at.find(id); at != who_.capture_at.end()) touched.push_back(at->second);
  };
  for (const auto& said : statements.verdicts)
    if (is_changed(said)) touch(said.what.capture), touch(said.what.other);
  for (const auto& said : statements.labels)
    if (is_changed(said)) touch(said.what.capture);
  for (const auto& said : statements.closings)
    if (is_changed(said)) touch(said.what.capture);
  for (const auto& said : statements.examinations)
    if (is_changed(said)) examined(said.what.photo, &touched);
  retractions_ = std::move(retractions);
  who_.out_of_force = std::move(out);
  return true;
}

// All captures of the clusters that the touched ones are in, in the order of captures.
std::vector<size_t> IncrementalFold::clusters_of(const Statements& statements,
                                                 std::vector<size_t> touched) const {
  std::set<size_t> cluster;
  while (!touched.empty()) {
    const size_t capture = touched.back();
    touched.pop_back();
    if (!cluster.insert(capture).second) continue;
    for (const size_t verdict : mentions_[capture].verdicts) {
      const Said<Verdict>& said = statements.verdicts[verdict];
      if (!holds_together(said) || retractions_->retracts(said.stamp.id)) continue;
      for (const CaptureId* id : {&said.what.capture, &said.what.other})
        if (const auto at = who_.capture_at.find(*id); at != who_.capture_at.end())
          touched.push_back(at->second);
    }
    if (const std::string& known = who_.captures[capture].facts.individual; !known.empty()) {
      const auto& same = known_as_.at(known);
      touched.insert(touched.end(), same.begin(), same.end());
    }
  }
  return {cluster.begin(), cluster.end()};
}

// What the statements say of these captures, and of no others.
Statements IncrementalFold::part_of(const Statements& statements, const std::vector<size_t>& cluster) const {
  Statements part;
  std::set<size_t> verdicts, examinations;
  const auto inside = [&](const CaptureId& id) {
    const auto at = who_.capture_at.find(id);
    return at != who_.capture_at.end() && std::binary_search(cluster.begin(), cluster.end(), at->second);
  };
  for (const size_t capture : cluster) {
    const Mentions& said = mentions_[capture];
    for (const size_t i : said.captures) part.captures.push_back(statements.captures[i]);
    for (const size_t i : said.photos) part.photos.push_back(statements.photos[i]);
    for (const size_t i : said.corrections) part.corrections.push_back(statements.corrections[i]);
    for (const size_t i : said.labels) part.labels.push_back(statements.labels[i]);
    for (const size_t i : said.closings) part.closings.push_back(statements.closings[i]);
    for (const size_t i : said.verdicts) {
      const Verdict& what = statements.verdicts[i].what;
      if (inside(what.capture) && (what.other.empty() || inside(what.other))) verdicts.insert(i);
    }
    for (const PhotoState& photo : who_.captures[capture].photos)
      if (const auto at = examinations_of_.find(photo.photo); at != examinations_of_.end())
        examinations.insert(at->second.begin(), at->second.end());
  }
  for (const size_t i : verdicts) part.verdicts.push_back(statements.verdicts[i]);
  for (const size_t i : examinations) part.examinations.push_back(statements.examinations[i]);
  return part;
}

void IncrementalFold::take_over(Identities part, const std::vector<size_t>& cluster) {
  std::set<IndividualId> gone;
  for (const size_t i : cluster)
    if (who_.captures[i].individual) gone.insert(*who_.captures[i].individual);
  for (size_t i = 0; i < cluster.size(); ++i) {
    CaptureState& mine = who_.captures[cluster[i]];
    CaptureState& now = part.captures[i];
    mine.individual = now.individual, mine.photos = std::move(now.photos);
    mine.disputed = now.disputed, mine.by_program = now.by_program;
    mine.closed = now.closed;
  }
  const auto in_cluster = [&](const CaptureId& id) {
    return std::binary_search(cluster.begin(), cluster.end(), who_.capture_at.at(id));
  };
  std::erase_if(who_.disputes, [&](const Dispute& one) { return in_cluster(one.a) || in_cluster(one.b); });
  std::erase_if(who_.overridden, [&](const Overridden& one) { return in_cluster(one.capture); });
  std::move(part.disputes.begin(), part.disputes.end(), std::back_inserter(who_.disputes));
  std::move(part.overridden.begin(), part.overridden.end(), std::back_inserter(who_.overridden));
  sort_findings(who_);
  replace_individuals(std::move(part.individuals), {gone.begin(), gone.end()});
}

// Individuals stand in the order of their oldest captures. Mostly the fresh ones stand where the old ones
// stood, or near the end; only what lies behind the first change moves.
void IncrementalFold::replace_individuals(std::vector<Individual> fresh,
                                          const std::vector<IndividualId>& gone) {
  std::set<std::string> shared;  // names that several individuals had before, or have now
  std::vector<size_t> holes;
  for (const IndividualId& id : gone) {
    holes.push_back(who_.individual_at.at(id));
    const auto bearers = bearers_.find(own_name(who_.individuals[holes.back()]));
    if (bearers->second > 1) shared.insert(bearers->first);
    if (--bearers->second == 0) bearers_.erase(bearers);
    who_.individual_at.erase(id);
  }
  std::sort(holes.begin(), holes.end());
  for (Individual& one : fresh) {
    one.name = own_name(one);
    if (++bearers_[one.name] > 1) shared.insert(one.name);
  }
  const auto age = [&](const Individual& one) { return who_.capture_at.at(one.captures.front()); };
  auto& all = who_.individuals;
  size_t first = holes.empty() ? all.size() : holes.front();
  if (!fresh.empty())
    first = std::min(first, static_cast<size_t>(std::partition_point(all.begin(), all.end(),
                                                                     [&](const Individual& one) {
                                                                       return age(one) < age(fresh.front());
                                                                     }) -
                                                all.begin()));
  std::vector<Individual> behind;
  for (size_t i = first, hole = 0; i < all.size(); ++i) {
    if (hole < holes.size() && holes[hole] == i)
      ++hole;
    else
      behind.push_back(std::move(all[i]));
  }
  all.erase(all.begin() + static_cast<std::ptrdiff_t>(first), all.end());
  std::merge(std::make_move_iterator(fresh.begin()), std::make_move_iterator(fresh.end()),
             std::make_move_iterator(behind.begin()), std::make_move_iterator(behind.end()),
             std::back_inserter(all),
             [&](const Individual& a, const Individual& b) { return age(a) < age(b); });
  for (size_t i = first; i < all.size(); ++i) who_.individual_at[all[i].id] = i;
  name_again(shared);
}

// Two individuals of one own name are told apart, and one that has become the only one is called by it alone.
void IncrementalFold::name_again(const std::set<std::string>& names) {
  if (names.empty()) return;
  for (Individual& one : who_.individuals)
    if (const std::string own = own_name(one); names.contains(own))
      one.name = bearers_.at(own) > 1 ? distinct_name(one) : own;
}

}  // namespace evet
