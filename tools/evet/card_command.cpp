#include <ostream>
#include <span>

#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "tools/drawings/card_pdf.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/words/in_words.h"

namespace evet {

int run_card(const Args& args, Console& console) {
  CommandLine line("card", messages::kCardDoes, "evet card scale_card.pdf");
  std::string path;
  line.app().add_option("FILE", path, in_words(messages::kHelpCardTheFile))->required();
  if (const auto done = line.parse(args, console)) return *done;

  if (console.env.exists(path))
    throw Error(ErrorKind::usage, path, messages::kAlreadyThere, messages::kNameANewFile);
  const std::string pdf = scale_card_pdf();
  write_file_durably(console.env, path, std::as_bytes(std::span(pdf)));
  if (line.json())
    print(console, {{"card", path}});
  else
    console.out << in_words(messages::kWroteCard, {{"file", path}}) << "\n";
  return kDone;
}

}  // namespace evet
