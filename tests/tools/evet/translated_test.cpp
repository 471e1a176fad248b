// A translation reaches: with a made-up language every command, the reports and the files that are written for others
// speak it, and nothing that they say is left in English.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <regex>

#include "tests/tools/evet/pseudo_language.h"
#include "tests/tools/evet/try_evet.h"
#include "tests/tools/review/drawn_pond.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

// What stays as it is: lines to be typed, what the drawn pond's sheets hold, and which program and weights made a
// record, as it is stored.
std::string without_what_stays(std::string text) {
  text = std::regex_replace(text, std::regex(", weights [0-9a-f]+"), "");
  text = std::regex_replace(text, std::regex("Alder Fen, (north|south)"), "");
  return std::regex_replace(text, std::regex(R"((\n|^|: ) *evet [^\n]*(\n   [^\n]*)*)"), "\n");
}

// Runs `acts` in a process of its own that speaks the made-up language; what they answer.
template <typename Acts>
std::string said(const Folder& folder, Acts acts) {
  write_pseudo_language(folder.path);
  const auto child = [&] {
    speak_pseudo_language(folder.path);
    std::string all;
    try {
      all = acts();
    } catch (const std::exception& error) {
      all = std::string("failed: ") + error.what();
    }
    write(folder.path / "said.txt", all);
    std::_Exit(0);
  };
  EXPECT_EXIT(child(), testing::ExitedWithCode(0), "");
  return read(folder.path / "said.txt");
}

std::string told(const std::vector<std::string>& args) {
  const Answered answered = try_out::evet(args);
  return answered.out + answered.err;
}

TEST(Translated, IsEveryHelpText) {
  const Folder folder;
  const std::string all = said(folder, [] {
    std::string text = told({"--help"}) + told({"nonsense"});
    for (const Command& command : commands()) text += told({command.name, "--help"});
    return text;
  });
  EXPECT_THAT(all, HasSubstr("«Make an empty catalogue»"));
  EXPECT_THAT(all, HasSubstr("«Folder of the catalogue»"));
  EXPECT_THAT(bare_words(without_what_stays(all)), IsEmpty());
}

TEST(Translated, IsWhatCommandsPrint) {
  const Folder folder;
  const std::string pond = (folder.path / "pond").string(), copy = (folder.path / "copy").string();
  const std::string all = said(folder, [&] {
    const auto file = [&](const char* name) { return (folder.path / name).string(); };
    const DrawnPond drawn = draw_pond(pond, {.labels_on_sheet = true});
    std::string text = told({"new", copy, "--title", "T", "--by", "KM"});
    text += told({"rank", pond});
    text += told({"rank", pond, "--accept", "--by", "KM"});
    text += told({"individuals", pond});
    text += told({"histories", pond, "--out", file("histories.csv")});
    text += told({"verdict", pond, drawn.unusable[0].value, "no-animal", "--by", "KM"});
    text += told({"verdict", pond, drawn.unusable[0].value, "new", "--by", "KM"});
    text += told({"night", pond});
    text += told({"night", pond, "--weather", "_", "--by", "KM"});
    text += told({"sheet", pond, file("sheet.csv"), "--by", "KM"});
    text += told({"card", file("card.pdf")});
    text += told({"merge", copy, pond, "--by", "KM", "--in-spite", "_"});
    text += told({"audit", pond});
    text += told({"share", pond, "--species", "Aaa aaa", "--out", file("shared")});
    text += told({"trial", pond, "--resamples", "100"});
    text += told({"plan", "--animals", "40", "--chance", "0.3", "--nights", "3", "--draws", "20"});
    return text;
  });
  EXPECT_THAT(all, HasSubstr("«All holds.»"));
  EXPECT_THAT(bare_words(without_what_stays(all)), IsEmpty());
}

