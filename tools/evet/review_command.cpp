#include <algorithm>
#include <ostream>

#include "matcher/base/error.h"
#include "matcher/photo/read_file.h"
#include "tools/evet/commands.h"
#include "tools/intake/known_catalogues.h"
#include "tools/review/serve.h"

namespace evet {
namespace {

constexpr std::size_t kLongestPassphraseFile = 4096;

// The first line; what is given on a command line can be read by every program on the machine.
std::string passphrase_in(const std::string& file) {
  const Bytes bytes = read_file(file, file, kLongestPassphraseFile);
  const auto* text = reinterpret_cast<const char*>(bytes.data());
  std::string line(text, std::find(text, text + bytes.size(), '\n'));
  while (!line.empty() && (line.back() == '\r' || line.back() == ' ')) line.pop_back();
  return line;
}

}  // namespace

int run_review(const Args& args, Console& console) {
  CommandLine line(
      "review",
      "Opens the page of a catalogue: nights taken in, captures settled by eye, second readings,\n"
      "disputes, individuals, population and ledger. Opens it in the browser where there is one,\n"
      "prints its address, and serves it until Ctrl-C. Every verdict is kept the moment it is given.\n"
      "Without a catalogue the page shows those that this machine knows, and makes new ones.",
      "evet review alder-fen --reader KM");
  std::string catalogue;
  line.app().add_option("CATALOGUE", catalogue,
                        "Folder of the catalogue (else the page shows those known here)");
  line.take_threads();
  review::PageOptions options;
  int port = -1;
  std::string passphrase_file;
  line.app()
      .add_option("--port", port, "Port to listen on; 0 for any that is free (else 8737, or any if taken)")
      ->type_name("PORT");
  line.app()
      .add_option("--reader", options.reader, "Observer code proposed to whoever opens the page")
      ->type_name("CODE");
  line.app()
      .add_option("--second-share", options.second_share,
                  "Share of the settled pairs that are read a second time, 0 to 1")
      ->type_name("SHARE");
  line.app()
      .add_option("--listen", options.host,
                  "Let other machines in by this address of yours; needs --passphrase-file")
      ->type_name("ADDRESS");
  line.app()
      .add_option("--passphrase-file", passphrase_file,
                  "File whose first line opens the page to others, 8 characters at least")
      ->type_name("FILE");
  bool no_browser = false;
  line.app().add_flag("--no-browser", no_browser, "Print the address alone, and open nothing");
  if (const auto done = line.parse(args, console)) return *done;
  if (!passphrase_file.empty()) options.passphrase = passphrase_in(passphrase_file);
  options.threads = line.threads();
  options.port = port;
  options.json = line.json();
  options.homes = catalogue_homes();
  options.browser = console.desktop && !no_browser && !line.json();
  review::serve(catalogue, console.env, options, console.out, console.err);
  return kDone;
}

}  // namespace evet
