#include <ostream>
#include <span>

#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "tools/drawings/card_pdf.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"

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

  if (console.env.exists(path))
    throw Error(ErrorKind::usage, path, messages::kAlreadyThere, messages::kNameANewFile);
  const std::string pdf = scale_card_pdf();
  write_file_durably(console.env, path, std::as_bytes(std::span(pdf)));
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
