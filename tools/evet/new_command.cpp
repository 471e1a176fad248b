#include <filesystem>
#include <ostream>

#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/intake/known_catalogues.h"
#include "tools/words/in_words.h"

namespace evet {

int run_new(const Args& args, Console& console) {
  CommandLine line("new", messages::kNewDoes, "evet new alder-fen --title \"Alder Fen, both ponds\" --by KM");
  line.take_catalogue();
  line.take_actor();
  std::string title;
  line.app().add_option("--title", title, in_words(messages::kHelpNewTitle))->type_name("NAME");
  if (const auto done = line.parse(args, console)) return *done;

  const std::filesystem::path folder = line.catalogue();
  if (title.empty()) title = std::filesystem::absolute(folder).lexically_normal().filename().string();
  if (title.empty()) title = "catalogue";
  const Catalogue catalogue = Catalogue::create(folder, title, line.actor(), console.env);
  if (console.out_is_terminal) remember_catalogue(folder, console.env);  // a person made it, to work on
  if (line.json())
    print(console,
          {{"catalogue", folder.string()}, {"title", title}, {"ledger_head", catalogue.head_hash()}});
  else
    console.out << in_words(messages::kMadeCatalogue, {{"title", title}, {"folder", folder.string()}})
                << "\n";
  return kDone;
}

}  // namespace evet
