// Taking the advice to its end: stopped anywhere and begun again it ends the same, and twice is once.
#include "tools/verdicts/accept_nights.h"

#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/tools/review/drawn_pond.h"

namespace evet {
namespace {

using namespace try_out;
namespace fs = std::filesystem;

struct Stopped {};

struct AcceptNights : testing::Test {
  const Folder folder;
  const fs::path pond = folder.path / "pond";

  // Three years of nights of which nothing is settled yet.
  AcceptNights() {
    draw_pond(pond, {.animals = 10, .captures_each = 3, .again = 4, .fresh = 2, .unusable = 1});
    Catalogue catalogue = Catalogue::open(pond, system_env());
    std::vector<Body> undone;
    for (const auto& said : catalogue.statements().verdicts) undone.push_back(Withdrawal{said.stamp.id});
    catalogue.append(person("OB1"), undone);
    EXPECT_EQ(catalogue.identities().unsettled(), catalogue.identities().captures.size());
  }
  fs::path copy(const std::string& name) const {
    fs::remove_all(folder.path / name);
    fs::copy(pond, folder.path / name, fs::copy_options::recursive);
    return folder.path / name;
  }
  // Runs it, stopped at the n-th capture ranked; whether it came to its end before.
  static bool run(const fs::path& at, size_t stop_at) {
    Catalogue catalogue = Catalogue::open(at, system_env());
    size_t ranked = 0;
    RankRequest request;
    request.progress = [&](size_t, size_t) {
      if (++ranked == stop_at) throw Stopped();
    };
    try {
      accept_nights(catalogue, request);
      return true;
    } catch (const Stopped&) {
      return false;
    }
  }
  static std::string who_is_who(const fs::path& at) {
    return told(Catalogue::open(at, system_env(), {.access = Access::read}).identities());
  }
};

TEST_F(AcceptNights, StoppedAnywhereItEndsTheSame) {
  const fs::path whole = copy("whole");
  ASSERT_TRUE(run(whole, 0));
  const std::string expected = who_is_who(whole);
  EXPECT_NE(expected.find("by program"), std::string::npos);
  size_t stops = 0;
  for (size_t stop_at = 1;; stop_at += 3) {
    const fs::path stopped = copy("stopped");
    if (run(stopped, stop_at)) break;
    ++stops;
    if (stop_at % 2 == 0) run(stopped, stop_at);  // and once more on the way
    ASSERT_TRUE(run(stopped, 0));
    ASSERT_EQ(who_is_who(stopped), expected) << "stopped at capture " << stop_at;
  }
  EXPECT_GT(stops, 10u);
}

TEST_F(AcceptNights, TwiceIsOnce) {
  ASSERT_TRUE(run(pond, 0));
  Catalogue catalogue = Catalogue::open(pond, system_env());
  const size_t entries = catalogue.ledger().size();
  EXPECT_EQ(accept_nights(catalogue, {}).accepted.same, 0u);
  EXPECT_EQ(catalogue.ledger().size(), entries);
}

// A person's word stands against the program's: it is not said again at every round, for ever.
TEST_F(AcceptNights, WhatPeopleOverrideIsNotSaidAgain) {
  ASSERT_TRUE(run(pond, 0));
  Catalogue catalogue = Catalogue::open(pond, system_env());
  const Identities who = catalogue.identities();
  for (const Individual& one : who.individuals)
    if (one.captures.size() > 1)
      catalogue.append(
          person("R1"),
          {Verdict{.capture = one.captures[1], .other = one.captures[0], .answer = Answer::cannot_tell}});
  accept_nights(catalogue, {});
  const size_t entries = catalogue.ledger().size();
  EXPECT_EQ(accept_nights(catalogue, {}).accepted.same, 0u);
  EXPECT_EQ(catalogue.ledger().size(), entries);
}

TEST_F(AcceptNights, OneNightByItself) {
  Catalogue catalogue = Catalogue::open(pond, system_env());
  RankRequest request;
  request.night = "2031-05-14";
  const AcceptedNights nights = accept_nights(catalogue, request);
  EXPECT_EQ(nights.lines.size(), 7u);
  for (const RankedLine& line : nights.lines) EXPECT_EQ(line.night, "2031-05-14");
  for (const CaptureState& capture : catalogue.identities().captures)
    if (capture.facts.night != request.night) {
      EXPECT_FALSE(capture.individual);
    }
}

// What is said before is what is done then: of every night as it follows from those before it.
TEST_F(AcceptNights, ThePreviewSaysWhatAcceptanceDoesAndRecordsNothing) {
  const auto told_of = [](const AcceptedNights& nights) {
    std::string all =
        std::to_string(nights.accepted.same) + " " + std::to_string(nights.accepted.fresh) + "\n";
    for (const RankedLine& line : nights.lines) {
      all += line.night + " " + line.capture + " " + name(line.advice);
      if (line.advice == Advice::same) all += " " + line.candidates.front().best_photo;
      all += "\n";
    }
    return all;
  };
  // From the start, and from where a run was stopped between two nights: the rounds begin after that night.
  for (const size_t stop_at : {0U, 4U, 9U, 17U}) {
    const fs::path at = copy("begun");
    if (stop_at > 0) {
      ASSERT_FALSE(run(at, stop_at));
    }
    Catalogue catalogue = Catalogue::open(at, system_env());
    const size_t entries = catalogue.ledger().size();
    const AcceptedNights preview = preview_nights(catalogue, {});
    EXPECT_EQ(catalogue.ledger().size(), entries);
    EXPECT_GT(preview.accepted.same, 5u) << "recaptures among nights of which none is settled yet";
    EXPECT_EQ(told_of(preview), told_of(accept_nights(catalogue, {}))) << "stopped at capture " << stop_at;
  }
}

}  // namespace
}  // namespace evet
