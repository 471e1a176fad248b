#include "matcher/catalogue/ledger_check.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <unordered_set>

#include "matcher/base/moment.h"
#include "matcher/catalogue/canonical_json.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

std::string item_of(const EntryId& id) {
  return "entry " + id.value;
}

// What is wrong with the entry by itself, if anything is.
std::optional<Reason> wrong_with(const Entry& entry) {
  if (hash_of(entry) != entry.hash) return Reason{messages::kEntryAltered};
  if (!parse_instant(entry.time))
    return Reason{Message(messages::kTimeWithoutOffset, {{"time", entry.time}})};
  try {
    if (canonical_json(read_json(entry.body)) != entry.body) return Reason{messages::kNotCanonical};
  } catch (const Error& error) {
    return error.reason();
  }
  return std::nullopt;
}

// Of a device's own numbers.
Message missing(std::int64_t first, std::int64_t last) {
  if (last <= first) return {messages::kEntriesMissing, {{"first", std::to_string(first)}}};
  return {messages::kEntriesMissingTo, {{"first", std::to_string(first)}, {"last", std::to_string(last)}}};
}

}  // namespace

Finding finding_of(const Error& error) {
  return {error.item(), error.reason()};
}

void LedgerCheck::take(const Entry& entry) {
  std::optional<Reason> wrong = wrong_with(entry);
  const Signed found = signing_of(entry);
  if (!wrong && found.how == Signing::broken) wrong = Reason{messages::kSignatureOfOtherKey};
  keys_.take(entry, found);
  Node node{entry.id, entry.prev, {}};
  if (!wrong) try {
      std::string why;
      if (const auto body = readable(entry, &why)) {
        if (const auto* merge = std::get_if<Merge>(&*body)) {
          node.vouched.assign(merge->heads.begin(), merge->heads.end());
          node.vouched.insert(node.vouched.end(), merge->also.begin(), merge->also.end());
        }
      } else {
        set_aside_.push_back({entry.id, std::move(why)});
      }
    } catch (const Error& error) {  // a kind of a newer version
      wrong = error.reason();
    }
  if (wrong) of_entries_.push_back({item_of(entry.id), std::move(*wrong)});
  nodes_.emplace(entry.hash, std::move(node));
  chains_[entry.device][entry.seq].push_back(entry.hash);
}

void LedgerCheck::check_chain(const DeviceId& device, std::vector<Finding>& findings) const {
  std::int64_t expected = 1;
  const std::vector<std::string>* before = nullptr;
  for (const auto& [seq, hashes] : chains_.at(device)) {
    if (seq != expected) findings.push_back({"device " + device.value, {missing(expected, seq - 1)}});
    if (hashes.size() > 1)
      findings.push_back({"device " + device.value,
                          {Message(messages::kNumberClaimedTwice, {{"number", std::to_string(seq)}})},
                          true});
    for (const std::string& hash : hashes) {
      const Node& node = nodes_.at(hash);
      const bool follows = seq == 1 ? node.prev.empty()
                           : before == nullptr || seq != expected
                               ? true  // the gap is told already
                               : std::find(before->begin(), before->end(), node.prev) != before->end();
      if (!follows)
        findings.push_back(
            {item_of(node.id), {Message(messages::kDoesNotFollow, {{"number", std::to_string(seq - 1)}})}});
      else if (const auto previous = nodes_.find(node.prev);
               previous != nodes_.end() && node.id < previous->second.id)
        findings.push_back({item_of(node.id), {messages::kIdBeforePrevious}});
    }
    before = &hashes;
    expected = seq + 1;
  }
}

std::vector<Finding> LedgerCheck::findings() const {
  std::vector<Finding> all = of_entries_;
  for (const auto& [device, chain] : chains_) check_chain(device, all);
  for (const auto& [hash, node] : nodes_)
    for (const auto& [device, head] : node.vouched) {
      const auto found = nodes_.find(head.hash);
      const auto chain = chains_.find(device);
      const bool there =
          found != nodes_.end() && chain != chains_.end() && chain->second.contains(head.seq) &&
          std::count(chain->second.at(head.seq).begin(), chain->second.at(head.seq).end(), head.hash) > 0;
      if (!there)
        all.push_back({item_of(node.id),
                       {Message(messages::kVouchedMissing,
                                {{"number", std::to_string(head.seq)}, {"device", device.value}})}});
    }
  std::stable_sort(all.begin(), all.end(),
                   [](const Finding& a, const Finding& b) { return a.item < b.item; });
  return all;
}

std::optional<size_t> LedgerCheck::covered_by(const std::string& hash) const {
  if (!nodes_.contains(hash)) return std::nullopt;
  std::unordered_set<std::string> seen{hash};
  std::vector<std::string> open{hash};
  while (!open.empty()) {
    const Node& node = nodes_.at(open.back());
    open.pop_back();
    const auto visit = [&](const std::string& next) {
      if (nodes_.contains(next) && seen.insert(next).second) open.push_back(next);
    };
    visit(node.prev);
    for (const auto& [device, head] : node.vouched) visit(head.hash);
  }
  return seen.size();
}

std::optional<EntryId> LedgerCheck::entry_with(const std::string& hash) const {
  const auto found = nodes_.find(hash);
  return found == nodes_.end() ? std::nullopt : std::optional(found->second.id);
}

}  // namespace evet
