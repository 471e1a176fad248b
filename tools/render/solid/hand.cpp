#include "tools/render/solid/skin_look.h"
#include "tools/render/solid/texture_noise.h"
#include "tools/render/solid/things.h"

namespace evet::render::solid {

namespace {

// Fingers: place = (0 palm .. 1 tip, round with 0 upwards).
Surface bare_skin(const Touch& touch, const Colour& skin, const Colour& red, const Colour& nail,
                  std::uint32_t seed) {
  const Point& p = touch.at;
  Surface out;
  float t = touch.place[0];
  Colour c = blend<Colour>(
      skin, red,
      0.35F * step(-0.3F, 0.6F, wave(p[0] * 5, p[1] * 5, p[2] * 5, seed)) + 0.35F * step(0.8F, 1, t));
  // Creases of the joints, and the fine lines of the skin.
  for (const float joint : {0.42F, 0.72F})
    for (const float beside : {-0.012F, 0.01F}) c *= 1 - 0.25F * bell(t - joint + beside, 0.006F);
  c *= 1 - 0.1F * step(0.1F, 0.4F, wave(p[0] * 40, p[1] * 40, p[2] * 40, seed + 1));
  out.gloss = 0.15F;
  out.spread = 0.4F;
  if (luminance(nail) > 0 && t > 0.86F && t < 0.965F && std::abs(touch.place[1]) < 0.2F) {
    const float inside =
        step(0.2F, 0.17F, std::abs(touch.place[1])) * step(0.86F, 0.875F, t) * step(0.965F, 0.95F, t);
    c = blend<Colour>(c, nail, inside);
    out.gloss = 0.5F * inside;
  }
  out.albedo = c.min(0.9F);
  out.bleed = 0.3F;
  out.normal = bumped(touch, 0.12F, 0.02F, seed + 2);
  return out;
}

}  // namespace

Hand draw_hand(bool gloved, bool wild, Dice dice) {
  Hand hand;
  hand.finger = dice.between(0.1, 0.165);
  const std::uint32_t seed = dice.bits();
  if (gloved || (wild && dice.odds(0.3))) {
    // Nitrile, latex or vinyl in the colours they are sold in; any colour beyond nature.
    static const std::array<Colour, 7> kColours = {
        paint(215, 0.75F, 0.8F), paint(260, 0.5F, 0.6F),  paint(140, 0.6F, 0.6F), paint(40, 0.12F, 0.95F),
        paint(0, 0, 0.12F),      paint(195, 0.35F, 0.9F), paint(28, 0.8F, 0.95F)};
    Colour colour = wild && dice.odds(0.5)
                        ? paint(dice.between(0, 360), dice.between(0, 1), dice.between(0.1, 1))
                        : kColours[static_cast<std::size_t>(dice.below(7))];
    const float gloss = dice.between(0.05, 0.6), wrinkle = dice.between(0.05, 0.25);
    hand.look = [=](const Touch& touch) {
      Surface out;
      const Point& p = touch.at;
      out.albedo = colour * (1 + 0.12F * wave(p[0] * 9, p[1] * 9, p[2] * 9, seed));
      out.gloss = gloss;
      out.spread = 0.3F;
      out.bleed = 0.1F;
      out.normal = bumped(touch, wrinkle, 0.11F, seed + 1);
      return out;
    };
    return hand;
  }
  const float depth = dice.unit() * dice.unit();
  const Colour skin =
      blend<Colour>(paint(dice.between(12, 30), dice.between(0.25, 0.5), dice.between(0.8, 1)),
                    paint(dice.between(14, 26), 0.6F, dice.between(0.25, 0.5)), depth);
  const Colour red = skin * Colour(1.1F, 0.7F, 0.65F), nail = skin * Colour(1.15F, 1.02F, 1.02F);
  hand.look = [=](const Touch& touch) { return bare_skin(touch, skin, red, nail, seed); };
  return hand;
}

std::vector<Mesh> hand_below(const Hand& hand, Dice dice) {
  std::vector<Mesh> meshes;
  const float turn = dice.between(0, 2 * kPi), r = hand.finger;
  const Flat along(std::cos(turn), std::sin(turn)), across(-along[1], along[0]);
  const float shift = dice.between(-0.9, 0.3), spread = dice.between(0, 0.12);
  const Flat wrist = along * (shift - 1.5F), knuckles = along * shift;
  const auto at = [&](const Flat& p, float z) { return Point(p[0], p[1], z); };
  const float wide = 4.4F * r;
  Mesh palm = tube(smooth_curve({{at(wrist - along * 2, -0.5F), 0.62F * wide, 0.55F},
                                 {at(wrist, -0.5F), 0.75F * wide, 0.45F},
                                 {at(blend<Flat>(wrist, knuckles, 0.5F), -0.45F), wide, 0.42F},
                                 {at(knuckles, -1.1F * r), 0.95F * wide, 0.25F}},
                                5),
                   28);
  for (Flat& place : palm.places) place = {0.2F * place[0], 1};
  meshes.push_back(std::move(palm));
  for (int i = 0; i < 4; ++i) {
    const float place = static_cast<float>(i) - 1.5F;
    const float length = r * (i == 0 || i == 3 ? 10 : 12) * dice.between(0.85, 1.05),
                curl = dice.between(-0.1, 0.35);
    const Flat root = knuckles + across * (place * 2.1F * r) - along * (0.3F * r);
    const Flat way = (along + across * (place * spread)).normalized();
    meshes.push_back(
        tube(smooth_curve({{at(root, -1.15F * r), 1.05F * r, 1},
                           {at(root + way * (0.4F * length), -1.02F * r - 0.2F * curl * r), r, 1},
                           {at(root + way * (0.72F * length), -1.05F * r + curl * r), 0.94F * r, 1},
                           {at(root + way * length, -1.2F * r + 2.4F * curl * r), 0.72F * r, 0.85F}},
                          6),
             20));
  }
  for (Mesh& mesh : meshes) mesh.look = hand.look;
  return meshes;
}

Mesh finger_to(const Hand& hand, const Flat& tip, float tip_height, const Flat& from, Dice dice) {
  const float r = hand.finger;
  const Flat way = (tip - from).normalized(), aside(-way[1], way[0]);
  const float bow = dice.between(-0.25, 0.25);
  const auto at = [&](float back, float side, float z) {
    const Flat p = tip - way * back + aside * (side * bow);
    return Point(p[0], p[1], z);
  };
  Mesh mesh = tube(smooth_curve({{at(22 * r, 1, 3 * r), 1.3F * r, 1},
                                 {at(9 * r, 1, tip_height + 2.2F * r), 1.1F * r, 1},
                                 {at(4 * r, 0.6F, tip_height + 2.0F * r), r, 1},
                                 {at(0.6F * r, 0, tip_height + 0.75F * r), 0.75F * r, 0.85F}},
                                6),
                   20);
  mesh.look = hand.look;
  return mesh;
}

}  // namespace evet::render::solid
