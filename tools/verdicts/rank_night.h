// `evet rank`: its JSON, and taking the advice that the program is sure of.
#pragma once
#include <nlohmann/json.hpp>

#include "matcher/catalogue/calibration.h"
#include "matcher/catalogue/search_catalogue.h"
#include "tools/verdicts/objections.h"

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
  struct NightMatch {
    std::string capture;
    double probability = 0;
  };
  std::vector<NightMatch> night_matches;  // other captures of the night that may show the same new animal
  double gain = 0;                        // what a look is expected to save, in missed joins
  std::vector<std::string> why;           // it should be looked at
  struct RuledOut {
    std::string individual;  // empty: the capture belongs to none
    std::string capture;     // of which it was said
    std::string by, on;
  };
  std::vector<RuledOut> ruled_out;           // who is no candidate, by a person's word
  std::vector<std::string> ruled_out_words;  // the same in words
  bool usable() const;
};

// Of every capture of the ranking, in the order of listed_before(). A capture whose photos show nothing keeps
// the prior: every individual is as likely as any other.
// `who`: what it was ranked with. `held`: what the program would have been sure of, had nothing spoken against it.
std::vector<RankedLine> ranked_lines(Catalogue& catalogue, const Identities& who, const Ranking& ranking,
                                     const HeldBack& held);

// Those that a person should look at, in the order in which looking gains most.
std::vector<const RankedLine*> to_look_at(const std::vector<RankedLine>& lines);

// {"captures": [{"capture", "night", "photos": [{"photo", "usable", "reasons"}], "candidates":
// [{"individual", "probability", "score", "best_photo", "matched_spots"}], "new_probability", "advice"}]}
// and, where people have said so, "ruled_out": [{"individual", "capture", "by", "on"}]: who is no candidate.
nlohmann::json to_json(const std::vector<RankedLine>& lines);

// What --queue adds: {"queue": [{"capture", "night", "advice", "gain", "why", "perhaps_one_with":
// [{"capture", "probability"}]}], "costs": {"wrong_join", "look"}}. To be looked at, what a look gains most
// on first; then what is not, but may be one animal with another capture. Gain and costs in missed joins.
void add_queue(nlohmann::json& document, const std::vector<RankedLine>& lines, const Costs& costs);

// The program's verdicts for what it is sure of, "same" and "new", with the ranking as evidence; not those
// that it has given in vain.
std::vector<Verdict> sure_verdicts(const Statements& statements, const Identities& who,
                                   const Ranking& ranking);

}  // namespace evet
