// What an estimate is of: a quantity, where in time, of which animals. What people read is made from it
// (parameter_words.h), and nothing reads that back.
#pragma once
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "matcher/base/message.h"

namespace evet::models {

enum class Quantity {
  other,
  number,       // of animals: all of a closed population, or those present on an occasion or in a period
  number_ever,  // of all animals that were ever there
  births,       // animals that came in after an occasion
  entry,        // chance that an animal came in just before an occasion
  survival,
  recapture,  // chance of capture of a marked animal
  capture,    // chance of capture of any animal
  growth_rate,
  mean_growth,  // over the whole study: the slope of ln N on time
  recruitment,
  seniority,
  leaving,       // chance of being away after having been there
  staying_away,  // chance of being away after having been away
  passing,       // share of the animals that came in and were gone by the next occasion
  moving,        // chance of being in another place at the next occasion, of those that survived
  density,       // animals for each unit of area
  yearly_trend,  // factor by which numbers change in a year, the ups and downs between years in its doubt
  spread_between_years,  // standard deviation of ln N about the trend, without the errors of estimation
};

// "growth rate", as a card, a table and the JSON document say it in every language.
const char* code_of(Quantity quantity);
// Numbers have totals and parts, which never stand for each other.
bool is_count(Quantity quantity);
// What is said of all animals together and of parts of them; one does not stand for the other.
bool has_total(Quantity quantity);

struct Parameter {
  enum class Kind {
    value,    // the quantity itself
    slope,    // on the logit scale, for each unit of a covariate
    shift,    // on the logit scale, of a group's level from its first
    product,  // of this quantity and another that the data cannot tell apart from it
    inner,    // a parameter of the model that is no quantity of its own
  };
  Quantity quantity = Quantity::other;
  std::optional<int> index =
      {};  // occasion, interval or period, from 1; an entry from 0; empty: the same for all
  std::vector<std::pair<std::string, std::string>> groups = {};  // group and level; empty: all animals
  Kind kind = Kind::value;
  // Covariate of a slope, "sex male" of a shift, as the data spell them; or a text of a messages.h.
  std::variant<std::string, const MessageText*> about = {};
  const MessageText* word = nullptr;  // of a messages.h, instead of the quantity's own word

  std::string about_name() const;  // in every language
  std::string name() const;        // "survival 3: male", in every language
  bool operator==(const Parameter&) const = default;
};

// Does a value given as `told` answer for `wanted`? What is told for all occasions or all animals answers for
// one of them, except in counts.
bool answers(const Parameter& told, const Parameter& wanted);

}  // namespace evet::models
