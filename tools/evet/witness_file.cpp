#include "tools/evet/witness_file.h"

#include <sstream>

#include "matcher/base/error.h"
#include "matcher/base/moment.h"
#include "matcher/base/write_durably.h"
#include "tools/evet/messages.h"

namespace evet {
namespace {

constexpr std::size_t kMostBytes = 10'000'000;

std::string text_of(const std::filesystem::path& file, Env& env) {
  if (!env.exists(file)) return {};
  const Bytes bytes = env.read_start(file, kMostBytes + 1);
  if (bytes.size() > kMostBytes)
    throw Error(ErrorKind::too_large, file.string(), messages::kListOfHeadsTooLarge);
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

bool is_hash(const std::string& text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

}  // namespace

std::vector<Witnessed> read_witnessed(const std::filesystem::path& file, Env& env) {
  std::vector<Witnessed> heads;
  std::istringstream lines(text_of(file, env));
  std::size_t number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    std::istringstream words(line);
    std::string hash, time, entries, root;
    words >> hash >> time >> entries >> root;
    const bool plain = root.empty() || (is_hash(root) && !entries.empty() && entries.size() < 10 &&
                                        entries.find_first_not_of("0123456789") == std::string::npos);
    if (!is_hash(hash) || !plain)
      throw Error(ErrorKind::bad_input,
                  Message(messages::kFileLine, {{"file", file.string()}, {"line", number}}).words(),
                  is_hash(hash) ? messages::kNoTreeRoot : messages::kNoHeadHash, messages::kHeadLines);
    heads.push_back({hash, root.empty() ? std::string() : entries + ":" + root});
  }
  return heads;
}

void add_witnessed(const std::filesystem::path& file, const std::string& hash, std::size_t entries,
                   const std::string& root, Env& env) {
  const std::vector<Witnessed> known = read_witnessed(file, env);
  if (!known.empty() && known.back().hash == hash) return;
  std::string text = text_of(file, env);
  if (!text.empty() && text.back() != '\n') text += '\n';
  text += hash + " " + to_text(env.now()) + " " + std::to_string(entries) + " " + root + "\n";
  write_file_durably(env, file, BytesView(reinterpret_cast<const std::byte*>(text.data()), text.size()));
}

}  // namespace evet
