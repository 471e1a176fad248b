#include <charconv>
#include <ostream>

#include "matcher/base/error.h"
#include "tools/evet/commands.h"
#include "tools/evet/inspect_photo.h"

namespace evet {
namespace {

double number_in(const std::string& text, const std::string& whole) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size())
    throw Error(ErrorKind::usage, "--midline", "'" + whole + "' is not a point",
                "write pixels as X,Y, as in --midline 810,402 800,610 795,840");
  return value;
}

}  // namespace

std::vector<cv::Point2d> midline_points(const std::vector<std::string>& words) {
  std::vector<cv::Point2d> points;
  for (const std::string& word : words) {
    const size_t comma = word.find(',');
    const size_t split = comma == std::string::npos ? word.size() : comma;
    points.emplace_back(number_in(word.substr(0, split), word),
                        number_in(split < word.size() ? word.substr(split + 1) : "", word));
  }
  return points;
}

int run_inspect(const Args& args, Console& console) {
  CommandLine line("inspect",
                   "Draws every stage from a photo to its pattern, so that one can see where it went wrong.",
                   "evet inspect IMG_0412.jpg --out stages");
  std::string photo, out;
  std::vector<std::string> midline;
  line.app().add_option("PHOTO", photo, "A JPEG, PNG, TIFF or HEIC file")->required();
  line.app()
      .add_option("--out", out, "Folder for the pictures and quality.json, made if need be")
      ->required()
      ->type_name("FOLDER");
  line.app()
      .add_option("--midline", midline,
                  "Your own midline, throat fold first: points X,Y in pixels of the upright photo")
      ->type_name("X,Y...");
  if (const auto done = line.parse(args, console)) return *done;

  const nlohmann::json found = inspect_photo(photo, out, {.belly = {.midline = midline_points(midline)}});
  if (line.json()) {
    print(console, found);
    return kDone;
  }
  const bool usable = found["usable"];
  console.out << photo << (usable ? ": can be matched.\n" : ": cannot be matched.\n");
  for (const auto& note : found["notes"]) console.out << "  " << note["sentence"].get<std::string>() << "\n";
  for (const auto& drawing : found["drawings"])
    console.out << "  " << out << "/" << drawing["file"].get<std::string>() << ": "
                << drawing["shows"].get<std::string>() << "\n";
  return kDone;
}

}  // namespace evet
