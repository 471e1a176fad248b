#include <algorithm>
#include <ostream>

#include "matcher/base/error.h"
#include "matcher/photo/read_file.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/intake/known_catalogues.h"
#include "tools/review/serve.h"
#include "tools/words/in_words.h"

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
  CommandLine line("review", messages::kReviewDoes, "evet review alder-fen --reader KM");
  std::string catalogue;
  line.app().add_option("CATALOGUE", catalogue, in_words(messages::kHelpReviewTheCatalogue));
  line.take_threads();
  review::PageOptions options;
  int port = -1;
  std::string passphrase_file;
  line.app().add_option("--port", port, in_words(messages::kHelpReviewPort))->type_name("PORT");
  line.app().add_option("--reader", options.reader, in_words(messages::kHelpReviewReader))->type_name("CODE");
  line.app()
      .add_option("--second-share", options.second_share, in_words(messages::kHelpReviewSecondShare))
      ->type_name("SHARE");
  line.app()
      .add_option("--listen", options.host, in_words(messages::kHelpReviewListen))
      ->type_name("ADDRESS");
  line.app()
      .add_option("--passphrase-file", passphrase_file, in_words(messages::kHelpReviewPassphraseFile))
      ->type_name("FILE");
  bool no_browser = false;
  line.app().add_flag("--no-browser", no_browser, in_words(messages::kHelpReviewNoBrowser));
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
