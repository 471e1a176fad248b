#include "tools/render/solid/framing.h"

namespace evet::render::solid {

namespace {

struct Extent {
  Flat low = Flat::Constant(1e9F), high = Flat::Constant(-1e9F);
  void take(const Flat& p) {
    low = low.cwiseMin(p);
    high = high.cwiseMax(p);
  }
  Flat size() const { return high - low; }
};

Extent belly_extent(const Body& body, const Lens& lens) {
  Extent extent;
  for (int i = 0; i <= 24; ++i)
    for (const float s : {-0.5F, -0.3F, 0.0F, 0.3F, 0.5F})
      extent.take(lens.pixel_of(body.at(static_cast<float>(i) / 24, s)));
  return extent;
}

void zoom_to(Lens& lens, const Body& body, float wanted_px) {
  for (int i = 0; i < 3; ++i)
    lens.set_focal(lens.focal() * wanted_px /
                   std::max(1e-3F, static_cast<float>(length_of(midline_of(body, lens)))));
}

// The end that is to be cut off goes over the nearest edge of the picture.
void push_over_edge(Lens& lens, const Body& body, const Plan& plan, const Flat& size, Dice& dice) {
  const float end = plan.cut_head ? 0.0F : 1.0F, cut = plan.cut_head ? plan.cut_share : 1 - plan.cut_share;
  const Flat at = lens.pixel_of(body.at(cut, 0)),
             way = lens.pixel_of(body.at(end, 0)) - lens.pixel_of(body.at(0.5F, 0));
  const Extent extent = belly_extent(body, lens);
  const int axis = std::abs(way[0]) * size[1] > std::abs(way[1]) * size[0] ? 0 : 1;
  Flat by;
  by[axis] = (way[axis] > 0 ? size[axis] : 0) - at[axis];
  const float room = size[1 - axis] - extent.size()[1 - axis];
  by[1 - axis] =
      std::max(0.0F, room) * dice.between(0.1, 0.9) + std::min(0.0F, room / 2) - extent.low[1 - axis];
  lens.shift(by);
}

}  // namespace

std::vector<cv::Point2d> midline_of(const Body& body, const Lens& lens) {
  std::vector<cv::Point2d> line;
  for (int i = 0; i <= 64; ++i) {
    const Flat p = lens.pixel_of(body.at(static_cast<float>(i) / 64, 0));
    line.emplace_back(p[0], p[1]);
  }
  return line;
}

double length_of(const std::vector<cv::Point2d>& line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i) sum += cv::norm(line[i] - line[i - 1]);
  return sum;
}

Lens frame(Body& body, const Plan& plan, const Limits& limits, cv::Size size, float& turn, Dice dice) {
  const float distance = dice.between(3, 10), bulge = dice.between(-0.05, 0.05) * (plan.gentle ? 0.4F : 1);
  const Flat full(static_cast<float>(size.width), static_cast<float>(size.height));
  float share = plan.length_share;
  for (int attempt = 0;; ++attempt) {
    if (attempt > 0) {
      const float other = dice.between(-limits.turn, limits.turn);
      body.turn_by(radians(turn - other));  // turns are clockwise, angles are not
      turn = other;
    }
    if (attempt % 6 == 5) share = std::max(static_cast<float>(limits.length_share.low), share * 0.93F);
    Lens lens(size, radians(plan.tilt), plan.tilt_towards, distance, bulge);
    lens.set_focal(share * lens.diagonal() * distance);
    zoom_to(lens, body, share * lens.diagonal());
    if (plan.cut_share > 0) {
      push_over_edge(lens, body, plan, full, dice);
      return lens;
    }
    const Extent extent = belly_extent(body, lens);
    const Flat room = full - extent.size();
    const float margin = 0.008F * lens.diagonal();
    if ((room[0] < 2 * margin || room[1] < 2 * margin) && attempt < 60) continue;
    // Anywhere that fits, nearer the middle more often.
    const auto place = [&](int axis) {
      const float t = 0.5F * (dice.unit() + dice.unit());
      return margin + (room[axis] - 2 * margin) * t - extent.low[axis];
    };
    const float x = place(0), y = place(1);
    lens.shift({x, y});
    zoom_to(lens, body, share * lens.diagonal());
    const Extent now = belly_extent(body, lens);
    const auto inward = [&](int axis) {
      return std::max(0.0F, margin - now.low[axis]) - std::max(0.0F, now.high[axis] - full[axis] + margin);
    };
    lens.shift({inward(0), inward(1)});
    return lens;
  }
}

}  // namespace evet::render::solid
