// Made-up ledgers for property tests: several devices that hear of each other now and then, readers who
// contradict themselves and each other, slips, adjudications, tags, labels, the program.
#pragma once
#include <random>
#include <string>
#include <vector>

#include "tests/matcher/catalogue/hand_ledger.h"
#include "tests/matcher/catalogue/sample_pond.h"

namespace evet::try_out {

inline HandLedger made_up(unsigned seed) {
  std::mt19937 random(seed);
  const auto one_of = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  HandLedger ledger;
  const char* devices[] = {"a", "b", "c"};
  std::vector<CaptureId> captures;
  std::vector<EntryId> sayable;
  const int captures_wanted = 4 + one_of(8);
  const int steps = 15 + one_of(40);
  for (int step = 0; step < steps; ++step) {
    const std::string device = devices[one_of(3)];
    const Actor reader =
        one_of(5) == 0 ? program() : person(std::string("R") + std::to_string(1 + one_of(3)));
    if (static_cast<int>(captures.size()) < captures_wanted && (captures.size() < 2 || one_of(3) == 0)) {
      CaptureFacts what =
          facts("2031-05-0" + std::to_string(1 + one_of(9)), "c" + std::to_string(captures.size()));
      if (one_of(5) == 0) what.individual = "TAG-" + std::to_string(one_of(3));
      captures.push_back(ledger.capture(what, device));
      ledger.say(reader,
                 photo_of(PhotoId(std::to_string(10 + one_of(20)) + std::string(62, '0')), captures.back(),
                          "x.jpg", one_of(4) > 0),
                 device);
      continue;
    }
    const CaptureId a = captures[static_cast<size_t>(one_of(static_cast<int>(captures.size())))],
                    b = captures[static_cast<size_t>(one_of(static_cast<int>(captures.size())))];
    switch (one_of(13)) {
      case 0:
        ledger.hear(device);
        break;
      case 1:
        ledger.say(reader, LabelGiven{a, "N-" + std::to_string(one_of(6))}, device);
        break;
      case 2:
        if (!sayable.empty())
          sayable.push_back(ledger.say(
              reader, Withdrawal{sayable[static_cast<size_t>(one_of(static_cast<int>(sayable.size())))]},
              device));
        break;
      case 3:
        ledger.say(reader, Correction{a, {{"night", "2031-05-1" + std::to_string(one_of(9))}}, ""}, device);
        break;
      case 12:
        if (a != b)
          sayable.push_back(
              ledger.say(reader, Closing{.capture = a, .as = ClosedAs::same_capture, .other = b}, device));
        break;
      case 4:
      case 5:
        sayable.push_back(ledger.say(
            reader, Verdict{.capture = a, .answer = Answer::new_individual, .planted = one_of(8) == 0},
            device));
        break;
      default: {
        if (a == b) break;
        Verdict verdict{
            .capture = a, .other = b, .answer = static_cast<Answer>(one_of(10) < 6 ? 0 : one_of(3))};
        if (one_of(8) == 0 && !sayable.empty()) verdict.settles = {sayable.back()};
        sayable.push_back(ledger.say(reader, verdict, device));
      }
    }
  }
  return ledger;
}

}  // namespace evet::try_out
