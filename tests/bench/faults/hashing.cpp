#include "tests/bench/faults/hashing.h"

#include <sys/wait.h>
#include <unistd.h>

#include <functional>
#include <new>
#include <utility>
#include <vector>

#include "matcher/base/ed25519.h"
#include "matcher/base/error.h"
#include "matcher/base/hash_tree.h"
#include "matcher/base/sha256.h"
#include "tests/bench/faults/machine.h"

namespace evet::faults {
namespace {

constexpr int kTrue = 0, kRefused = 20, kUntrue = 21, kNoFault = 22;

// Each says whether its answer is the true one; made beforehand with memory.
std::vector<std::pair<std::string, std::function<bool()>>> answers() {
  const SigningKey key = SigningKey::of_seed({});
  const std::string text = "a verdict", signature = key.sign(text), pem = key.pem();
  std::vector<Digest> leaves;
  for (const char* leaf : {"a", "b", "c", "d", "e"}) leaves.push_back(leaf_hash(leaf));
  const std::vector<Digest> first(leaves.begin(), leaves.begin() + 3), proof = consistency_proof(3, leaves);
  const Digest root = root_of(leaves), earlier = root_of(first);
  return {
      {"a hash", [hash = sha256_hex("abc")] { return sha256_hex("abc") == hash; }},
      {"the root of a tree", [=] { return root_of(leaves) == root; }},
      {"a proof of growth", [=] { return consistency_proof(3, leaves) == proof; }},
      {"the check of a proof", [=] { return consistent(3, earlier, 5, root, proof); }},
      {"a signature", [=] { return key.sign(text) == signature; }},
      {"the check of a signature", [=] { return signature_fits(key.public_key(), text, signature); }},
      {"a key read", [=] { return SigningKey::of_pem(pem, "a key").public_key() == key.public_key(); }},
      {"a key written", [=] { return key.pem() == pem; }},
  };
}

int answer_without(const std::function<bool()>& answer, long n) {
  int outcome = kUntrue;
  fail_at(Step::allocation, n);
  try {
    if (answer()) outcome = kTrue;
  } catch (const std::bad_alloc&) {
    outcome = kRefused;
  } catch (const Error& error) {
    outcome = error.kind() == ErrorKind::storage ? kRefused : kUntrue;
  }
  const Counts counts = stop_failing();
  return outcome == kTrue && counts[static_cast<std::size_t>(Step::allocation)] < n ? kNoFault : outcome;
}

}  // namespace

Row hashing_without_memory() {
  Row row{
      "the n-th allocation fails, for every n of a hash, a hash tree, a signature and a key: wrong answers "
      "or crashes"};
  for (const auto& [what, answer] : answers()) {
    if (!answer()) row.expect(false, what + ", with memory");
    int status = 0;
    for (long n = 1; !WIFEXITED(status) || WEXITSTATUS(status) != kNoFault; ++n) {
      const pid_t child = ::fork();
      if (child == 0) ::_exit(answer_without(answer, n));
      ::waitpid(child, &status, 0);
      ++row.tried;
      row.expect(WIFEXITED(status) && WEXITSTATUS(status) != kUntrue,
                 what + ", allocation " + std::to_string(n) + ": " +
                     (WIFEXITED(status) ? "another answer" : "signal " + std::to_string(WTERMSIG(status))));
    }
  }
  return row;
}

}  // namespace evet::faults
