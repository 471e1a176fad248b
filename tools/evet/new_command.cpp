#include <filesystem>
#include <ostream>

#include "tools/evet/commands.h"
#include "tools/intake/known_catalogues.h"

namespace evet {

int run_new(const Args& args, Console& console) {
  CommandLine line("new",
                   "Makes an empty catalogue: one folder that can be copied, backed up and opened elsewhere.",
                   "evet new alder-fen --title \"Alder Fen, both ponds\" --by KM");
  line.take_catalogue();
  line.take_actor();
  std::string title;
  line.app()
      .add_option("--title", title, "What to call it on reports (else the folder's name)")
      ->type_name("NAME");
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
    console.out << "Made the catalogue '" << title << "' in " << folder.string() << ".\nNext: evet intake "
                << folder.string() << " SHEET.csv PHOTOS\n";
  return kDone;
}

}  // namespace evet
