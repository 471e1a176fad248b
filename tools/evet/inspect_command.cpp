#include <fmt/format.h>

#include <charconv>
#include <filesystem>
#include <ostream>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "matcher/catalogue/photo_work.h"
#include "matcher/photo/read_file.h"
#include "tools/drawings/inspect_photo.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/words/in_words.h"

namespace evet {
namespace {

double number_in(const std::string& text, const std::string& whole) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size())
    throw Error(ErrorKind::usage, "--midline", Message(messages::kIsNoPoint, {{"text", whole}}),
                messages::kWritePoints);
  return value;
}

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

// The photo's newest examination in the catalogue becomes the one along this midline.
EntryId keep_midline(Catalogue& catalogue, const std::string& path, const std::vector<cv::Point2d>& midline,
                     const Actor& actor) {
  const std::string item = std::filesystem::path(path).filename().string();
  const Bytes bytes = read_file(path, item);
  const PhotoId photo(sha256_hex(bytes));
  if (catalogue.captures_with_photo(photo).empty())
    throw Error(ErrorKind::not_found, item, messages::kPictureNotHere, messages::kTakeItInFirst);
  const Examined examined = examine_photo(bytes, item, examine_options(midline));
  const auto written = catalogue.append(actor, {Reexamined{photo, examination_of(examined, midline)}});
  keep_in_cache(catalogue, photo, midline, examined);
  return written.front().id;
}

}  // namespace

int run_inspect(const Args& args, Console& console) {
  CommandLine line(
      "inspect", messages::kInspectDoes,
      "evet inspect IMG_0412.jpg --out stages\n"
      "  evet inspect IMG_0412.jpg --out stages --midline 810,402 800,610 795,840 --into alder-fen");
  std::string photo, out, into;
  std::vector<std::string> midline;
  line.app().add_option("PHOTO", photo, in_words(messages::kHelpInspectThePhoto))->required();
  line.app().add_option("--out", out, in_words(messages::kHelpInspectOut))->required()->type_name("FOLDER");
  line.app().add_option("--midline", midline, in_words(messages::kHelpInspectMidline))->type_name("X,Y...");
  line.app().add_option("--into", into, in_words(messages::kHelpInspectInto))->type_name("CATALOGUE");
  line.take_actor();
  if (const auto done = line.parse(args, console)) return *done;

  const std::vector<cv::Point2d> points = midline_points(midline);
  if (!into.empty() && points.empty())
    throw Error(ErrorKind::usage, "--into", messages::kNoMidline, messages::kGiveMidline);
  nlohmann::json found = inspect_photo(photo, out, console.env, {.belly = {.midline = points}});
  if (!into.empty()) {
    Catalogue catalogue = open_catalogue(into, console, Access::write);
    found["entry"] = keep_midline(catalogue, photo, points, line.actor()).value;
  }
  if (line.json()) {
    print(console, found);
    return kDone;
  }
  const bool usable = found["usable"];
  console.out << in_words(usable ? messages::kPhotoCanBeMatched : messages::kPhotoCannotBeMatched,
                          {{"photo", photo}})
              << "\n";
  if (const auto& quality = found["quality"]; quality.contains("belly_length_mm"))
    console.out << "  "
                << in_words(
                       messages::kBellyIsLong,
                       {{"length", fmt::format("{:.1f}", quality["belly_length_mm"].get<double>())},
                        {"error", fmt::format("{:.1f}", quality["belly_length_error_mm"].get<double>())}})
                << "\n";
  for (const auto& note : found["notes"]) console.out << "  " << note["sentence"].get<std::string>() << "\n";
  for (const auto& drawing : found["drawings"])
    console.out << "  " << out << "/" << drawing["file"].get<std::string>() << ": "
                << drawing["shows"].get<std::string>() << "\n";
  if (found.contains("entry"))
    console.out << in_words(messages::kMidlineKept,
                            {{"catalogue", into}, {"entry", found["entry"].get<std::string>()}})
                << "\n";
  return kDone;
}

}  // namespace evet
