// What a reader, or the program where it is sure enough, says about a capture. Ledger kind "verdict".
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/ids.h"
#include "matcher/catalogue/objection.h"

namespace evet {

enum class Answer {
  same,            // `capture` and `other` show the same animal
  different,       // they show two animals
  cannot_tell,     // looked at, and not to be decided from these photos
  new_individual,  // `capture` is none of the individuals then in the catalogue; `other` is empty. Written
                   // "new"
};
const char* name(Answer answer);
std::optional<Answer> answer_named(const std::string& text);

// A candidate as it lay on the table when the verdict was given.
struct Shown {
  IndividualId individual;
  CaptureId capture;
  PhotoId photo, query_photo;
  double probability = 0;
  double score = 0;
  int matched_spots = 0;
};

struct Evidence {
  std::string maker;         // the version of the code that ranked; empty when nothing was ranked
  std::vector<Shown> shown;  // best first
  std::optional<double> new_probability;
};

struct Verdict {
  static constexpr const char* kKind = "verdict";
  CaptureId capture;
  CaptureId other{};
  Answer answer = Answer::cannot_tell;
  std::string reason{};
  Evidence evidence{};
  bool blind = false;    // the reader saw neither score, rank nor an earlier verdict
  bool planted = false;  // given to measure the reader: counts for agreement, never for identity
  std::vector<Objection> in_spite_of{};  // what spoke against it, and was overruled
  std::vector<EntryId> settles{};        // an adjudication: these verdicts were read and no longer count
};

void to_json(nlohmann::json& json, const Verdict& verdict);
void from_json(const nlohmann::json& json, Verdict& verdict);

}  // namespace evet
