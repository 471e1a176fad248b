// What captures and individuals are called on the command line and in its output: short where that is plain,
// and always so that it finds the same one again.
#pragma once
#include <string>
#include <unordered_map>

#include "matcher/catalogue/fold.h"

namespace evet {

// Night by night; within one by place and name, numbers by their value: c2 before c10.
bool listed_before(const CaptureState& a, const CaptureState& b);

class Names {
 public:
  explicit Names(const Identities& identities);  // which must outlive this

  // The sheet's name of the capture; with its night in front ("2031-05-14/c3") where another has that name;
  // its id where even that is not enough.
  std::string of(const CaptureState& capture) const;
  // Label or made-up name; its id where another is called the same.
  std::string of(const Individual& individual) const;
  std::string of(const IndividualId& individual) const;

  // By any of these, by the name of one of its photos, or by id. Errors: not_found, with the near miss;
  // conflict when several have that name.
  const CaptureState& capture(const std::string& text) const;

 private:
  const Identities& identities_;
  std::unordered_map<std::string, int> captures_named_, individuals_named_;
};

}  // namespace evet
