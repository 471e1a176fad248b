#include "tools/verdicts/verdict_reason.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>

#include "matcher/base/version.h"
#include "tests/matcher/catalogue/try_out.h"
#include "tests/tools/evet/pseudo_language.h"

namespace evet {
namespace {

const Actor kByProgram{ActorKind::program, kProgram};

Verdict same_as(const CaptureId& other, const std::string& reason) {
  Verdict verdict{.capture = CaptureId("c1"), .other = other, .answer = Answer::same, .reason = reason};
  verdict.evidence.shown.resize(2);
  verdict.evidence.shown[0].capture = CaptureId("c2"), verdict.evidence.shown[0].probability = 0.9972;
  verdict.evidence.shown[1].capture = CaptureId("c3"), verdict.evidence.shown[1].probability = 0.002;
  verdict.evidence.new_probability = 0.0008;
  return verdict;
}

TEST(VerdictReason, OfTheProgramIsWhatItsEvidenceSays) {
  Verdict verdict = same_as(CaptureId("c2"), {});
  EXPECT_EQ(reason_from_evidence(verdict), "same with probability 99.7 %");
  verdict.answer = Answer::new_individual;
  EXPECT_EQ(reason_from_evidence(verdict), "new with probability less than 0.1 %");
  verdict.answer = Answer::different;
  EXPECT_EQ(reason_from_evidence(verdict), "");
}

TEST(VerdictReason, OfAPersonStaysAsItWasWritten) {
  const Verdict verdict = same_as(CaptureId("c2"), "forked spot");
  EXPECT_EQ(reason_shown({ActorKind::person, "KM"}, verdict), "forked spot");
  EXPECT_EQ(reason_shown({ActorKind::program, kProgramOnPage}, verdict), "forked spot");
}

TEST(VerdictReason, StaysWhereTheEvidenceDoesNotTell) {
  EXPECT_EQ(reason_shown(kByProgram, same_as(CaptureId("c9"), "as written")), "as written");
  Verdict bare = same_as(CaptureId("c2"), "as written");
  bare.evidence = {};
  EXPECT_EQ(reason_shown(kByProgram, bare), "as written");
}

TEST(VerdictReason, IsSaidInTheLanguageOfWhoReadsIt) {
  const try_out::Folder folder;
  try_out::write_pseudo_language(folder.path);
  const auto child = [&] {
    try_out::speak_pseudo_language(folder.path);
    std::ofstream(folder.path / "said.txt")
        << reason_shown(kByProgram, same_as(CaptureId("c2"), "same with probability 99.7 %"));
    std::_Exit(0);
  };
  EXPECT_EXIT(child(), testing::ExitedWithCode(0), "");
  std::ifstream in(folder.path / "said.txt");
  const std::string said{std::istreambuf_iterator<char>(in), {}};
  EXPECT_THAT(said, testing::HasSubstr("99.7 %"));
  EXPECT_THAT(said, testing::StartsWith("«"));
}

}  // namespace
}  // namespace evet
