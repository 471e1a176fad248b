// The joint posterior of a night at one place: who is who, all captures at once.
//
// Each capture is one of the known individuals, or a new animal, or the same new animal as an earlier capture
// of the list. The weight of a whole assignment is the product of the captures' own weights, times `twice`
// for each capture of a known individual beyond its first (an animal in hand is rarely caught again that
// night); for a capture that joins a new animal the penalty is part of its `ratio`.
//
// Exact by enumeration where the captures that compete are few; else by belief propagation on the assignment
// of captures to animals (Williams & Lau 2014, IEEE Trans. Aerospace and Electronic Systems 50:2942), which
// is exact where the competition has no loops and near it elsewhere.
#pragma once
#include <cstddef>
#include <vector>

namespace evet {

struct NightModel {
  struct Claim {
    size_t individual = 0;  // any numbering
    double weight = 0;
  };
  struct Kin {           // the same new animal as an earlier capture
    size_t founder = 0;  // its index, below this capture's own
    double ratio = 0;    // weight against that of a new animal of its own
  };
  struct Capture {
    std::vector<Claim> claims;
    double is_new = 1;
    std::vector<Kin> kin;
  };
  std::vector<Capture> captures;
  double twice = 0;
};

// Probabilities, in the order of the model; of one capture they sum to 1.
struct NightMarginals {
  struct Capture {
    std::vector<double> claims, kin;
    double fresh = 0;  // a new animal that no earlier capture shows
    double is_new() const;
  };
  std::vector<Capture> captures;
};

// At most `states` assignments are enumerated at once; 0: none are.
NightMarginals marginals(const NightModel& model, size_t states = 20000);
NightMarginals marginals_by_enumeration(const NightModel& model);
NightMarginals marginals_by_passing(const NightModel& model);

// The captures in groups that do not compete with each other: the answer to one tells next to nothing about
// another group.
std::vector<std::vector<size_t>> competing(const NightModel& model);

}  // namespace evet
