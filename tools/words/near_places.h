// A place that is spelt nearly as one that the catalogue knows: "Wetherlow Comon".
#pragma once
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "matcher/base/message.h"

namespace evet {

using SiteAndPond = std::pair<std::string, std::string>;  // the pond may be empty

struct NearPlace {
  std::string written, known;  // sites, or ponds of one site
  std::string site;            // of the pond; empty: these are sites
  Message message() const;
};

// Of each new name a known one that it was probably meant to be: the same letters spaced or capitalised
// otherwise, or one slip of the key in one word of five letters or more. Names that differ in a number or in a
// short word are two places (pond 1 and pond 2, Mill Pond and Hill Pond).
std::vector<NearPlace> near_places(const std::set<SiteAndPond>& written, const std::set<SiteAndPond>& known);

}  // namespace evet
