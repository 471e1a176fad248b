// Who is who, kept up to date: after a new verdict only what it touches is folded again.
//
// The ledger falls into clusters: captures that some verdict in force ties to each other, other than by
// saying that they are different, or that the sheets know as one animal. Nothing that the fold decides about
// a capture depends on anything outside its cluster, but for two individuals of one name. So what new
// verdicts, withdrawals, labels and examinations touch is gathered, each cluster of it is folded by the very
// rules of fold.h, and the outcome takes the place of the old. New captures, photos, corrections and merges
// fold everything again: they are rare, and can change the order of all captures. So does an entry older than
// one taken in before, which only a merge brings.
//
// Not a second set of rules: fold() is the oracle, and the property test holds this to it word for word.
#pragma once
#include <memory>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "matcher/catalogue/fold.h"

namespace evet {

class IncrementalFold {
 public:
  // `statements` is the same list at every call, with more at its ends. Valid until the next call.
  const Identities& update(const Statements& statements);
  size_t whole_folds() const { return whole_folds_; }  // how often everything was folded

 private:
  // What the statements say about one capture and its twins, as indices into their lists.
  struct Mentions {
    std::vector<size_t> captures, photos, corrections, verdicts, labels, closings;
  };
  struct Taken {  // how much of each list has been taken in
    size_t captures = 0, photos = 0, corrections = 0, merges = 0, verdicts = 0, labels = 0, examinations = 0,
           withdrawals = 0, set_aside = 0, closings = 0;
    static Taken all_of(const Statements& statements);
  };

  void fold_whole(const Statements& statements);
  bool in_order(const Statements& statements);
  void note_new(const Statements& statements, std::vector<size_t>& touched);
  bool note_retractions(const Statements& statements, std::vector<size_t>& touched);
  void mention(const Statements& statements, size_t verdict, std::vector<size_t>* touched);
  void examined(const PhotoId& photo, std::vector<size_t>* touched) const;
  std::vector<size_t> clusters_of(const Statements& statements, std::vector<size_t> touched) const;
  Statements part_of(const Statements& statements, const std::vector<size_t>& cluster) const;
  void take_over(Identities part, const std::vector<size_t>& cluster);
  void replace_individuals(std::vector<Individual> fresh, const std::vector<IndividualId>& gone);
  void name_again(const std::set<std::string>& names);

  Identities who_;
  Taken taken_;
  EntryId newest_;  // the greatest id taken in
  std::unique_ptr<Retractions> retractions_;
  std::unique_ptr<VersionVectors> versions_;
  std::vector<Mentions> mentions_;  // by capture
  std::unordered_map<PhotoId, std::vector<size_t>> captures_with_;
  std::unordered_map<PhotoId, std::vector<size_t>> examinations_of_;
  std::unordered_map<std::string, std::vector<size_t>> known_as_;  // the sheets' `individual` -> captures
  std::unordered_map<std::string, int> bearers_;                   // own name -> how many individuals
  size_t whole_folds_ = 0;
};

}  // namespace evet
