// A small writer of SVG drawings that can be read by people and by screen readers.
//
// Ink is currentColor, so that a drawing set into a page takes the page's ink, and as a file of its own
// follows the reader's choice of light or dark. Nothing is told by colour alone. Lengths are in pixels.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "models/base/figure_text.h"

namespace evet::models {

class Svg {
 public:
  Svg(double width, double height, const std::string& title, const std::string& description);

  enum class Line { plain, faint, dashed };
  enum class Anchor { start, middle, end };
  void line(double x1, double y1, double x2, double y2, Line kind = Line::plain);
  void path(const std::vector<std::pair<double, double>>& points, Line kind = Line::plain);
  void dot(double x, double y, bool hollow = false);
  void bar(double x, double y, double width, double height, bool hollow);
  // A small arrow head at the end of a bar that has no end; `direction` in degrees, 0 to the right, 90 up.
  void arrow(double x, double y, double direction);
  void text(double x, double y, const std::string& words, Anchor anchor = Anchor::middle, double turn = 0,
            double size = 12);
  std::string str() const;

 private:
  std::string head_, body_;
};

// Places on an axis from `low` to `high` at round figures, three to eight of them.
std::vector<double> round_ticks(double low, double high);
std::string xml_escaped(const std::string& text);

}  // namespace evet::models
