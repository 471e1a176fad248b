#include "tools/render/solid/limbs.h"

#include <Eigen/Geometry>
#include <array>

namespace evet::render::solid {

namespace {

enum class Lie { free, along_body, across };

struct Pose {
  Lie lie = Lie::free;
  float upper = 0, lower = 0, hand = 0;  // angles from straight out, towards the head, radians
  float raise = 0;                       // of the hand over the ground
};

Pose draw_pose(bool arm, bool across, bool gentle, Dice& dice) {
  Pose pose;
  const float way = arm ? 1.0F : -1.0F;
  if (across) {
    pose.lie = Lie::across;
    pose.upper = radians(dice.between(-50, 50));
    pose.lower = pose.upper + way * radians(dice.between(110, 170));
    pose.hand = pose.lower + radians(dice.between(-30, 30));
    return pose;
  }
  const int kind = dice.below(gentle ? 3 : 5);
  if (kind == 0) {  // held to the body, to the front or to the back
    pose.lie = Lie::along_body;
    const float end = dice.odds(arm ? 0.4 : 0.25) ? 1.0F : -1.0F;
    pose.upper = end * radians(dice.between(55, 85));
    pose.lower = pose.upper + radians(dice.between(-25, 25));
  } else {
    pose.upper = radians(arm ? dice.between(-65, 55) : dice.between(-60, 60));
    pose.lower = pose.upper + way * radians(kind < 3 ? dice.between(10, 70) : dice.between(-30, 130));
  }
  pose.hand = pose.lower + radians(dice.between(-45, 45));
  if (dice.odds(0.3)) pose.raise = dice.between(0, 0.12);
  return pose;
}

Mesh part_tube(const std::vector<Knot>& knots, int sides, Part part, float from, float to) {
  Mesh mesh = tube(knots, sides);
  mesh.part = part;
  for (Flat& place : mesh.places) place[0] = blend(from, to, place[0]);
  return mesh;
}

struct Site {
  bool arm;
  float side;  // +-1
};

// Fingers or toes at the end of a limb; `way` gives a direction in the plane from an angle.
template <class Way>
void add_digits(const Build& b, const Posture& posture, const Pose& pose, bool arm, const Knot& palm,
                const Way& way, const HeightOver& height_over, Dice& dice, std::vector<Mesh>& out) {
  const Part part = arm ? Part::arm : Part::leg;
  const float r = b.limb_radius;
  const int digits = arm ? b.fingers : b.toes;
  const float fan = radians(dice.between(28, 58)), curl = dice.between(-0.5, 0.5);
  for (int d = 0; d < digits; ++d) {
    const float place = digits > 1 ? 2 * static_cast<float>(d) / static_cast<float>(digits - 1) - 1 : 0;
    const float angle = pose.hand + place * fan + 0.12F * dice.gauss();
    const float reach = b.digit_length * (1 - 0.35F * place * place) * dice.between(0.85, 1.1);
    const Point from = palm.at + way(pose.hand + 1.5F * (place > 0 ? 1 : -1)) * (0.55F * r * std::abs(place));
    const float thin = r * dice.between(0.26, 0.36);
    std::vector<Knot> digit = smooth_curve({{from, 1.2F * thin, 0.9F},
                                            {from + way(angle) * (0.5F * reach), thin, 0.9F},
                                            {from + way(angle + 0.4F * curl) * reach, 0.55F * thin, 0.9F}},
                                           3);
    for (Knot& k : digit) {
      const float over = height_over({k.at[0], k.at[1]}), own = k.radius;
      if (pose.lie == Lie::across && over >= 0)
        k.at[2] = over + own;
      else
        k.at[2] =
            posture.on_glass ? kPane - own : std::max(own, palm.at[2] - (pose.raise > 0 ? 0 : 0.5F * r));
      if (pose.lie != Lie::across && over >= 0) k.at[2] = std::min(k.at[2], over - 1.3F * own);
    }
    out.push_back(part_tube(digit, 7, part, 1, 2));
  }
}

void add_limb(const Animal& animal, const Body& body, const Posture& posture, const Pose& pose,
              const Site& site, const HeightOver& height_over, Dice dice, std::vector<Mesh>& out) {
  const Build& b = animal.build;
  const float u = site.arm ? dice.between(0.04, 0.1) : dice.between(0.9, 0.97);
  const Point root = body.at(u, site.side * 0.6F);
  const Point out_way = body.side(u) * site.side, head_way = -body.along(u);
  const auto way = [&](float angle) { return Point(out_way * std::cos(angle) + head_way * std::sin(angle)); };
  const float length = (site.arm ? b.arm_length : b.leg_length) * dice.between(0.92, 1.06), r = b.limb_radius;
  const Point inside = root - out_way * (0.5F * b.half_width) * 0.6F;
  const Point elbow = root + way(pose.upper) * (0.42F * length),
              wrist = elbow + way(pose.lower) * (0.38F * length);
  const Point palm = wrist + way(pose.hand) * (0.12F * length);
  const float thick = site.arm ? 1.0F : 1.12F;
  std::vector<Knot> path = smooth_curve({{inside, 1.35F * r * thick, 0.95F},
                                         {root, 1.25F * r * thick, 0.95F},
                                         {elbow, 0.95F * r * thick, 0.9F},
                                         {wrist, 0.72F * r, 0.8F},
                                         {palm, 0.95F * r, 0.5F}},
                                        5);
  const float rest = posture.on_glass ? kPane : 0;
  const auto settle = [&](Knot& k, float t) {
    const float own = k.radius * k.flat;
    const float lying = posture.on_glass ? rest - own : rest + own + pose.raise * step(0.3F, 1, t);
    const float over = height_over({k.at[0], k.at[1]});
    if (pose.lie == Lie::across && t > 0.2F)
      k.at[2] = std::max(over >= 0 ? over + 0.8F * own : lying, blend(root[2], lying, step(0.2F, 0.6F, t)));
    else
      k.at[2] = blend(root[2], lying, step(0.12F, 0.6F, t));
    // Limbs that are not laid over the trunk pass beneath it.
    if (pose.lie != Lie::across && over >= 0)
      k.at[2] = std::min(k.at[2], over - (t > 0.35F ? 1.3F : 1.05F) * own);
  };
  for (std::size_t i = 0; i < path.size(); ++i)
    settle(path[i], static_cast<float>(i) / static_cast<float>(path.size() - 1));
  if (pose.lie == Lie::across)  // drape evenly
    for (int pass = 0; pass < 2; ++pass)
      for (std::size_t i = 4; i + 1 < path.size(); ++i)
        path[i].at[2] = std::max(path[i].at[2], 0.5F * (path[i - 1].at[2] + path[i + 1].at[2]));
  const Part part = site.arm ? Part::arm : Part::leg;
  out.push_back(part_tube(path, 14, part, 0, 1));
  add_digits(b, posture, pose, site.arm, path.back(), way, height_over, dice, out);
}

}  // namespace

std::vector<Mesh> limbs_of(const Animal& animal, const Body& body, const Posture& posture, const Plan& plan,
                           int across, const HeightOver& height_over, const Dice& dice) {
  std::vector<Mesh> meshes;
  if (!animal.build.has_limbs) return meshes;
  constexpr std::array<Site, 4> kSites = {{{true, -1}, {true, 1}, {false, -1}, {false, 1}}};
  Dice order = dice.apart(9);
  const int first = order.below(4);
  for (int i = 0; i < 4; ++i) {
    Dice own = dice.apart(static_cast<std::uint64_t>(i));
    const Site& site = kSites[static_cast<std::size_t>(i)];
    const bool over = (i - first + 4) % 4 < across;
    const Pose pose = draw_pose(site.arm, over, plan.gentle, own);
    add_limb(animal, body, posture, pose, site, height_over, own.apart(1), meshes);
  }
  return meshes;
}

}  // namespace evet::render::solid
