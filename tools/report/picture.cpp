#include "tools/report/picture.h"

#include <openssl/evp.h>

#include <algorithm>
#include <iterator>

#include "fmt/format.h"
#include "matcher/photo/encode.h"
#include "tools/report/html.h"
#include "tools/report/messages.h"
#include "tools/words/markup.h"

namespace evet::report {
namespace {

constexpr int kQuality = 82;
// Drawing units of a pair: two strips of 160 x 512 with a gap between them.
constexpr int kWide = 160, kHigh = 512, kGap = 72;
constexpr std::size_t kMostTies = 12;  // more lines hide what they tie

std::string base64(const std::vector<std::byte>& bytes) {
  std::string out((bytes.size() + 2) / 3 * 4 + 1, '\0');
  const int n =
      EVP_EncodeBlock(reinterpret_cast<unsigned char*>(out.data()),
                      reinterpret_cast<const unsigned char*>(bytes.data()), static_cast<int>(bytes.size()));
  out.resize(static_cast<std::size_t>(n));
  return out;
}

std::string image(const ReportStrip& strip, const std::string& alt) {
  if (strip.bgr.empty())
    return fmt::format(R"(<div class="no-picture">{}</div>)", html(messages::kNoPictureKept));
  return fmt::format(R"(<img class="strip" width="{}" height="{}" alt="{}" src="{}">)", strip.bgr.cols,
                     strip.bgr.rows, escaped(alt),
                     jpeg_data_uri(with_unseen_hatched(strip.bgr, strip.valid), kQuality));
}

// An open ring, so that the spot stays to be seen, with its number beside it.
std::string ring(double strip_x, double x, double y, std::size_t number) {
  const double beside = x > kWide - 36 ? -22 : 22;
  return fmt::format(
      R"(<circle class="halo" cx="{0:.1f}" cy="{1:.1f}" r="12"/><circle class="ring" cx="{0:.1f}" cy="{1:.1f}" r="12"/>)"
      R"(<text x="{2:.1f}" y="{3:.1f}" dy="0.36em">{4}</text>)",
      strip_x + x, y, strip_x + x + beside, std::clamp(y - 10, 9.0, kHigh - 9.0), number);
}

std::string ties_overlay(const std::vector<SpotTie>& ties) {
  std::vector<SpotTie> ordered = ties;
  std::stable_sort(ordered.begin(), ordered.end(),
                   [](const SpotTie& a, const SpotTie& b) { return a.u_now < b.u_now; });
  // Evenly over the belly's length when there are too many to draw.
  std::vector<SpotTie> drawn;
  const std::size_t n = std::min(ordered.size(), kMostTies);
  for (std::size_t i = 0; i < n; ++i) drawn.push_back(ordered[i * ordered.size() / n]);
  std::string svg =
      fmt::format(R"(<svg class="ties" viewBox="0 0 {} {}" aria-hidden="true">)", 2 * kWide + kGap, kHigh);
  std::string lines, rings;
  auto out = std::back_inserter(lines);
  for (std::size_t i = 0; i < drawn.size(); ++i) {
    const SpotTie& t = drawn[i];
    const double x1 = (t.v_now + 1) / 2 * kWide, y1 = t.u_now * kHigh;
    const double x2 = (t.v_before + 1) / 2 * kWide, y2 = t.u_before * kHigh;
    fmt::format_to(out, R"(<line x1="{}" y1="{:.1f}" x2="{}" y2="{:.1f}"/>)", kWide + 3, y1, kWide + kGap - 3,
                   y2);
    rings += ring(0, x1, y1, i + 1);
    rings += ring(kWide + kGap, x2, y2, i + 1);
  }
  return svg + lines + rings + "</svg>";
}

}  // namespace

std::string jpeg_data_uri(const cv::Mat3b& bgr, int quality) {
  CV_Assert(!bgr.empty());
  return "data:image/jpeg;base64," + base64(encode_jpeg(bgr, quality));
}

cv::Mat3b with_unseen_hatched(const cv::Mat3b& bgr, const cv::Mat1b& valid) {
  cv::Mat3b out = bgr.clone();
  if (valid.size() != bgr.size()) return out;
  constexpr int period = 10, stroke = 2;
  for (int y = 0; y < out.rows; ++y)
    for (int x = 0; x < out.cols; ++x) {
      if (valid(y, x) != 0) continue;
      const int grey = (x + y) % period < stroke ? 150 : 214;
      cv::Vec3b& p = out(y, x);
      for (int channel = 0; channel < 3; ++channel)
        p[channel] = static_cast<unsigned char>((p[channel] + 5 * grey) / 6);
    }
  return out;
}

std::string strip_figure(const Labelled& one) {
  return fmt::format("<figure class=\"single\">{}<figcaption>{}</figcaption></figure>",
                     image(one.strip, one.alt), one.caption);
}

std::string pair_figure(const Labelled& now, const Labelled& before, const std::vector<SpotTie>& ties) {
  const bool tied = !ties.empty() && !now.strip.bgr.empty() && !before.strip.bgr.empty();
  const std::string drawn =
      tied && ties.size() > kMostTies
          ? fmt::format(R"(<p class="drawn">{}</p>)",
                        html(messages::kSomeSpotsNumbered, {{"drawn", kMostTies}, {"all", ties.size()}}))
          : "";
  return fmt::format(
      R"(<figure class="pair"><div class="table">{}{}{}</div><figcaption><span>{}</span><span>{}</span></figcaption>{}</figure>)",
      image(now.strip, now.alt), image(before.strip, before.alt), tied ? ties_overlay(ties) : "", now.caption,
      before.caption, drawn);
}

}  // namespace evet::report