TEST(Translated, IsWhatIsSaidOfAWrongCommandLine) {
  const Folder folder;
  const std::string all = said(folder, [] {
    std::string text = told({"plan", "--animals", "_"}) + told({"plan", "--draws", "2.5"});
    text += told({"plan", "--draws"}) + told({"plan", "--seed", "1", "--seed", "2"});
    text += told({"plan", "--json=_"}) + told({"plan", "_", "_"}) + told({"plan", "--animal", "4"});
    text += told({"rank"}) + told({"rank", "_", "-q"}) + told({"report", "_", "--for", "_"});
    text += told({"estimate", "_", "--level", "2"}) + told({"estimate", "_", "--seed", "-1"});
    return text + told({"estimate", "_", "--area", "1", "--areas", "_"});
  });
  EXPECT_THAT(all, HasSubstr("--level: «'2' is not what it takes"));
  EXPECT_THAT(bare_words(without_what_stays(all)), IsEmpty());
}

// Survival and recapture of the last interval cannot be told apart, which is a warning that names both.
TEST(Translated, IsWhatEstimatesSay) {
  const Folder folder;
  std::string table = "animal,2031-04-01,2031-05-01,2031-06-01,2031-07-01\n";
  int animal = 0;
  for (const auto& [history, animals] : {std::pair{"1,1,0,0", 9},
                                         {"0,1,1,0", 8},
                                         {"0,0,1,1", 9},
                                         {"1,0,1,0", 5},
                                         {"1,0,0,1", 2},
                                         {"1,0,0,0", 9},
                                         {"0,1,0,0", 7},
                                         {"0,0,0,1", 8}})
    for (int i = 0; i < animals; ++i) table += std::to_string(++animal) + "," + history + "\n";
  const std::string csv = (folder.path / "histories.csv").string(),
                    card = (folder.path / "card.json").string();
  write(csv, table);
  write(card, R"({"models": [{"model": "survival", "survival": {"varies_by": ["occasion"]},
                              "recapture": {"varies_by": ["occasion"]}}]})");
  const std::string all = said(folder, [&] {
    std::string text = told({"estimate", "--csv", csv, "--threads", "1"});
    text += told({"estimate", "--csv", csv, "--card", card, "--threads", "1"});
    return text + told({"estimate", "--csv", csv, "--design", "closed", "--area", "50", "--threads", "1"});
  });
  EXPECT_THAT(all, HasSubstr("««survival» 3»"));
  EXPECT_THAT(all, HasSubstr("«density per 100 m2»"));
  EXPECT_THAT(bare_words(without_what_stays(all)), IsEmpty());
}

TEST(Translated, IsANightTakenIn) {
  const Folder folder;
  const std::string pond = (folder.path / "pond").string();
  const std::string all = said(folder, [&] {
    std::string text = told({"new", pond, "--title", "T", "--by", "KM"});
    for (int time = 0; time < 2; ++time)
      text += told({"intake", pond, first_sheet(), photos_folder(), "--by", "KM"});
    return text;
  });
  EXPECT_THAT(all, HasSubstr("«Night of "));
  EXPECT_THAT(all, HasSubstr("«Nothing new: all «"));
  EXPECT_THAT(bare_words(without_what_stays(all)), IsEmpty());
}

TEST(Translated, AreTheReports) {
  const Folder folder;
  const std::string pond = (folder.path / "pond").string();
  const std::string all = said(folder, [&] {
    draw_pond(pond, {.labels_on_sheet = true});
    std::string text;
    const auto page = [&](std::vector<std::string> args) {
      const std::string file = (folder.path / "page.html").string();
      args.insert(args.end(), {args[0] == "individuals" ? "--strips" : "--out", file});
      const std::string answer = told(args);
      text += read_of_page(read(file)) + answer;
    };
    page({"report", pond, "--pond", "north"});
    page({"report", pond, "--pond", "north", "--for", "everybody"});
    page({"individuals", pond});
    page({"trial", pond, "--resamples", "100"});
    return text;
  });
  EXPECT_THAT(all, HasSubstr("«Night report»"));
  EXPECT_THAT(all, HasSubstr("«Catalogue of strips»"));
  EXPECT_THAT(bare_words(without_what_stays(all)), IsEmpty());
}

}  // namespace
}  // namespace evet
