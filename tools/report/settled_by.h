// Who settled a capture, and how, as values: their words come last, and a version for everybody takes the person
// out of the value.
#pragma once
#include <string>

namespace evet {

struct SettledBy {
  enum class Kind { nobody, sheet, program, person };
  Kind kind = Kind::nobody;
  std::string code;           // of a person
  std::string words() const;  // "KM", "the program", "the sheet"; empty for nobody
};

struct ReportDecided {
  enum class How { not_yet, same, new_individual, known_by_other_means };
  How how = How::not_yet;
  SettledBy by{};            // the program or a person
  std::string on{};          // date
  std::string individual{};  // that the sheet names, where it is known by other means
};

// "Same, by KM on 2031-05-15."; empty for what is not settled yet.
std::string in_words(const ReportDecided& decided);

}  // namespace evet
