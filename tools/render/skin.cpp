#include "tools/render/skin.h"

#include "tools/render/noise.h"

namespace evet::render {

namespace {
// Length of one unit of v in belly lengths, for noises that should look round.
constexpr float kV = kCellsPerV / kCellsPerLength;

// Round dots: 1 inside, 0 outside, from cells of a given pitch.
float dots(float x, float y, std::uint32_t seed, float radius, float softness, float kept) {
  const CellNoise cell = cell_noise(x, y, seed);
  if (hash_unit(cell.id, 5) > kept) return 0;
  const float r = radius * (0.5f + hash_unit(cell.id, 6));
  return clamp01((r - cell.nearest) / softness + 0.5f);
}
}  // namespace

Skin::Skin(const Individual& animal, const SkinLook& look, double years, float footprint)
    : animal_(animal),
      look_(look),
      field_(animal.pattern.at_years(years)),
      footprint_(footprint),
      seed_(static_cast<std::uint32_t>(animal.seed)) {}

Vec3 Skin::belly(float u, float v) const {
  const SkinColours& c = look_.colours;
  const float patch = fractal_noise(u * animal_.patch_scale, v * kV * animal_.patch_scale, seed_, 3, 0.6f,
                                    footprint_ * animal_.patch_scale);
  const float grain = fractal_noise(u * 150, v * kV * 150, seed_ + 3, 2, 0.6f, footprint_ * 150);
  Vec3 colour = mix(c.ground, c.ground_patch, clamp01(animal_.patchiness * (0.5f + 0.9f * patch)));
  colour = colour * (1 + 0.09f * grain);
  if (look_.small_newt) {
    const float k = look_.dot_pitch;
    colour = mix(colour, c.flank_dot * 0.95f,
                 0.8f * smooth_step(look_.band - 0.08f, look_.band + 0.08f, std::abs(v)));
    if (look_.dot_strength <= 0) return colour;
    const float d = dots(u * k, v * kV * k, seed_ + 9, look_.dot_size, std::max(0.05f, footprint_ * k), 0.7f);
    return mix(colour, c.dark, d * look_.dot_strength);
  }
  const float d = sample_field(field_, u, v);
  if (animal_.halo > 0) colour = colour * (1 - animal_.halo * clamp01(1 - d / 0.012f));
  const float soft = std::max(animal_.edge_softness, 0.8f * footprint_);
  const float dark = smooth_step(soft, -soft, d);
  // The dark is not one flat tone either.
  return mix(colour, c.dark * (1 + 0.25f * patch + 0.15f * grain), dark * 0.97f);
}

Vec3 Skin::flank(float u, float v) const {
  const SkinColours& c = look_.colours;
  const float mottle = fractal_noise(u * 14, v * kV * 14, seed_ + 21, 3, 0.5f, footprint_ * 14);
  const Vec3 base = c.flank * (1 + 0.5f * mottle);
  const float pitch = animal_.stipple_pitch;
  const float d =
      dots(u * pitch, v * kV * pitch, seed_ + 22, 0.2f, std::max(0.1f, footprint_ * pitch), 0.75f);
  return mix(base, c.flank_dot, d * (look_.small_newt ? 0.1f : animal_.flank_stipple));
}

Vec3 Skin::throat(float u, float v) const {
  const SkinColours& c = look_.colours;
  const float mottle = fractal_noise(u * 22, v * kV * 22, seed_ + 31, 3, 0.55f, footprint_ * 22);
  Vec3 colour =
      mix(c.throat, mix(c.throat, c.dark, 0.75f), clamp01(animal_.throat_darkness * (0.25f + 0.9f * mottle)));
  const float d = dots(u * 42, v * kV * 42, seed_ + 32, 0.22f, std::max(0.1f, footprint_ * 42), 0.7f);
  colour = mix(colour, c.throat_dot, 0.7f * d * (look_.small_newt ? 0.2f : 1.0f));
  if (animal_.throat_spots > 0 && !look_.small_newt) {
    const float spot = dots(u * 15, v * kV * 15, seed_ + 33, 0.24f, std::max(0.06f, footprint_ * 15), 0.65f);
    colour = mix(colour, c.dark, spot * animal_.throat_spots);
  }
  // The line of the jaw.
  const float along = -u / animal_.head_length;
  const float jaw = std::abs(std::abs(v) - (1.05f - 0.25f * along * along));
  return colour * (1 - 0.35f * clamp01(1 - jaw / 0.06f));
}

Vec3 Skin::tail(float u, float s) const {
  const SkinColours& c = look_.colours;
  const float mottle = fractal_noise(u * 13, s * 1.1f, seed_ + 41, 3, 0.55f, footprint_ * 13);
  const float keel = animal_.keel * 0.5f * (1 + 0.7f * mottle);
  const float on = smooth_step(0.03f, -0.03f, std::abs(s) - keel);
  const Vec3 ground = mix(c.ground, c.ground_patch, 0.4f + 0.3f * mottle);
  Vec3 colour = mix(flank(u, s * 2.2f), ground, on);
  colour = mix(colour, c.dark, smooth_step(0.28f, 0.4f, mottle) * 0.9f);
  // The vent: a swelling with a slit, darker than what surrounds it.
  const float du = (u - 1.035f) / 0.045f, ds = s / 0.30f, vent = du * du + ds * ds;
  if (vent < 1.6f) {
    const Vec3 swelling = mix(c.dark, c.ground, 1 - animal_.vent_dark * (0.85f - 0.2f * mottle));
    colour = mix(colour, swelling, smooth_step(1.5f, 0.7f, vent));
    colour = colour * (1 - 0.8f * clamp01(1 - std::abs(s) / 0.03f) * smooth_step(0.9f, 0.5f, std::abs(du)));
  }
  return colour;
}

Vec3 Skin::limb(float id, float s) const {
  const SkinColours& c = look_.colours;
  const float along = id - std::floor(id);
  const float which = std::floor(id);
  const std::uint32_t seed = seed_ + 51 + static_cast<std::uint32_t>(which / 8);
  const float mottle = fractal_noise(along * 6 + which * 3.1f, s * 1.5f, seed, 3, 0.55f);
  const Vec3 base = mix(c.flank, mix(c.ground, c.flank, 0.3f),
                        smooth_step(animal_.limb_dark - 0.1f, animal_.limb_dark + 0.25f, mottle) * 0.75f);
  // Fingers and toes are banded.
  const bool digit = static_cast<int>(which) % 8 != 0;
  if (!digit) return base;
  return mix(base, mix(c.ground, c.flank_dot, 0.4f), smooth_step(-0.2f, 0.2f, std::sin(along * 16)) * 0.7f);
}

Vec3 Skin::back(float u, float s) const {
  const SkinColours& c = look_.colours;
  const float mottle = fractal_noise(u * 9, s * 1.4f, seed_ + 61, 4, 0.55f, footprint_ * 9);
  Vec3 colour = c.flank * (1.1f + 0.5f * mottle);
  colour = mix(
      colour, c.dark * 0.7f,
      smooth_step(0.15f, 0.3f, fractal_noise(u * 17, s * 2.6f, seed_ + 62, 2, 0.5f, footprint_ * 17)) * 0.8f);
  const float wart = dots(u * 55, s * 8, seed_ + 63, 0.3f, std::max(0.2f, footprint_ * 55), 0.9f);
  colour = colour * (1 + 0.35f * wart);
  if (std::abs(s) > look_.orange_edge - 0.06f) {
    // The belly's colour comes up round the side, with dark spots in it.
    const float blot = fractal_noise(u * 24, s * 9, seed_ + 64, 2, 0.5f, footprint_ * 24);
    const float on = smooth_step(-0.03f, 0.03f, std::abs(s) - look_.orange_edge + 0.03f * mottle);
    colour = mix(colour, mix(c.ground, c.dark, smooth_step(0.1f, 0.25f, blot)), on);
  }
  if (look_.stripe > 0) {
    const float d = std::abs(s + 0.01f * mottle) - look_.stripe * (1 + 0.5f * mottle);
    return mix(colour, c.ground * 0.9f, smooth_step(0.012f, -0.012f, d));
  }
  // The crest, or the furrow where it would stand.
  return colour * (1 - 0.45f * clamp01(1 - std::abs(s) / 0.035f));
}

Skin::Sample Skin::at(const Fragment& fragment, float v) const {
  Sample sample;
  const float u = fragment.u;
  if (fragment.part == Part::limb) {
    sample.albedo = look_.is_back ? back(u, 0.4f * fragment.s) : limb(u, fragment.s);
    sample.wet = 0.6f;
    return sample;
  }
  if (look_.is_back) {
    sample.albedo = back(u, fragment.s);
  } else if (u > 1) {
    const float join = smooth_step(1.0f, 1.03f, u);
    sample.albedo = tail(u, fragment.s);
    if (join < 1) sample.albedo = mix(std::abs(v) < 1 ? belly(u, v) : flank(u, v), sample.albedo, join);
  } else {
    const float waver =
        1 +
        animal_.edge_wave * clamp01(0.5f + 0.9f * fractal_noise(u * 9, v > 0 ? 3.0f : 11.0f, seed_ + 71, 3));
    const float blend = animal_.flank_blend;
    const float inside = smooth_step(blend, -blend, std::abs(v) - waver - blend);
    sample.albedo = inside > 0 ? belly(u, v) : flank(u, v);
    if (inside > 0 && inside < 1) sample.albedo = mix(flank(u, v), sample.albedo, inside);
    if (u < 0) {
      // Throat skin takes over in front of the fold; the fold itself is a faint crease.
      const float front = smooth_step(0.0f, -0.045f, u + 0.012f * fractal_noise(v * 3, 1, seed_ + 72, 2));
      Vec3 under = throat(u, v);
      if (look_.throat_as_belly > 0 && inside > 0)
        under = mix(under, mix(flank(u, v), belly(-u, v), inside), look_.throat_as_belly);
      sample.albedo = mix(sample.albedo, under, front);
    }
    const float fold =
        clamp01(1 - std::abs(u + 0.004f * v * v) / 0.006f) * smooth_step(1.0f, 0.7f, std::abs(v));
    sample.albedo = sample.albedo * (1 - 0.25f * fold);
  }
  const float coarse = look_.is_back ? 55.0f : 120.0f;
  const float fade = clamp01(2 - 3 * footprint_ * coarse);
  sample.bump_x =
      fade * (look_.is_back ? 0.13f : 0.1f) * value_noise(u * coarse, v * kV * coarse, seed_ + 81) +
      0.05f * value_noise(u * 14, v * kV * 14, seed_ + 83);
  sample.bump_y =
      fade * (look_.is_back ? 0.13f : 0.1f) * value_noise(u * coarse, v * kV * coarse, seed_ + 82) +
      0.05f * value_noise(u * 14, v * kV * 14, seed_ + 84);
  if (animal_.grooves > 0 && u > 0.05f && u < 0.95f) {
    // Rib grooves run across the flanks and fade on the belly.
    const float t = u * 13 - std::floor(u * 13) - 0.5f;
    const float line = clamp01(1 - std::abs(t) * 5) * clamp01(2.5f * std::abs(fragment.s) - 0.2f);
    sample.albedo = sample.albedo * (1 - 3 * animal_.grooves * line);
  }
  return sample;
}

}  // namespace evet::render
