#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>
#include <vector>

#include "matcher/base/error.h"
#include "matcher/base/message.h"
#include "matcher/catalogue/own_databases.h"
#include "matcher/catalogue/read_apart.h"
#include "matcher/catalogue/reader_keys.h"
#include "matcher/photo/decoders.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/evet/out_of_memory.h"
#include "tools/intake/known_catalogues.h"
#include "tools/words/in_words.h"

namespace {

// Where the program lies in a bin folder, its translations lie in share beside that; else beside the program.
std::filesystem::path translations() {
  std::error_code none;
  std::filesystem::path above = std::filesystem::read_symlink("/proc/self/exe", none).parent_path();
  if (above.filename() == "bin") above = above.parent_path();
  const std::filesystem::path folder = above / "share" / "locale";
  return !none && std::filesystem::is_directory(folder, none) ? folder : std::filesystem::path();
}

}  // namespace

int main(int argc, char** argv) {
  std::signal(SIGXFSZ, SIG_IGN);  // a file over the limit of the shell is an error to tell, not an end
  evet::end_plainly_without_memory();
  const bool out = ::isatty(STDOUT_FILENO) == 1, err = ::isatty(STDERR_FILENO) == 1;
  const char* no_colour = std::getenv("NO_COLOR");
  const bool colour = out && (no_colour == nullptr || *no_colour == '\0');
  if (const auto folder = translations(); !folder.empty()) evet::speak_from(folder);
  std::optional<evet::Decoders> decoders;
  std::optional<evet::ReadersApart> readers;
  try {  // before there is any thread
    const auto maker = std::make_shared<evet::ConfinedMaker>(
        std::vector{evet::Decoders::confined(), evet::ReadersApart::confined()});
    evet::Decoders::use(&decoders.emplace(maker, 0));
    evet::ReadersApart::use(&readers.emplace(maker, 1));
  } catch (const evet::Error& error) {
    std::cerr << "evet: "
              << evet::in_words(evet::messages::kReadInProgramItself, {{"why", std::string(error.what())}})
              << "\n";
  }
  evet::OwnDatabases own(evet::system_env(), evet::own_databases_list());
  evet::OwnDatabases::use(&own);
  std::optional<evet::ReaderKeys> keys;
  if (const std::filesystem::path folder = evet::usual_keys_folder(); !folder.empty())
    evet::Signer::use(&keys.emplace(evet::system_env(), folder));
  const bool desktop = std::getenv("DISPLAY") != nullptr || std::getenv("WAYLAND_DISPLAY") != nullptr;
  evet::Console console{std::cout, std::cerr, out, err, colour, evet::system_env(), desktop};
  return evet::run_evet({argv + 1, argv + argc}, console);
}
