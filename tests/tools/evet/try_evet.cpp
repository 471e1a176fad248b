#include "tests/tools/evet/try_evet.h"

#include <fstream>
#include <sstream>

#include "matcher/base/error.h"

namespace evet::try_out {

nlohmann::json Answered::json() const {
  return nlohmann::json::parse(out);
}

Answered evet(const std::vector<std::string>& args, Env& env) {
  std::ostringstream out, err;
  Console console{out, err, false, false, false, env};
  Answered answered;
  answered.exit = run_evet(args, console);
  answered.out = out.str(), answered.err = err.str();
  return answered;
}

std::filesystem::path night_folder() {
  return std::filesystem::path(EVET_TEST_DATA) / "night";
}
std::string first_sheet() {
  return (night_folder() / "first.csv").string();
}
std::string second_sheet() {
  return (night_folder() / "second.csv").string();
}
std::string photos_folder() {
  return (night_folder() / "photos").string();
}

void write(const std::filesystem::path& path, std::string_view text) {
  std::filesystem::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << text;
}

std::string read(const std::filesystem::path& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

Pond::Pond(bool first_night) : path((folder.path / "pond").string()) {
  evet({"new", path, "--by", "KM"});
  if (first_night) evet({"intake", path, first_sheet(), photos_folder(), "--by", "KM"});
}

void SteadyEnv::fill_random(std::span<std::byte> out) {
  for (std::byte& byte : out) {  // xorshift, Marsaglia 2003, Journal of Statistical Software 8(14)
    state_ ^= state_ << 13, state_ ^= state_ >> 7, state_ ^= state_ << 17;
    byte = static_cast<std::byte>(state_ >> 32);
  }
}

void SteadyEnv::write_file(const std::filesystem::path& path, BytesView bytes) {
  if (writes_until_failure == 0) {
    failing();
    throw Error(ErrorKind::storage, path.string(), "writing failed (No space left on device)",
                "free some space and run the same command again");
  }
  if (writes_until_failure > 0) --writes_until_failure;
  real_.write_file(path, bytes);
}

}  // namespace evet::try_out
