// What a card may say, and that everything wrong in one is named at once.
#include "models/ask/model_card.h"
#include "models/ask/registry.h"

#include <gtest/gtest.h>

#include "models/base/input_error.h"
#include "models/estimate.h"

namespace evet::models {
namespace {

using nlohmann::json;

std::string refusal(const json& card) {
  try {
    read_model_card(card);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

TEST(ModelCard, ReadsAndSaysAgain) {
  const json card =
      json::parse(R"({"design": "open", "level": 0.9, "seed": 4, "overdispersion": 1.4, "models": [
      "jolly-seber",
      {"model": "survival", "survival": {"varies_by": ["occasion", "sex"], "each_combination": true},
       "recapture": {"linear_in": ["effort"]}}]})");
  const ModelCard read = read_model_card(card);
  EXPECT_EQ(read.models.size(), 2u);
  EXPECT_EQ(read.level, 0.9);
  EXPECT_EQ(read.overdispersion, 1.4);
  EXPECT_EQ(to_json(read.models[1]), card.at("models").at(1));
}

TEST(ModelCard, EveryWrongFieldIsNamedWithWhatWouldBeRight) {
  const std::string text = refusal(json::parse(
      R"({"design": "half-open", "level": 95, "modles": [], "seed": -1, "bootstrap": 1.5, "survival_per": "moon",
      "models": [17, "guess", {"model": "survival", "survivel": "constant", "recapture": {"varies_by": "occasion"}},
                 {"model": "growth", "survival": {"linear_in": ["svl_mm"]}, "recruitment": "constant",
                  "capture": {"after_capture": true},
                  "seniority": "constant"},
                 {"model": "robust", "emigration": "sometimes", "numbers_by": "sex"},
                 {"model": "super-population", "survival": {"varies_by": ["period"]}, "numbers": ["sex"]},
                 {"model": "survival", "survival": {"after_capture": true, "each_combination": "yes"}}]})"));
  for (const char* words :
       {"design: \"half-open\" is not known; use auto, closed, open or robust", "level: it is 95",
        "'modles': it is not a field of a card", "seed: it is -1", "bootstrap: it is 1.5",
        "survival_per: it is \"moon\"; use auto, interval", "entry 1: it names no model",
        "model 'guess' is not known", "entry 3, survivel", "use survival or recapture",
        "entry 3, recapture, varies_by", "cannot vary by 'period'",
        "numbers_by: it is \"sex\"; give a list of names",
        "use survival, capture, numbers_by or ends_certain",
        "more than one of growth rate, recruitment and seniority", "emigration: it is \"sometimes\"",
        "only the conditional and the survival model have it", "each_combination: it is \"yes\""})
    EXPECT_NE(text.find(words), std::string::npos) << words << " in" << text;
}

TEST(ModelCard, WhatTheHistoriesLackIsNamed) {
  const CaptureHistories histories = histories_from_counts({{"1100", 9}, {"0110", 8}, {"1011", 7}});
  EstimateRequest request;
  request.card =
      json::parse(R"({"models": [{"model": "conditional", "capture": {"linear_in": ["mass_g"]}}]})");
  EXPECT_THROW(estimate(histories, request), InputError);
  request.card = json::parse(R"({"models": [{"model": "survival", "survival": {"varies_by": ["sex"]}}]})");
  EXPECT_THROW(estimate(histories, request), InputError);
  request.card = json::parse(R"({"models": ["constant"]})");
  request.models = {"occasion"};
  EXPECT_THROW(estimate(histories, request), InputError) << "named in two places";
  EXPECT_NE(refusal(json::parse(R"({"design": "closed", "models": ["growth"]})")).find("for a open design"),
            std::string::npos);
  EXPECT_FALSE(refusal(json::array()).empty());
}

TEST(ModelCard, EveryNameIsFittedByTheFrontDoor) {
  CaptureHistories histories = histories_from_counts({{"110010", 9},
                                                      {"011001", 8},
                                                      {"101100", 7},
                                                      {"100011", 5},
                                                      {"000110", 9},
                                                      {"100000", 8},
                                                      {"001000", 7}});
  histories.places = {"Heron Pool", "Mill Ditch"};
  for (std::size_t cell = 0; cell < histories.caught.size(); ++cell)
    histories.place.push_back(static_cast<std::uint8_t>(histories.caught[cell] * (1 + cell / 11 % 2)));
  CaptureHistories two = histories_from_counts({{"11", 9}, {"10", 12}, {"01", 14}});
  CaptureHistories periods = histories;
  periods.primary = {0, 0, 1, 1, 2, 2};
  for (const ModelEntry& kind : registry()) {
    const bool pair = kind.name == "lincoln-petersen" || kind.name == "chapman" || kind.name == "bailey";
    const EstimateReport report = estimate(pair                      ? two
                                           : kind.design == "robust" ? periods
                                                                     : histories,
                                           {.models = {kind.name}, .plots = false});
    EXPECT_EQ(report.design, kind.design);
    EXPECT_FALSE(report.answer.empty()) << kind.name;
    EXPECT_FALSE(report.table.at(0).estimates.at(0).source.empty()) << kind.name;
    EXPECT_FALSE(report.assumptions.empty()) << kind.name;
  }
}

}  // namespace
}  // namespace evet::models
