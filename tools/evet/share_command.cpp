#include <ostream>
#include <span>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/share/share_files.h"
#include "tools/words/text.h"

namespace evet {

int run_share(const Args& args, Console& console) {
  CommandLine line(
      "share",
      "Writes what others may work with: captures, nights and histories as CSV with a Frictionless data\n"
      "package, and the occurrences as a Darwin Core archive (darwin_core.zip). Places are told by the cell\n"
      "of 0.1 degree in which they lie and have codes for names; observers, licences, notes, labels, file\n"
      "names and photos stay behind. --exact adds exact positions, for who may have them.",
      "evet share alder-fen --species \"Genus species\" --out shared");
  line.take_catalogue();
  ShareRequest request;
  std::string out;
  line.app()
      .add_option("--species", request.species, "Scientific name of the animals")
      ->required()
      ->type_name("NAME");
  line.app()
      .add_option("--out", out, "Folder to write; it must be empty, or not be there")
      ->required()
      ->type_name("FOLDER");
  line.app().add_flag("--exact", request.exact, "With exact positions: not for publication");
  line.app().add_option("--site", request.site, "This site alone")->type_name("SITE");
  line.app().add_option("--pond", request.pond, "This pond of it")->type_name("POND");
  line.app().add_option("--from", request.from, "First night")->type_name("DATE");
  line.app().add_option("--to", request.to, "Last night")->type_name("DATE");
  if (const auto done = line.parse(args, console)) return *done;
  request.check();
  std::error_code failed;
  if (std::filesystem::exists(out, failed) &&
      !(std::filesystem::is_directory(out, failed) && std::filesystem::is_empty(out, failed)))
    throw Error(ErrorKind::conflict, out, messages::kSomethingIsThereAlready, messages::kNameUnusedFolder);
  check_can_make_folder(console.env, out);

  Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::read);
  const SharedRecords records = shared_records(catalogue, request, console.env);
  SharedFiles files = data_package(records);
  files.merge(darwin_core_archive(records));
  const std::filesystem::path folder = out;
  make_folders_durably(console.env, folder);
  for (const auto& [name, text] : files)
    write_file_durably(console.env, folder / name, std::as_bytes(std::span(text)));
  if (line.json()) {
    nlohmann::json names = nlohmann::json::array();
    for (const auto& [name, text] : files) names.push_back(name);
    print(console, {{"folder", out},
                    {"files", names},
                    {"nights", records.nights.size()},
                    {"captures", records.captures.size()},
                    {"exact", request.exact},
                    {"ledger_head", records.ledger_head}});
  } else {
    console.out
        << "Wrote " << counted(records.captures.size(), "capture") << " of "
        << counted(records.nights.size(), "night") << " to " << out << ".\n"
        << (request.exact
                ? "Positions are exact: not for publication.\n"
                : "Places are told by the cell of 0.1 degree in which they lie. Few ponds with newts in a "
                  "cell may still be found: look at it before you publish.\n");
  }
  return kDone;
}

}  // namespace evet
