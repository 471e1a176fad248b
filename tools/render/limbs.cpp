#include "tools/render/limbs.h"

namespace evet::render {

namespace {

Vec3 at_height(Vec2 p, float z) {
  return {p.x, p.y, z};
}

// Where a hand or foot is, and how large.
struct Hand {
  Vec2 at, reach;
  float z, thick, size, id;
  bool hind, over;
};

void draw_digits(const Hand& h, const Camera& camera, Rng& own, std::vector<Surface>& surfaces) {
  const int digits = h.hind ? 5 : 4;
  const float spread = own.uniformf(0.25, 0.5),
              digit_length = (h.hind ? 0.075f : 0.065f) * h.size * own.uniformf(0.85, 1.2);
  for (int d = 0; d < digits; ++d) {
    const float middle = static_cast<float>(digits - 1) / 2;
    const float angle = (static_cast<float>(d) - middle) * spread + own.uniformf(-0.1, 0.1);
    const float reach_d = digit_length * (1 - 0.12f * std::abs(static_cast<float>(d) - middle));
    const Vec2 way = rotate(h.reach, angle),
               base = h.at + h.reach * (0.02f * h.size) + way * (h.thick * 0.5f);
    const Vec2 bend = rotate(way, own.uniformf(-0.3, 0.3));
    const float tip_z = std::max(0.006f, h.z - (h.over ? 0.008f : 0.0f));
    surfaces.push_back(tube_surface(
        {{at_height(base, h.z), h.thick * 0.33f},
         {at_height(base + way * (reach_d * 0.5f), h.z), h.thick * 0.28f},
         {at_height(base + way * (reach_d * 0.5f) + bend * (reach_d * 0.5f), tip_z), h.thick * 0.15f}},
        camera, Part::limb, h.id + 1 + static_cast<float>(d)));
  }
}

}  // namespace

Limbs draw_limbs(const Individual& animal, const Body& body, const Camera& camera, int across, Rng rng) {
  Limbs limbs;
  std::vector<Surface>& surfaces = limbs.surfaces;
  for (int i = 0; i < across; ++i) limbs.folded[static_cast<std::size_t>(rng.below(4))] = true;
  for (int limb = 0; limb < 4; ++limb) {
    Rng own = rng.fork(static_cast<std::uint64_t>(limb) + 10);
    const bool hind = limb >= 2;
    const float side = limb % 2 == 0 ? -1.0f : 1.0f;
    const bool over = limbs.folded[static_cast<std::size_t>(limb)];
    const Ring ring = body.ring_at(hind ? own.uniform(0.93, 0.97) : own.uniform(0.05, 0.10));
    const float size = animal.limb_thickness * animal.half_width / 0.13f;
    const float upper = (hind ? 0.13f : 0.12f) * own.uniformf(0.9, 1.1) * size,
                lower = (hind ? 0.12f : 0.12f) * own.uniformf(0.9, 1.1) * size;
    const Vec2 out = ring.side * side, tail = ring.tangent;
    const float thick = (hind ? 0.036f : 0.028f) * size;
    const Vec2 root = ring.centre + out * (ring.half_width * 0.7f);
    const float root_z = ring.height_of_centre * 0.7f;
    // Elbows point to the tail, knees to the head, mostly.
    const float first = own.uniformf(-0.6, 0.9) * (hind ? -1.0f : 1.0f), second = own.uniformf(-1.1, 1.1);
    Vec2 elbow = root + rotate(out, side * first) * (upper + 0.25f * ring.half_width);
    Vec2 hand = elbow + rotate(out, side * (first * 0.3f + second)) * lower;
    float elbow_z = std::max(thick, root_z * 0.7f), hand_z = thick * 0.7f;
    Vec2 reach = (hand - elbow) * (1 / std::max(1e-4f, length(hand - elbow)));
    if (over) {
      // Up the side and over the belly.
      const float along = (hind ? -1.0f : 1.0f) * own.uniformf(0.02, 0.16);
      elbow = ring.centre + out * (ring.half_width * own.uniformf(1.05, 1.25)) + tail * (along * 0.5f);
      const Ring under = body.ring_at(ring.u + along);
      const float place = own.uniformf(-0.2, 0.65);
      hand = under.centre + under.side * (side * place * under.half_width);
      const float top = under.height_of_centre + under.half_height;
      elbow_z = top * 0.75f;
      hand_z = top + thick * 0.7f;
      reach = (hand - elbow) * (1 / std::max(1e-4f, length(hand - elbow)));
    }
    const float id = static_cast<float>(limb) * 8;
    surfaces.push_back(tube_surface(
        {{at_height(root, root_z), thick * 1.25f},
         {at_height(root + (elbow - root) * 0.5f, (root_z + elbow_z) / 2), thick * 1.05f},
         {at_height(elbow, elbow_z), thick * 0.85f},
         {at_height(elbow + (hand - elbow) * 0.5f, over ? std::max(elbow_z, hand_z) : (elbow_z + hand_z) / 2),
          thick * 0.78f},
         {at_height(hand, hand_z), thick * 0.72f},
         {at_height(hand + reach * (0.022f * size), hand_z), thick * 0.85f}},
        camera, Part::limb, id));
    draw_digits({hand, reach, hand_z, thick, size, id, hind, over}, camera, own, surfaces);
  }
  return limbs;
}

}  // namespace evet::render
