#include "models/report/svg.h"

#include <cmath>
#include <cstdio>

namespace evet::models {
namespace {

std::string coordinate(double value) {
  char text[40];
  std::snprintf(text, sizeof text, "%.2f", value);
  std::string out = text;
  while (out.back() == '0') out.pop_back();
  if (out.back() == '.') out.pop_back();
  return out == "-0" ? "0" : out;
}

std::string attribute(const char* name, double value) {
  return std::string(" ") + name + "=\"" + coordinate(value) + "\"";
}

const char* stroke(Svg::Line kind) {
  switch (kind) {
    case Svg::Line::faint:
      return " stroke=\"currentColor\" stroke-opacity=\"0.25\"";
    case Svg::Line::dashed:
      return " stroke=\"currentColor\" stroke-dasharray=\"6 4\"";
    default:
      return " stroke=\"currentColor\" stroke-width=\"1.5\"";
  }
}

std::string slug(const std::string& title) {
  std::string out;
  for (const char c : title) {
    const bool word = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z');
    if (word)
      out += c;
    else if (!out.empty() && out.back() != '-')
      out += '-';
  }
  return out;
}

}  // namespace

std::string xml_escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else if (static_cast<unsigned char>(c) >= 0x20)
      out += c;
  }
  return out;
}

Svg::Svg(double width, double height, const std::string& title, const std::string& description) {
  const std::string id = slug(title), size = coordinate(width) + " " + coordinate(height);
  head_ =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + size + "\"" + attribute("width", width) +
      attribute("height", height) + " role=\"img\" aria-labelledby=\"title-" + id + " about-" + id +
      "\" font-family=\"system-ui, sans-serif\" style=\"max-width:100%;height:auto\">\n<title id=\"title-" +
      id + "\">" + xml_escaped(title) + "</title>\n<desc id=\"about-" + id + "\">" +
      xml_escaped(description) +
      "</desc>\n"
      // Only where the drawing is the whole document: inside a page the page's ink is taken.
      "<style>svg:root{color:#1b1b1b;background:#fff}@media (prefers-color-scheme:dark){svg:root{"
      "color:#eee;background:#1b1b1b}}</style>\n";
}

void Svg::line(double x1, double y1, double x2, double y2, Line kind) {
  body_ += "<line" + attribute("x1", x1) + attribute("y1", y1) + attribute("x2", x2) + attribute("y2", y2) +
           stroke(kind) + "/>\n";
}

void Svg::path(const std::vector<std::pair<double, double>>& points, Line kind) {
  body_ += "<polyline fill=\"none\" points=\"";
  for (const auto& [x, y] : points) body_ += coordinate(x) + "," + coordinate(y) + " ";
  body_ += std::string("\"") + stroke(kind) + "/>\n";
}

void Svg::dot(double x, double y, bool hollow) {
  body_ +=
      "<circle" + attribute("cx", x) + attribute("cy", y) + " r=\"4\"" +
      (hollow ? " fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"" : " fill=\"currentColor\"") +
      "/>\n";
}

void Svg::bar(double x, double y, double width, double height, bool hollow) {
  body_ +=
      "<rect" + attribute("x", x) + attribute("y", y) + attribute("width", width) +
      attribute("height", height) +
      (hollow ? " fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\"" : " fill=\"currentColor\"") +
      "/>\n";
}

void Svg::arrow(double x, double y, double direction) {
  body_ +=
      "<path d=\"M-7,-5 L2,0 L-7,5\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\" "
      "transform=\"translate(" +
      coordinate(x) + " " + coordinate(y) + ") rotate(" + coordinate(-direction) + ")\"/>\n";
}

void Svg::text(double x, double y, const std::string& words, Anchor anchor, double turn, double size) {
  const char* where = anchor == Anchor::start ? "start" : anchor == Anchor::end ? "end" : "middle";
  body_ += "<text" + attribute("x", x) + attribute("y", y) + attribute("font-size", size) +
           " text-anchor=\"" + where + "\" fill=\"currentColor\"";
  if (turn != 0)
    body_ += " transform=\"rotate(" + coordinate(turn) + " " + coordinate(x) + " " + coordinate(y) + ")\"";
  body_ += ">" + xml_escaped(words) + "</text>\n";
}

std::string Svg::str() const {
  return head_ + body_ + "</svg>\n";
}

std::vector<double> round_ticks(double low, double high) {
  const double span = high - low;
  std::vector<double> ticks;
  if (!(span > 0) || !std::isfinite(span)) return {low};
  double step = std::pow(10, std::floor(std::log10(span / 4)));
  for (const double factor : {2.0, 2.5, 2.0})
    if (span / step > 7) step *= factor;
  const double first = std::ceil(low / step - 1e-9);
  for (int i = 0; i < 12 && (first + i) * step <= high + 1e-9 * span; ++i)
    ticks.push_back((first + i) * step);
  return ticks;
}

}  // namespace evet::models
