#include <ostream>
#include <span>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/share/share_files.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {

int run_share(const Args& args, Console& console) {
  CommandLine line("share", messages::kShareDoes,
                   "evet share alder-fen --species \"Genus species\" --out shared");
  line.take_catalogue();
  ShareRequest request;
  std::string out;
  line.app()
      .add_option("--species", request.species, in_words(messages::kHelpShareSpecies))
      ->required()
      ->type_name("NAME");
  line.app().add_option("--out", out, in_words(messages::kHelpShareOut))->required()->type_name("FOLDER");
  line.app().add_flag("--exact", request.exact, in_words(messages::kHelpShareExact));
  line.app().add_option("--site", request.site, in_words(messages::kHelpShareSite))->type_name("SITE");
  line.app().add_option("--pond", request.pond, in_words(messages::kHelpPlanPond))->type_name("POND");
  line.app()
      .add_option("--from", request.from, in_words(messages::kHelpHistoriesWantedFrom))
      ->type_name("DATE");
  line.app().add_option("--to", request.to, in_words(messages::kHelpHistoriesWantedTo))->type_name("DATE");
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
    console.out << in_words(messages::kWroteShared,
                            {{"captures", counted(records.captures.size(), messages::kCaptures)},
                             {"nights", counted(records.nights.size(), messages::kCountNights)},
                             {"folder", out}})
                << "\n"
                << in_words(request.exact ? messages::kPositionsAreExact : messages::kPlacesAreCells) << "\n";
  }
  return kDone;
}

}  // namespace evet
