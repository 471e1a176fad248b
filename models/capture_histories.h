// Capture histories: which animal was caught on which occasion, with what is known about both.
//
// Plain data. Rows are animals that were caught at least once, columns are occasions in time order. The
// catalogue and the CSV reader make it; every estimator takes it. Call check() after filling one by hand.
#pragma once
#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace evet::models {

struct CaptureHistories {
  // One entry an occasion.
  std::vector<std::string> occasions;  // labels, unique
  std::vector<std::string> dates;      // ISO 8601 dates, or empty when not known
  std::vector<int> primary;            // primary period 0, 1, ... of each occasion, or empty
  std::map<std::string, std::vector<double>> occasion_covariates;  // "effort", "temperature", ...
  // Captures of each occasion that nobody has settled yet, or empty. Such an occasion shows fewer animals
  // than were caught: estimate() stops before the first one, so that what is open never counts as not seen.
  std::vector<int> unsettled;
  // One entry an animal.
  std::vector<std::string> animals;                        // labels, unique
  std::vector<std::uint8_t> lost;                          // 1: not released after its last capture; or empty
  std::map<std::string, std::vector<std::string>> groups;  // "sex", "site", "stage": a level for each animal
  std::map<std::string, std::vector<double>> covariates;   // "svl_mm", ...; not-a-number where not known
  // animals x occasions, row by row, 0 or 1.
  std::vector<std::uint8_t> caught;
  // Where the captures were made, where that is to be told: names, and for each cell of `caught` the number of its
  // place from 1, 0 where the animal was not caught. Both empty: not told.
  std::vector<std::string> places;
  std::vector<std::uint8_t> place;

  std::size_t animal_count() const { return animals.size(); }
  std::size_t occasion_count() const { return occasions.size(); }
  bool was_caught(std::size_t animal, std::size_t occasion) const {
    return caught[animal * occasions.size() + occasion] != 0;
  }
  // Among `places`; only where the animal was caught and places are told.
  std::size_t place_of(std::size_t animal, std::size_t occasion) const {
    return place[animal * occasions.size() + occasion] - std::size_t{1};
  }
  bool was_lost(std::size_t animal) const { return !lost.empty() && lost[animal] != 0; }
  // The first occasion with captures that are not settled; the number of occasions where there is none.
  std::size_t first_unsettled() const;
  int primary_count() const;  // number of primary periods; every occasion is its own when none are given

  // Throws InputError naming the animal, occasion or column that does not fit. Needs at least one occasion;
  // an animal never caught is refused, for its row says nothing about capture that the model does not.
  void check() const;
};

// Histories from strings of 0 and 1 with how many animals had each; labels are made up ("1", "2", ...).
CaptureHistories histories_from_counts(const std::map<std::string, int>& animals_by_history);

// Only the chosen animals (indices in order), everything else kept.
CaptureHistories select_animals(const CaptureHistories& histories, const std::vector<std::size_t>& chosen);

// Only occasions [first, last) with the animals that were caught in them. An animal lost in
// the window stays lost.
CaptureHistories select_occasions(const CaptureHistories& histories, std::size_t first, std::size_t last);

// Days between two ISO 8601 dates (YYYY-MM-DD, later text ignored). Throws InputError for what is not a date.
double days_between(const std::string& from, const std::string& to);

}  // namespace evet::models
