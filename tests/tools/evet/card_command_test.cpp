// The card as it comes out of a printer: the PDF is drawn by pdftoppm (poppler), an independent reader.
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>
#include <regex>
#include <string>

#include "matcher/belly/find_belly.h"
#include "matcher/belly/find_scale_card.h"
#include "tests/tools/evet/try_evet.h"
#include "tools/drawings/card_pdf.h"
#include "tools/render/scene.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
constexpr double kPxPerMm = 200 / 25.4;

Photo plain_photo(const cv::Mat3b& bgr) {
  Photo photo;
  photo.bgr = bgr;
  return photo;
}

struct CardCommand : testing::Test {
  fs::path folder = fs::path(testing::TempDir()) / ("card_command_test_" + std::to_string(::getpid()));
  fs::path pdf = folder / "card.pdf";
  void SetUp() override {
    fs::remove_all(folder);
    fs::create_directories(folder);
  }
  void TearDown() override { fs::remove_all(folder); }

  // Binary PPM (P6), as pdftoppm writes it: four words, one white space, pixels.
  cv::Mat3b printed() const {
    const std::string page = (folder / "page").string();
    const std::string command = "pdftoppm -r 200 -singlefile '" + pdf.string() + "' '" + page + "'";
    if (std::system(command.c_str()) != 0) return {};
    std::ifstream file(page + ".ppm", std::ios::binary);
    std::string magic;
    int width = 0, height = 0, most = 0;
    file >> magic >> width >> height >> most;
    file.get();
    cv::Mat3b rgb(height, width), bgr;
    file.read(reinterpret_cast<char*>(rgb.data), static_cast<std::streamsize>(rgb.total() * 3));
    if (magic != "P6" || !file) return {};
    cv::cvtColor(rgb, bgr, cv::COLOR_RGB2BGR);
    return bgr;
  }
};

// Readers are lenient, printers may not be: ISO 32000-1, 7.7.2 and 7.7.3 name what the objects of a page tree are.
TEST_F(CardCommand, NamesThePartsOfAPageTreeAsTheStandardDoes) {
  const std::string text = scale_card_pdf();
  std::map<std::string, int> parts;
  const std::regex type(R"(/Type\s*/(\w+))");
  for (std::sregex_iterator one(text.begin(), text.end(), type), end; one != end; ++one) ++parts[(*one)[1]];
  EXPECT_EQ(parts, (std::map<std::string, int>{{"Catalog", 1}, {"Pages", 1}, {"Page", 1}, {"Font", 1}}));
}

TEST_F(CardCommand, PrintsTheCardAtItsStatedSizeAndPlace) {
  const try_out::Answered tried = try_out::evet({"card", pdf.string()});
  ASSERT_EQ(tried.exit, 0) << tried.err;
  const cv::Mat3b page = printed();
  ASSERT_FALSE(page.empty()) << "pdftoppm could not draw it; is poppler-utils there (tools/setup.sh test)?";
  EXPECT_NEAR(page.cols, 210 * kPxPerMm, 2);
  EXPECT_NEAR(page.rows, 297 * kPxPerMm, 2);
  const auto card = find_scale_card(page);
  ASSERT_TRUE(card);
  EXPECT_EQ(card->seen.size(), 4u);
  std::vector<cv::Point2d> corner;
  cv::perspectiveTransform(std::vector<cv::Point2d>{{0, 0}}, corner, card->mm_from_photo.inv());
  EXPECT_NEAR(corner[0].x, kCardLeftOnPageMm * kPxPerMm, 0.7);
  EXPECT_NEAR(corner[0].y, kCardTopOnPageMm * kPxPerMm, 0.7);
  // Its own breadth, through the middle.
  const cv::Point2d left(kCardLeftOnPageMm * kPxPerMm, (kCardTopOnPageMm + kCardHeightMm / 2) * kPxPerMm);
  EXPECT_NEAR(measure_mm(*card, {left, left + cv::Point2d(kCardWidthMm * kPxPerMm, 0)}).mm, kCardWidthMm,
              0.2);
}

