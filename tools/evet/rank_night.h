// `evet rank`: its JSON, and taking the advice that the program is sure of.
#pragma once
#include <nlohmann/json.hpp>

#include "matcher/catalogue/search_catalogue.h"

namespace evet {

// What is said of one unsettled capture, ready to print: names instead of ids.
struct RankedLine {
  CaptureId id;
  std::string capture, night;
  struct Photo {
    std::string photo;  // as on the sheet
    bool usable = false;
    std::vector<std::string> reasons;  // why not
  };
  std::vector<Photo> photos;
  struct Candidate {
    std::string individual;
    double probability = 0, score = 0;
    std::string best_photo;  // as on its sheet
    int matched_spots = 0;
  };
  std::vector<Candidate> candidates;  // best first
  double new_probability = 1;
  Advice advice = Advice::look;
  bool usable() const;
};

// Of every capture of the ranking, in the order of listed_before(). A capture whose photos show nothing keeps
// the prior: every individual is as likely as any other.
std::vector<RankedLine> ranked_lines(Catalogue& catalogue, const Ranking& ranking,
                                     const SearchOptions& search);

// {"captures": [{"capture", "night", "photos": [{"photo", "usable", "reasons"}], "candidates":
// [{"individual", "probability", "score", "best_photo", "matched_spots"}], "new_probability", "advice"}]}
nlohmann::json to_json(const std::vector<RankedLine>& lines);

// The program's verdicts for what it is sure of, "same" and "new", with the ranking as evidence; how many.
struct Accepted {
  size_t same = 0, fresh = 0;
};
Accepted accept_advice(Catalogue& catalogue, const Ranking& ranking);

}  // namespace evet
