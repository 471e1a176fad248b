#include "tests/matcher/base/layers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "matcher/base/error.h"
#include "matcher/belly/belly_net.h"

namespace evet::layers {
namespace {

namespace fs = std::filesystem;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

std::string text_of(const fs::path& file) {
  std::ifstream stream(file);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}
const fs::path kRoot = EVET_SOURCE_DIR;

const Rules kMadeUp = rules_of(
    "```layers\nmatcher/base/alone.h :\nmatcher/base:\nmatcher/top : matcher/base models/one.h\nmodels "
    ":\n```\n"
    "```libraries\nopencv2 : matcher\nopencv2/highgui:\n```\n");

TEST(Layers, TheCheckerSeesABreach) {
  EXPECT_THAT(
      breaches(kMadeUp, "matcher/top/a.cpp",
               "#include \"matcher/base/x.h\"\n#include \"models/one.h\"\n#include <opencv2/core.hpp>\n"),
      IsEmpty());
  EXPECT_THAT(breaches(kMadeUp, "matcher/base/x.h", "#include \"matcher/top/a.h\"\n"),
              ElementsAre("matcher/base/x.h: includes matcher/top/a.h, which is not below matcher/base"));
  EXPECT_THAT(breaches(kMadeUp, "matcher/top/a.cpp", "  #  include \"models/two.h\"\n").size(), 1u);
  EXPECT_THAT(breaches(kMadeUp, "models/m.cpp", "#include <opencv2/core.hpp>\n").size(), 1u);
  EXPECT_THAT(breaches(kMadeUp, "matcher/top/a.cpp", "#include <opencv2/highgui.hpp>\n").size(), 1u);
  EXPECT_THAT(breaches(kMadeUp, "matcher/top/a.cpp", "#include <opencv2/highgui/highgui_c.h>\n").size(), 1u);
  EXPECT_THAT(
      breaches(kMadeUp, "matcher/top/a.cpp", "#include \"tests/t.h\"\n#include \"fmt/format.h\"\n").size(),
      1u);
  EXPECT_THAT(breaches(kMadeUp, "matcher/base/alone.h", "#include \"matcher/base/x.h\"\n").size(), 1u);
  EXPECT_THAT(files_as_layers(kMadeUp), ElementsAre("matcher/base/alone"));
  EXPECT_THAT(breaches(kMadeUp, "matcher/new/a.cpp", ""),
              ElementsAre("matcher/new/a.cpp: its folder is not in the list of layers"));
  EXPECT_THROW(rules_of("no block"), std::runtime_error);
}

TEST(Layers, TheCheckerSeesACircle) {
  Includes includes{{"models/estimate.cpp", {"models/ask/answer.h", "models/estimate.h"}},
                    {"models/ask/answer.cpp", {"models/ask/answer.h"}}};
  EXPECT_THAT(circles(includes), IsEmpty());
  includes["models/ask/answer.h"] = {"models/estimate.h"};  // of a file and a folder
  EXPECT_THAT(circles(includes), ElementsAre("models/ask models/estimate"));
  includes = {{"tools/a/x.cpp", {"tools/b/y.h"}}, {"tools/b/z.cpp", {"tools/a/w.h"}}};  // of two folders
  EXPECT_THAT(circles(includes), ElementsAre("tools/a tools/b"));
  includes = {{"tools/a/x.h", {"tools/a/y.h"}},  // of three files in one folder
              {"tools/a/y.cpp", {"tools/a/z.h"}},
              {"tools/a/z.cpp", {"tools/a/x.h"}}};
  EXPECT_THAT(circles(includes), ElementsAre("tools/a/x tools/a/y tools/a/z"));
  includes = {{"matcher/top/a.cpp", {"models/b.h", "matcher/base/c.h"}},
              {"models/b.h", {"matcher/base/c.h"}}};
  EXPECT_THAT(circles(includes), ElementsAre("matcher models"));
  EXPECT_THAT(circles(includes, {"matcher/base/c"}), IsEmpty()) << "of three layers";
  includes["matcher/base/c.h"] = {"models/d.h"};
  EXPECT_THAT(circles(includes, {"matcher/base/c"}), ElementsAre("matcher/base/c models"));
  includes["matcher/base/c.h"] = {"matcher/top/e.h"};
  EXPECT_THAT(circles(includes, {"matcher/base/c"}),
              ElementsAre("matcher matcher/base/c models", "matcher/base matcher/top"));
  EXPECT_THAT(own_includes("#include \"models/one.h\"\n#include <vector>\n  # include \"tools/a/b.h\"\n"),
              ElementsAre("models/one.h", "tools/a/b.h"));
  EXPECT_THAT(own_imports("page/app.js",
                          "import { get } from './api.js';\nimport './dom.js';\nimport { min } from 'd3';\n"
                          "const pages = { night: () => import('./night.js') };\n"),
              ElementsAre("page/api.js", "page/dom.js", "page/night.js"));
}

// Path -> text of every file below `folder` with one of these endings.
std::map<std::string, std::string> files_below(const fs::path& folder, const std::set<std::string>& endings) {
  std::map<std::string, std::string> found;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (endings.contains(entry.path().extension().string()))
      found[fs::relative(entry.path(), kRoot).generic_string()] = text_of(entry.path());
  return found;
}

// Every file that the program is made of.
const std::map<std::string, std::string>& sources() {
  static const std::map<std::string, std::string> files = [] {
    std::map<std::string, std::string> all;
    for (const char* top : {"matcher", "models", "tools"})
      all.merge(files_below(kRoot / top, {".h", ".cpp"}));
    return all;
  }();
  return files;
}

TEST(Layers, EveryIncludeGoesDownward) {
  const Rules rules = rules_of(text_of(kRoot / "matcher" / "README.md"));
  for (const auto& [path, text] : sources()) EXPECT_THAT(breaches(rules, path, text), IsEmpty());
  EXPECT_GT(sources().size(), 200u);
}

TEST(Layers, NothingStandsInACircle) {
  Includes includes;
  for (const auto& [path, text] : sources()) includes[path] = own_includes(text);
  const Rules rules = rules_of(text_of(kRoot / "matcher" / "README.md"));
  EXPECT_THAT(circles(includes, files_as_layers(rules)), IsEmpty());
}

TEST(Layers, NoScriptOfThePageStandsInACircle) {
  Includes imports;
  for (const auto& [path, text] : files_below(kRoot / "tools" / "review" / "page", {".js"}))
    imports[path] = own_imports(path, text);
  EXPECT_GT(imports.size(), 20u);
  EXPECT_FALSE(imports["tools/review/page/app.js"].empty());
  EXPECT_THAT(circles(imports), IsEmpty());
}

TEST(Layers, NothingLinksOpenCvsPictureReadersOrWindows) {
  int files = 0;
  for (const char* file :
       {"CMakeLists.txt", "matcher/CMakeLists.txt", "models/CMakeLists.txt", "tools/CMakeLists.txt"}) {
    const std::string text = text_of(kRoot / file);
    files += !text.empty();
    for (const char* unwanted : {"imgcodecs", "highgui", "videoio", "find_package(OpenCV"})
      EXPECT_THAT(text, ::testing::Not(HasSubstr(unwanted))) << file;
  }
  EXPECT_EQ(files, 4);
  // And nothing comes in by the back door: this program links what the product links, down to the network
  // that is asked here for nothing, so what it has loaded tells.
  EXPECT_THROW(BellyNet{std::span<const std::byte>()}, Error);
  const std::string loaded = text_of("/proc/self/maps");
  EXPECT_THAT(loaded, HasSubstr("libopencv_dnn"));
  for (const char* unwanted : {"libopencv_imgcodecs", "libopencv_highgui", "libopencv_videoio", "libgdal"})
    EXPECT_THAT(loaded, ::testing::Not(HasSubstr(unwanted)));
}

}  // namespace
}  // namespace evet::layers
