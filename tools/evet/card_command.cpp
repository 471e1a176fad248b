#include <filesystem>
#include <fstream>
#include <ostream>

#include "matcher/base/error.h"
#include "tools/evet/card_pdf.h"
#include "tools/evet/commands.h"

namespace evet {

int run_card(const Args& args, Console& console) {
  CommandLine line(
      "card",
      "Writes the scale card as a PDF to print: lying beside the animal it gives the belly's length "
      "in millimetres.",
      "evet card scale_card.pdf");
  std::string path;
  line.app().add_option("FILE", path, "Where the PDF goes; must not be there yet")->required();
  if (const auto done = line.parse(args, console)) return *done;

  if (std::filesystem::exists(path))
    throw Error(ErrorKind::usage, path, "is there already", "name a new file");
  std::ofstream file(path, std::ios::binary);
  file << scale_card_pdf();
  file.close();
  if (!file)
    throw Error(ErrorKind::storage, path, "cannot be written", "name a file in a folder that can be written");
  if (line.json())
    print(console, {{"card", path}});
  else
    console.out
        << "Wrote " << path
        << ". Print it at 100 %, and check with a ruler that its 50 mm are 50 mm: a photo cannot show "
           "that they are not.\n";
  return kDone;
}

}  // namespace evet
