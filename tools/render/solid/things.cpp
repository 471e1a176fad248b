#include "tools/render/solid/things.h"

#include <memory>
#include <optional>

#include "tools/render/solid/ground_photos.h"
#include "tools/render/solid/skin_look.h"
#include "tools/render/solid/texture_noise.h"

namespace evet::render::solid {

Mesh leaf(const Flat& at, float turn, float length, float height, Dice dice) {
  constexpr int kRows = 18, kColumns = 9;
  const float width = length * dice.between(0.15, 0.4), blunt = dice.between(0.6, 1.3),
              bend = dice.between(-0.3, 0.3), cup = dice.between(-0.4, 0.6),
              teeth = dice.odds(0.4) ? dice.between(0.02, 0.1) : 0;
  Mesh mesh;
  for (int r = 0; r < kRows; ++r)
    for (int c = 0; c < kColumns; ++c) {
      const float t = static_cast<float>(r) / (kRows - 1), q = 2 * static_cast<float>(c) / (kColumns - 1) - 1;
      const float half = width * std::pow(std::sin(kPi * std::pow(t, blunt)) + 1e-4F, 0.8F) *
                         (1 + teeth * (r % 2 ? 1.0F : -1.0F));
      const float x = (t - 0.5F) * length, y = q * half + bend * length * t * (1 - t);
      mesh.points.emplace_back(at[0] + x * std::cos(turn) - y * std::sin(turn),
                               at[1] + x * std::sin(turn) + y * std::cos(turn),
                               height + 0.12F * length * cup * (q * q - 0.4F) * std::sin(kPi * t) +
                                   0.05F * length * std::sin(2.5F * t + cup * 5));
      mesh.places.emplace_back(t, q);
    }
  mesh.join_rows(kRows, kColumns);
  mesh.smooth_normals();
  const Colour base = dice.odds(0.5)
                          ? paint(dice.between(55, 125), dice.between(0.25, 0.65), dice.between(0.25, 0.75))
                          : paint(dice.between(12, 50), dice.between(0.4, 0.9), dice.between(0.25, 0.8));
  const Colour vein = base * dice.between(0.5, 1.8);
  const std::uint32_t seed = dice.bits();
  const float gloss = dice.between(0, 0.4);
  mesh.look = [=](const Touch& touch) {
    Surface out;
    const float t = touch.place[0], q = touch.place[1];
    const float ribs =
        std::max(bell(q, 0.05F), 0.6F * bell(std::fmod(t * 9 - 2.5F * std::abs(q) + 9, 1.0F) - 0.5F, 0.08F));
    out.albedo =
        blend<Colour>(Colour(base * (1 + 0.25F * rough(t * 8, q * 4, 3, seed))), vein, 0.7F * ribs).min(0.9F);
    out.gloss = gloss;
    out.spread = 0.35F;
    out.bleed = 0.3F;
    out.normal = touch.normal;
    return out;
  };
  return mesh;
}

Mesh blade(const Flat& from, const Flat& to, float height, Dice dice) {
  const Flat way = to - from, aside = Flat(-way[1], way[0]).normalized();
  const float width = dice.between(0.012, 0.035), bow = dice.between(-0.2, 0.2);
  Mesh mesh;
  constexpr int kRows = 16;
  for (int r = 0; r < kRows; ++r)
    for (int c = 0; c < 3; ++c) {
      const float t = static_cast<float>(r) / (kRows - 1), q = static_cast<float>(c) - 1;
      const Flat p = from + way * t + aside * (bow * 4 * t * (1 - t) + q * width * std::sqrt(1.02F - t));
      mesh.points.emplace_back(p[0], p[1], height + 0.03F * std::sin(5 * t) + (c == 1 ? -0.008F : 0));
      mesh.places.emplace_back(t, q);
    }
  mesh.join_rows(kRows, 3);
  mesh.smooth_normals();
  const Colour colour = paint(dice.between(45, 115), dice.between(0.25, 0.65), dice.between(0.35, 0.8));
  mesh.look = [=](const Touch& touch) {
    Surface out;
    out.albedo = colour * (1 + 0.15F * std::sin(touch.place[1] * 9));
    out.normal = touch.normal;
    out.gloss = 0.15F;
    out.bleed = 0.3F;
    return out;
  };
  return mesh;
}

Mesh slab(const Flat& at, float turn, const Flat& half, float thickness,
          std::function<Surface(const Touch&)> look) {
  Mesh mesh;
  const auto corner = [&](float x, float y, float z) {
    mesh.points.emplace_back(at[0] + x * std::cos(turn) - y * std::sin(turn),
                             at[1] + x * std::sin(turn) + y * std::cos(turn), z);
    mesh.places.emplace_back(x, y);
  };
  const std::array<Flat, 4> rim = {Flat(-half[0], -half[1]), Flat(half[0], -half[1]), half,
                                   Flat(-half[0], half[1])};
  for (const Flat& p : rim) corner(p[0], p[1], thickness);
  mesh.triangles = {{0, 1, 2}, {0, 2, 3}};
  for (unsigned i = 0; i < 4; ++i) {
    const Flat &a = rim[i], &b = rim[(i + 1) % 4];
    const auto first = static_cast<unsigned>(mesh.points.size());
    for (const float z : {thickness, 0.0F}) corner(a[0], a[1], z), corner(b[0], b[1], z);
    mesh.triangles.push_back({first, first + 2, first + 1});
    mesh.triangles.push_back({first + 1, first + 2, first + 3});
  }
  mesh.smooth_normals();
  mesh.look = std::move(look);
  return mesh;
}

Mesh ruler(const Flat& at, float turn, Dice dice) {
  const Flat half(dice.between(0.8, 2.2), dice.between(0.12, 0.3));
  const Colour base = paint(dice.between(30, 70), dice.between(0, 0.7), dice.between(0.6, 1)),
               ink = paint(0, dice.odds(0.2) ? 0.8F : 0, 0.1F);
  const float mm = dice.between(0.014, 0.025);
  return slab(at, turn, half, 0.03F, [=](const Touch& touch) {
    Surface out;
    const float x = touch.place[0] + half[0], n = std::round(x / mm), off = std::abs(x / mm - n);
    const float long_mark = std::fmod(n, 10.0F) < 0.5F ? 0.9F : std::fmod(n, 5.0F) < 0.5F ? 0.6F : 0.4F;
    const float from_edge = half[1] - touch.place[1];
    const bool mark = from_edge < long_mark * 0.22F && off < 0.16F;
    const float digit = wave(x / mm * 0.6F, touch.place[1] * 40, 5);
    const bool figure = std::abs(from_edge - 0.3F) < 0.04F && std::fmod(n, 10.0F) < 2.5F && digit > 0;
    out.albedo = mark || figure ? ink : base;
    out.gloss = 0.3F;
    out.spread = 0.2F;
    out.normal = touch.normal;
    return out;
  });
}

Mesh pebble(const Flat& at, float radius, float base, Dice dice) {
  Mesh mesh;
  constexpr int kRows = 12, kColumns = 20;
  const std::uint32_t seed = dice.bits();
  const float flat = dice.between(0.4, 0.9), along = dice.between(0.8, 1.3);
  for (int r = 0; r < kRows; ++r)
    for (int c = 0; c < kColumns; ++c) {
      const float a = kPi * static_cast<float>(r) / (kRows - 1),
                  b = 2 * kPi * static_cast<float>(c) / (kColumns - 1);
      Point p(std::sin(a) * std::cos(b) * along, std::sin(a) * std::sin(b), std::cos(a));
      p *= radius * (1 + 0.2F * wave(p[0] * 1.6F, p[1] * 1.6F, p[2] * 1.6F, seed));
      mesh.points.emplace_back(at[0] + p[0], at[1] + p[1], base + (p[2] + radius * 0.7F) * flat);
      mesh.places.emplace_back(a, b);
    }
  mesh.join_rows(kRows, kColumns);
  mesh.smooth_normals();
  const Colour colour = paint(dice.between(0, 60), dice.between(0, 0.35), dice.between(0.25, 0.85));
  const float gloss = dice.between(0, 0.6);
  mesh.look = [=](const Touch& touch) {
    Surface out;
    const Point p = touch.at * 14;
    out.albedo = (colour * (1 + 0.3F * wave(p[0], p[1], p[2], seed + 1) +
                            0.15F * wave(p[0] * 5, p[1] * 5, p[2] * 5, seed + 2)))
                     .min(0.9F);
    out.gloss = gloss;
    out.normal = bumped(touch, 0.15F, 0.05F, seed + 3);
    return out;
  };
  return mesh;
}

Mesh stick(const Flat& from, const Flat& to, float radius, float base, Dice dice) {
  const auto at = [&](float t, float z) {
    const Flat p = blend<Flat>(from, to, t) + Flat(dice.gauss(), dice.gauss()) * 0.03F;
    return Point(p[0], p[1], base + z);
  };
  Mesh mesh = tube(smooth_curve({{at(0, radius), radius, 1},
                                 {at(0.35F, radius), radius, 1},
                                 {at(0.7F, radius), 0.9F * radius, 1},
                                 {at(1, radius), 0.7F * radius, 1}},
                                5),
                   12);
  const Colour colour = dice.odds(0.5)
                            ? paint(dice.between(15, 45), dice.between(0.2, 0.6), dice.between(0.2, 0.7))
                            : paint(dice.between(0, 360), dice.between(0, 1), dice.between(0.1, 1));
  const std::uint32_t seed = dice.bits();
  const float gloss = dice.between(0, 0.5);
  mesh.look = [=](const Touch& touch) {
    Surface out;
    out.albedo = (colour * (1 + 0.3F * rough(touch.place[0] * 6, touch.place[1] * 9, 3, seed))).min(0.9F);
    out.gloss = gloss;
    out.normal = touch.normal;
    return out;
  };
  return mesh;
}

namespace {

// A picture or a page lying about, where there are photographs to print on it.
std::optional<Mesh> print(const Flat& at, Dice dice) {
  const auto photo = GroundPhoto::draw(dice.apart(1));
  if (!photo) return std::nullopt;
  const Flat half(dice.between(0.2, 0.9), dice.between(0.15, 0.6));
  const float gloss = dice.between(0, 0.5), rim = dice.between(0, 0.05);
  return slab(at, dice.between(0, 2 * kPi), half, 0.012F,
              [=, shown = std::make_shared<GroundPhoto>(*photo)](const Touch& touch) {
                Surface out;
                const Flat& p = touch.place;
                const bool edge = half[0] - std::abs(p[0]) < rim || half[1] - std::abs(p[1]) < rim;
                out.albedo = edge ? Colour::Constant(0.8F) : shown->at(2 * p[0], 2 * p[1]);
                out.gloss = gloss;
                out.normal = touch.normal;
                return out;
              });
}

}  // namespace

std::vector<Mesh> things_beside(const Body& body, const Plan& plan, float level, Dice dice) {
  std::vector<Mesh> meshes;
  // A place some way off the trunk.
  const auto place = [&](double least, double most) {
    const float u = dice.between(-0.3, 1.3), side = dice.side();
    const Point p = body.spine(u) + body.side(u) * (side * dice.between(least, most));
    return Flat(p[0], p[1]);
  };
  const float off = body.half_width() + 0.15F;
  if (dice.odds(0.25 * plan.clutter + 0.05))
    meshes.push_back(ruler(place(off + 0.3, 0.9), dice.between(0, 2 * kPi), dice.apart(1)));
  if (!meshes.empty())
    for (Point& p : meshes[0].points) p[2] += level;
  if (dice.odds(0.35 * plan.clutter))
    if (auto page = print(place(off + 0.3, 1.2), dice.apart(2))) {
      for (Point& p : page->points) p[2] += level;
      meshes.push_back(std::move(*page));
    }
  const int count = static_cast<int>(plan.clutter * dice.between(0, 9));
  for (int i = 0; i < count; ++i) {
    Dice own = dice.apart(100 + static_cast<std::uint64_t>(i));
    switch (own.below(4)) {
      case 0:
        meshes.push_back(
            leaf(place(off, 1.4), own.between(0, 2 * kPi), own.between(0.2, 0.8), level + 0.03F, own));
        break;
      case 1:
        meshes.push_back(pebble(place(off + 0.1, 1.5), own.between(0.03, 0.14), level, own));
        break;
      case 2: {
        const Flat a = place(off, 1.5);
        meshes.push_back(blade(a, a + Flat(own.gauss(), own.gauss()) * 0.5F, level + 0.03F, own));
        break;
      }
      default: {
        const Flat a = place(off + 0.1, 1.6);
        meshes.push_back(
            stick(a, a + Flat(own.gauss(), own.gauss()) * 0.5F, own.between(0.012, 0.06), level, own));
      }
    }
  }
  for (Mesh& mesh : meshes) mesh.covers = false;
  return meshes;
}

std::vector<Mesh> things_over(const Body& body, const Plan& plan, const HeightOver& height_over,
                              const Hand& hand, Dice dice) {
  std::vector<Mesh> meshes;
  const int count = dice.from(1, 4);
  for (int i = 0; i < count; ++i) {
    Dice own = dice.apart(static_cast<std::uint64_t>(i));
    const float u = own.between(-0.1, 1.1), across = own.between(-1, 1) * body.half_width();
    const Point p = body.spine(u) + body.side(u) * across;
    const Flat at(p[0], p[1]);
    const float over = std::max(0.02F, height_over(at)) + 0.015F;
    switch (own.below(4)) {
      case 0:
        meshes.push_back(leaf(at, own.between(0, 2 * kPi), own.between(0.15, 0.55), over + 0.02F, own));
        break;
      case 1: {
        const float turn = own.between(0, 2 * kPi);
        const Flat way(std::cos(turn), std::sin(turn));
        meshes.push_back(blade(at - way * 0.8F, at + way * own.between(0.3, 0.9), over + 0.01F, own));
        break;
      }
      case 2: {
        const float turn = own.between(0, 2 * kPi);
        const Flat way(std::cos(turn), std::sin(turn));
        meshes.push_back(
            stick(at - way * 0.6F, at + way * own.between(0.2, 0.6), own.between(0.008, 0.02), over, own));
        break;
      }
      default: {
        const float side = own.side(), edge = own.between(0.5, 1.3) * body.half_width();
        const Point tip = body.spine(u) + body.side(u) * (side * edge);
        const Point from = tip + body.side(u) * side + body.along(u) * own.between(-0.8, 0.8);
        meshes.push_back(finger_to(hand, {tip[0], tip[1]}, std::max(0.05F, height_over({tip[0], tip[1]})),
                                   {from[0], from[1]}, own));
      }
    }
  }
  return plan.covered > 0 ? std::move(meshes) : std::vector<Mesh>();
}

std::vector<Mesh> things_instead(const Hand& hand, Dice dice) {
  std::vector<Mesh> meshes;
  switch (dice.below(3)) {
    case 0:
      for (int n = dice.from(1, 3); n > 0; --n)
        meshes.push_back(leaf(Flat(dice.gauss(), dice.gauss()) * 0.25F, dice.between(0, 2 * kPi),
                              dice.between(0.7, 1.7), 0.06F, dice.apart(static_cast<std::uint64_t>(n))));
      break;
    case 1:
      meshes = hand_below(hand, dice);
      for (Mesh& mesh : meshes)
        for (Point& p : mesh.points) p[2] += 0.3F;
      break;
    default:
      for (int n = dice.from(1, 6); n > 0; --n)
        meshes.push_back(pebble(Flat(dice.gauss(), dice.gauss()) * 0.4F, dice.between(0.1, 0.4), 0,
                                dice.apart(static_cast<std::uint64_t>(n))));
  }
  return meshes;
}

}  // namespace evet::render::solid
