#include "tools/render/solid/pattern.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "tools/render/solid/pattern_rules.h"
#include "tools/render/solid/shapes.h"

namespace evet::render::solid {

namespace {

struct Named {
  const char* name;
  Rule rule;
  float scale_low, scale_high, dark_low, dark_high;
};
constexpr Named kRules[] = {{"reaction-spots", reaction_spots, 0.07F, 0.15F, 0.22F, 0.42F},
                            {"reaction-maze", reaction_maze, 0.07F, 0.14F, 0.30F, 0.48F},
                            {"yellow-islands", yellow_islands, 0.08F, 0.15F, 0.40F, 0.58F},
                            {"stretched-noise", stretched_noise, 0.08F, 0.17F, 0.24F, 0.46F},
                            {"marble", marble, 0.06F, 0.12F, 0.28F, 0.48F},
                            {"merged-cells", merged_cells, 0.07F, 0.14F, 0.24F, 0.46F},
                            {"chained-spots", chained_spots, 0.08F, 0.15F, 0.22F, 0.45F},
                            {"side-rows", side_rows, 0.08F, 0.15F, 0.18F, 0.36F},
                            {"middle-band", middle_band, 0.08F, 0.15F, 0.22F, 0.42F},
                            {"few-huge", few_huge, 0.085F, 0.15F, 0.22F, 0.48F},
                            {"many-fine", many_fine, 0.08F, 0.16F, 0.15F, 0.32F},
                            {"broken-bars", broken_bars, 0.09F, 0.17F, 0.22F, 0.44F}};
constexpr float kCell = 1.0F / 320;

// The depth below which the wanted share of the belly lies.
float level_for(const Canvas& canvas, float share) {
  std::vector<float> depths;
  for (int r = 0; r < canvas.depth.rows; r += 2)
    for (int c = 0; c < canvas.depth.cols; c += 2)
      if (const float u = canvas.u_of(r); u > 0 && u < 1 && std::abs(canvas.x_of(c)) < canvas.half_skin)
        depths.push_back(canvas.depth(r, c));
  const auto place =
      depths.begin() + static_cast<std::ptrdiff_t>(share * static_cast<float>(depths.size() - 1));
  std::nth_element(depths.begin(), place, depths.end());
  return *place;
}

cv::Mat1f signed_distance(const Canvas& canvas, float level) {
  cv::Mat1f fine, inside, outside;
  cv::resize(canvas.depth, fine, {}, 2, 2, cv::INTER_LINEAR);
  const cv::Mat1b dark = fine < level;
  cv::distanceTransform(dark, inside, cv::DIST_L2, 5);
  cv::distanceTransform(~dark, outside, cv::DIST_L2, 5);
  cv::Mat1f distance = (outside - inside) * (canvas.cell / 2);
  cv::resize(distance, distance, canvas.depth.size(), 0, 0, cv::INTER_AREA);
  cv::GaussianBlur(distance, distance, {}, 0.8);
  return distance;
}

}  // namespace

Canvas::Canvas(float cell_size, float half_skin_width)
    : depth(static_cast<int>((kLastU - kFirstU) / cell_size),
            2 * static_cast<int>(kFarthestV * half_skin_width / cell_size), 0.F),
      cell(cell_size),
      first_u(kFirstU),
      half_skin(half_skin_width) {}

const std::vector<std::string>& rule_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const Named& one : kRules) all.emplace_back(one.name);
    return all;
  }();
  return names;
}

float Pattern::edge_distance(float u, float v, float years) const {
  const float row = within((u - kFirstU) / kCell - 0.5F, 0, static_cast<float>(distance.rows) - 1.001F);
  const float col = within(v * half_skin / kCell + 0.5F * static_cast<float>(distance.cols) - 0.5F, 0,
                           static_cast<float>(distance.cols) - 1.001F);
  const int r = static_cast<int>(row), c = static_cast<int>(col);
  const float fr = row - static_cast<float>(r), fc = col - static_cast<float>(c);
  float edge = blend(blend(distance(r, c), distance(r, c + 1), fc),
                     blend(distance(r + 1, c), distance(r + 1, c + 1), fc), fr) -
               spread * (1 - std::exp(-years / spread_years));
  for (const Dot& dot : dots) {
    if (years <= dot.born) continue;
    const float radius = dot.most * (1 - std::exp(-(years - dot.born) / 1.5F));
    edge = std::min(edge, std::hypot(u - dot.u, v * half_skin - dot.across) - radius);
  }
  return edge;
}

Pattern grow_pattern(const std::string& rule, float half_skin, const Dice& kind, const Dice& own) {
  const Named& named =
      *std::find_if(std::begin(kRules), std::end(kRules), [&](const Named& one) { return rule == one.name; });
  Dice manner_dice = kind.apart(1), dice = own.apart(1);
  const Manner manner{manner_dice.between(named.scale_low, named.scale_high), manner_dice.between(0.75, 1.6),
                      manner_dice.between(0, 0.25) * manner_dice.between(0.2, 1)};
  const float share = within(
      manner_dice.between(named.dark_low, named.dark_high) + 0.05F * manner_dice.gauss(), 0.08F, 0.62F);
  Canvas canvas(kCell, half_skin);
  named.rule(canvas, manner, own.apart(2));

  Pattern pattern;
  pattern.half_skin = half_skin;
  pattern.distance = signed_distance(canvas, level_for(canvas, share));
  pattern.spread = manner_dice.between(0.0005, 0.006);
  pattern.spread_years = manner_dice.between(3, 8);
  for (int n = dice.from(0, 14); n > 0; --n)
    pattern.dots.push_back({dice.between(-0.05, 1.05), dice.between(-1.1, 1.1) * half_skin,
                            dice.between(0, 8), dice.between(0.005, 0.017)});
  return pattern;
}

}  // namespace evet::render::solid