TEST_F(CardCommand, TheRulerIsFiftyMillimetresOfInk) {
  ASSERT_EQ(try_out::evet({"card", pdf.string()}).exit, 0);
  const cv::Mat3b page = printed();
  ASSERT_FALSE(page.empty());
  // Down one row through the ticks of ten: dark columns from the first to the last.
  const int row = cvRound((kCardTopOnPageMm + kRulerTopMm + 3.6) * kPxPerMm);
  int first = -1, last = -1, ticks = 0;
  for (int x = cvRound((kCardLeftOnPageMm + 2) * kPxPerMm);
       x < (kCardLeftOnPageMm + kCardWidthMm - 2) * kPxPerMm; ++x) {
    const bool dark = page(row, x)[1] < 160;
    if (!dark) continue;
    if (first < 0) first = x;
    if (last < x - 1) ++ticks;
    last = x;
  }
  EXPECT_EQ(ticks, 6);
  EXPECT_NEAR((last - first) / kPxPerMm, kRulerMm, 0.3);
}

TEST_F(CardCommand, MeasuresInARenderedPhotoToOnePercent) {
  ASSERT_EQ(try_out::evet({"card", pdf.string()}).exit, 0);
  const cv::Mat3b page = printed();
  ASSERT_FALSE(page.empty());
  const cv::Rect cut(cvRound(kCardLeftOnPageMm * kPxPerMm), cvRound(kCardTopOnPageMm * kPxPerMm),
                     cvRound(kCardWidthMm * kPxPerMm), cvRound(kCardHeightMm * kPxPerMm));
  render::CaptureSpec spec;
  spec.world_seed = 102;
  spec.size = {1200, 900};
  cv::Mat3b photo = render::render(spec).bgr.clone();
  const double c = 3.6 * std::cos(0.5), s = 3.6 * std::sin(0.5);
  const cv::Matx33d photo_from_mm(c, -s, 700, s, c, 300, 3e-4, 2e-4, 1);
  const cv::Matx33d half(1, 0, -0.5, 0, 1, -0.5, 0, 0, 1);
  const cv::Matx33d warp =
      half * photo_from_mm * cv::Matx33d::diag({1 / kPxPerMm, 1 / kPxPerMm, 1}) * half.inv();
  cv::Mat3b laid;
  cv::Mat1b where;
  cv::warpPerspective(page(cut), laid, warp, photo.size(), cv::INTER_AREA);
  cv::warpPerspective(cv::Mat1b(cut.size(), 255), where, warp, photo.size());
  laid.copyTo(photo, where > 250);
  const auto card = find_scale_card(photo);
  ASSERT_TRUE(card);
  std::vector<cv::Point2d> line;
  cv::perspectiveTransform(std::vector<cv::Point2d>{{-20, 0}, {-20, 60}}, line, photo_from_mm);
  const LengthMm measured = measure_mm(*card, line);
  EXPECT_NEAR(measured.mm, 60, 0.6);
  EXPECT_GT(measured.error_mm, 0.3);
  // And so does the belly that lies along it; without the card nothing is said.
  const BellyOptions along{.midline = {line[0], (line[0] + line[1]) / 2, line[1]}};
  const Quality quality = find_belly(plain_photo(photo), along).quality;
  EXPECT_NEAR(quality.belly_length_mm, 60, 0.6);
  EXPECT_GT(quality.belly_length_error_mm, measured.error_mm);
  EXPECT_EQ(find_belly(plain_photo(render::render(spec).bgr), along).quality.belly_length_mm, 0);
}

TEST_F(CardCommand, WritesOverNothing) {
  std::ofstream(pdf) << "a letter";
  const try_out::Answered tried = try_out::evet({"card", pdf.string()});
  EXPECT_EQ(tried.exit, 2);
  EXPECT_NE(tried.err.find("is there already"), std::string::npos) << tried.err;
  std::ifstream kept(pdf);
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(kept), {}), "a letter");
}

TEST_F(CardCommand, AFolderThatIsNotThereIsNamed) {
  const try_out::Answered tried = try_out::evet({"card", (folder / "none" / "card.pdf").string()});
  EXPECT_EQ(tried.exit, 3);
  EXPECT_NE(tried.err.find("there is no such folder"), std::string::npos) << tried.err;
}

}  // namespace
}  // namespace evet
