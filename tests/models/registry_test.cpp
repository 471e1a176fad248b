// The one list of models holds together, and decides what is fitted when nothing is said.
#include "models/ask/registry.h"

#include <gtest/gtest.h>

#include <set>

#include "models/base/random.h"
#include "models/estimate.h"
#include "models/simulate/simulate.h"

namespace evet::models {
namespace {

TEST(Registry, EveryRowIsWhole) {
  std::set<std::string> names;
  for (const ModelEntry& entry : registry()) {
    EXPECT_TRUE(names.insert(entry.name).second) << entry.name << " stands there twice";
    EXPECT_EQ(find_model(entry.name), &entry);
    EXPECT_NE(entry.fit == nullptr, entry.estimates == nullptr) << entry.name;
    EXPECT_EQ(entry.fit != nullptr, !entry.family.empty()) << entry.name;
    EXPECT_EQ(entry.fit != nullptr, !entry.quantities.empty()) << entry.name;
    EXPECT_EQ(entry.estimates != nullptr, !entry.description.empty()) << entry.name;
    for (const std::string& larger : entry.case_of) {
      ASSERT_NE(find_model(larger), nullptr) << larger;
      EXPECT_EQ(find_model(larger)->family, entry.family) << entry.name << " and " << larger;
    }
  }
  EXPECT_EQ(find_model("guess"), nullptr);
}

TEST(Registry, ASparseStudyOfManyOccasionsLeavesOutWhatItIsTooThinFor) {
  Random random(4);
  const CaptureHistories sparse =
      simulate_closed({200, std::vector<double>(60, 0.02), {}, {}}, [&] { return random.uniform(); });
  for (const char* design : {"closed", "open"}) {
    const EstimateReport report = estimate(sparse, {.design = design, .plots = false});
    EXPECT_EQ(report.why.back().code(), "thin_by_occasion") << words(report.why);
    for (const ModelRow& row : report.table) {
      EXPECT_NE(row.name, "occasion-mixture");
      EXPECT_EQ(row.description.find("survival by occasion"), std::string::npos) << row.description;
    }
  }
  // Named, it is fitted.
  EXPECT_EQ(estimate(select_occasions(sparse, 0, 22), {.models = {"occasion-response"}, .plots = false})
                .table.at(0)
                .name,
            "occasion-response");
}

}  // namespace
}  // namespace evet::models
