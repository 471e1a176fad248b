#include "tests/matcher/base/layers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
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
    "```layers\nmatcher/base:\nmatcher/top : matcher/base models/one.h\nmodels :\n```\n"
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
  EXPECT_THAT(breaches(kMadeUp, "matcher/new/a.cpp", ""),
              ElementsAre("matcher/new/a.cpp: its folder is not in the list of layers"));
  EXPECT_THROW(rules_of("no block"), std::runtime_error);
}

TEST(Layers, EveryIncludeGoesDownward) {
  const Rules rules = rules_of(text_of(kRoot / "matcher" / "README.md"));
  int files = 0;
  for (const char* top : {"matcher", "models", "tools"})
    for (const auto& entry : fs::recursive_directory_iterator(kRoot / top)) {
      const std::string extension = entry.path().extension().string();
      if (extension != ".h" && extension != ".cpp") continue;
      ++files;
      EXPECT_THAT(breaches(rules, fs::relative(entry.path(), kRoot).generic_string(), text_of(entry.path())),
                  IsEmpty());
    }
  EXPECT_GT(files, 200);
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
