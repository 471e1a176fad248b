#include "tools/drawings/card_pdf.h"

#include <fmt/format.h>

#include <sstream>
#include <vector>

#include "matcher/belly/scale_card.h"
#include "tools/drawings/messages.h"
#include "tools/drawings/pdf_text.h"

namespace evet {
namespace {

constexpr double kPointsPerMm = 72 / 25.4;
constexpr double kPageWidthMm = 210, kPageHeightMm = 297;

// Drawing commands of the page; its frame is millimetres from the card's top left, y down.
class CardPage {
 public:
  void fill(double x, double y, double width, double height) {
    content_ += fmt::format("{:.3f} {:.3f} {:.3f} {:.3f} re f\n", right(x), up(y + height), points(width),
                            points(height));
  }
  void outline(double x, double y, double width, double height) {
    content_ += fmt::format("0.3 w {:.3f} {:.3f} {:.3f} {:.3f} re S\n", right(x), up(y + height),
                            points(width), points(height));
  }
  // `text`: see pdf_text.
  void write(double x, double y, double size_points, const std::string& text) {
    content_ +=
        fmt::format("BT /F1 {:.1f} Tf {:.3f} {:.3f} Td ({}) Tj ET\n", size_points, right(x), up(y), text);
  }
  const std::string& content() const { return content_; }

 private:
  static double points(double mm) { return mm * kPointsPerMm; }
  static double right(double x) { return points(kCardLeftOnPageMm + x); }
  static double up(double y) { return points(kPageHeightMm - kCardTopOnPageMm - y); }
  std::string content_;
};

void draw_squares(CardPage& page) {
  constexpr double kModule = kSquareMm / kSquareModules;
  for (const CardSquare& square : card_squares())
    for (int row = 0; row < kSquareModules; ++row)
      for (int column = 0, end = 0; column < kSquareModules; column = end) {
        // Black modules side by side as one piece: no hairline between them on screen or paper.
        end = column + 1;
        if (is_white(square, row, column)) continue;
        while (end < kSquareModules && !is_white(square, row, end)) ++end;
        page.fill(square.top_left_mm.x + column * kModule, square.top_left_mm.y + row * kModule - 0.005,
                  (end - column) * kModule, kModule + 0.01);
      }
}

void draw_ruler(CardPage& page) {
  constexpr double kLine = 0.15;
  page.fill(kRulerLeftMm - kLine / 2, kRulerTopMm - kLine / 2, kRulerMm + kLine, kLine);
  for (int mm = 0; mm <= static_cast<int>(kRulerMm); ++mm) {
    const double tick = mm % 10 == 0 ? 4 : mm % 5 == 0 ? 3 : 2;
    page.fill(kRulerLeftMm + mm - kLine / 2, kRulerTopMm, kLine, tick);
    if (mm % 10 == 0)
      page.write(kRulerLeftMm + mm - (mm < 10 ? 0.8 : 1.6), kRulerTopMm + 7, 7, std::to_string(mm));
  }
}

// In the language of the surroundings where the font can write it, else in English. A text may have several lines.
void write_text(CardPage& page, double x, double y, double size_points, double line_mm,
                const MessageText& text) {
  std::vector<std::string> lines;
  const auto take = [&](const std::string& words) {
    lines.clear();
    std::istringstream in(words);
    for (std::string line; std::getline(in, line);) {
      const auto written = pdf_text(line);
      if (!written) return false;
      lines.push_back(*written);
    }
    return true;
  };
  if (!take(Message(text).words())) take(text.english);
  for (const std::string& line : lines) {
    page.write(x, y, size_points, line);
    y += line_mm;
  }
}

void write_texts(CardPage& page) {
  write_text(page, 22, 8, 9, 0, messages::kCardTitle);
  write_text(page, 22, 12.5, 6, 0, messages::kCardPrintWhole);
  write_text(page, 22, 44, 6, 3.5, messages::kCardRightOnlyIf);
  write_text(page, 20 - kCardLeftOnPageMm, kCardHeightMm + 16, 9.5, 5.2, messages::kCardHowToUse);
}

}  // namespace

std::string scale_card_pdf() {
  CardPage page;
  page.outline(0, 0, kCardWidthMm, kCardHeightMm);
  draw_squares(page);
  draw_ruler(page);
  write_texts(page);

  const std::vector<std::string> objects = {
      "<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>",
      "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
      fmt::format("<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {:.3f} {:.3f}] /Contents 4 0 R\n"
                  "   /Resources << /Font << /F1 5 0 R >> >> >>",
                  kPageWidthMm * kPointsPerMm, kPageHeightMm * kPointsPerMm),
      fmt::format("<< /Length {} >>\nstream\n{}endstream", page.content().size(), page.content()),
      "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>"};
  std::string file = "%PDF-1.6\n";
  std::string places = fmt::format("xref\n0 {}\n0000000000 65535 f \n", objects.size() + 1);
  for (size_t i = 0; i < objects.size(); ++i) {
    places += fmt::format("{:010d} 00000 n \n", file.size());
    file += fmt::format("{} 0 obj\n{}\nendobj\n", i + 1, objects[i]);
  }
  return file + places +
         fmt::format("trailer\n<< /Size {} /Root 1 0 R >>\nstartxref\n{}\n%%EOF\n", objects.size() + 1,
                     file.size());
}

}  // namespace evet
