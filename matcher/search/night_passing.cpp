// Belief propagation for the joint posterior of a night. Every animal that captures compete for sends each of
// them how free it is; every capture answers with the odds that it takes that animal, by all it heard from
// the others. A known individual and a new animal differ only in the sum that an animal takes over who else
// claims it.
#include <algorithm>
#include <cmath>
#include <map>

#include "matcher/search/night_joint.h"

namespace evet {
namespace {

constexpr int kRounds = 200;
constexpr double kStill = 1e-10;

struct OptionMessage {
  size_t capture = 0;
  double weight = 0;         // prior weight of the option
  double to_animal = 0;      // odds that the capture takes it
  double to_capture = 1;     // how free the animal is for it
  double* result = nullptr;  // where the marginal goes
};

class Passing {
 public:
  explicit Passing(const NightModel& model) : model_(model) {
    const size_t n = model.captures.size();
    for (const NightModel::Capture& c : model.captures)
      out_.captures.push_back({std::vector<double>(c.claims.size()), std::vector<double>(c.kin.size()), 0});
    of_capture_.resize(n), joining_.resize(n), founding_.resize(n);
    for (size_t i = 0; i < n; ++i) {
      const NightModel::Capture& c = model.captures[i];
      founding_[i] = add(i, c.is_new, &out_.captures[i].fresh);
      for (size_t k = 0; k < c.claims.size(); ++k)
        claiming_[c.claims[k].individual].push_back(add(i, c.claims[k].weight, &out_.captures[i].claims[k]));
      for (size_t k = 0; k < c.kin.size(); ++k)
        joining_[c.kin[k].founder].push_back(add(i, c.is_new * c.kin[k].ratio, &out_.captures[i].kin[k]));
    }
  }

  NightMarginals run() {
    for (int round = 0; round < kRounds && moved_ > kStill; ++round) {
      moved_ = 0;
      send_from_captures();
      for (const auto& [individual, claims] : claiming_) send_from_known(claims);
      for (size_t i = 0; i < founding_.size(); ++i)
        if (!joining_[i].empty()) send_from_new(founding_[i], joining_[i]);
    }
    for (const std::vector<size_t>& options : of_capture_) {
      double sum = 0;
      for (const size_t m : options) sum += messages_[m].weight * messages_[m].to_capture;
      for (const size_t m : options)
        *messages_[m].result = messages_[m].weight * messages_[m].to_capture / sum;
    }
    return std::move(out_);
  }

 private:
  size_t add(size_t capture, double weight, double* result) {
    messages_.push_back({capture, weight, 0, 1, result});
    of_capture_[capture].push_back(messages_.size() - 1);
    return messages_.size() - 1;
  }

  void send_from_captures() {
    for (const std::vector<size_t>& options : of_capture_) {
      double all = 0;
      for (const size_t m : options) all += messages_[m].weight * messages_[m].to_capture;
      for (const size_t m : options) {
        const double rest = std::max(all - messages_[m].weight * messages_[m].to_capture, 1e-300);
        messages_[m].to_animal = messages_[m].weight / rest;
      }
    }
  }

  void send(OptionMessage& to, double free) {
    moved_ = std::max(moved_, std::abs(free - to.to_capture));
    // Halfway, so that two captures that want one animal do not swap it for ever.
    to.to_capture = 0.5 * (to.to_capture + free);
  }

  // Of m claimants the weight is twice^(m - 1).
  void send_from_known(const std::vector<size_t>& claims) {
    const double t = model_.twice;
    for (const size_t i : claims) {
      double with = 1, others = 0;  // product of 1 + t m, and the same less one, over t
      for (const size_t k : claims)
        if (k != i) {
          others += with * messages_[k].to_animal;
          with *= 1 + t * messages_[k].to_animal;
        }
      send(messages_[i], with / (1 + others));
    }
  }

  // Captures can only join a new animal whose founder shows it.
  void send_from_new(size_t founder, const std::vector<size_t>& joining) {
    double product = 1;
    for (const size_t k : joining) product *= 1 + messages_[k].to_animal;
    const double founds = messages_[founder].to_animal;
    for (const size_t k : joining) {
      const double with = founds * product / (1 + messages_[k].to_animal);
      send(messages_[k], with / (1 + with));
    }
    send(messages_[founder], product);
  }

  const NightModel& model_;
  std::vector<OptionMessage> messages_;
  std::vector<std::vector<size_t>> of_capture_,
      joining_;  // options of a capture; who may join its new animal
  std::vector<size_t> founding_;
  std::map<size_t, std::vector<size_t>> claiming_;
  NightMarginals out_;
  double moved_ = 1;
};

}  // namespace

NightMarginals marginals_by_passing(const NightModel& model) {
  return Passing(model).run();
}

}  // namespace evet
