// Kept-back patterns of pieces and waves: mosaics, shards, waves that cross. Lengths in cells of the canvas.
#include "tools/render/mechanisms.h"
#include "tools/render/noise.h"
#include "tools/render/pattern_field.h"
#include "tools/render/vec.h"

namespace evet::render::detail {

cv::Mat1f mosaic_field(Rng rng) {
  // Tiles with straight edges, each dark or not as a whole, mostly with a seam of ground between them.
  cv::Mat1f field(kSkinRows, kSkinCols);
  const float tile = rng.uniformf(15, 34), stretch = rng.uniformf(0.75, 1.35), seam = rng.uniformf(0.5, 4.5),
              crowding = rng.uniformf(0, 0.5);
  const std::uint32_t seed = rng.next32();
  for (int r = 0; r < field.rows; ++r)
    for (int c = 0; c < field.cols; ++c) {
      const float x = static_cast<float>(c) / tile * stretch, y = static_cast<float>(r) / tile / stretch;
      const CellNoise cell = cell_noise(x, y, seed);
      const float to_edge = (cell.second - cell.nearest) * tile / 2;
      field(r, c) = hash_unit(cell.id, 1) + crowding * value_noise(x * 0.3f, y * 0.3f, seed + 1) -
                    1.5f * smooth_step(seam, 0.5f * seam, to_edge);
    }
  return field;
}

namespace {

// A convex piece: the places within `reach[k]` of its middle along every direction `out[k]`.
struct Shard {
  Vec2 middle;
  float size;
  std::vector<Vec2> out;
  std::vector<float> reach;
};

Shard draw_shard(Rng& rng, double smallest, double largest) {
  Shard shard;
  shard.middle = {rng.uniformf(0, kSkinCols), rng.uniformf(0, kSkinRows)};
  shard.size = rng.uniformf(smallest, smallest + (largest - smallest) * rng.uniform());
  const int edges = rng.between(3, 5);
  const double first = rng.uniform(0, 2 * kPi);
  for (int k = 0; k < edges; ++k) {
    const double angle = first + 2 * kPi * (k + rng.uniform(-0.12, 0.12)) / edges;
    shard.out.push_back({static_cast<float>(std::cos(angle)), static_cast<float>(std::sin(angle))});
    shard.reach.push_back(shard.size * rng.uniformf(0.45, 1.25));
  }
  return shard;
}

// 0 on the shard's edge, growing by 1 a size inwards.
void raise_shard(cv::Mat1f& field, const Shard& shard) {
  const int far = static_cast<int>(4.5f * shard.size) + 1, row = static_cast<int>(shard.middle.y),
            col = static_cast<int>(shard.middle.x);
  for (int r = std::max(0, row - far); r < std::min(field.rows, row + far); ++r)
    for (int c = std::max(0, col - far); c < std::min(field.cols, col + far); ++c) {
      const Vec2 p = Vec2{static_cast<float>(c), static_cast<float>(r)} - shard.middle;
      float inside = shard.size * 2;
      for (std::size_t k = 0; k < shard.out.size(); ++k)
        inside = std::min(inside, shard.reach[k] - dot(p, shard.out[k]));
      field(r, c) = std::max(field(r, c), inside / shard.size);
    }
}

}  // namespace

cv::Mat1f shatter_field(Rng rng) {
  cv::Mat1f field(kSkinRows, kSkinCols, kNoSpot);
  const double smallest = rng.uniform(3.5, 6), largest = rng.uniform(11, 26);
  for (int left = rng.between(35, 110); left > 0; --left)
    raise_shard(field, draw_shard(rng, smallest, largest));
  return field;
}

cv::Mat1f wave_field(Rng rng) {
  struct Wave {
    bool round;      // circles about `from`; else straight crests across it
    Vec2 from;       // cells; of a straight wave, its unit direction
    float per_cell;  // radians
    float phase, height;
  };
  std::vector<Wave> waves;
  const double shortest = rng.uniform(26, 42), longest = shortest * rng.uniform(1.4, 2.4);
  const int straight = rng.between(2, 4), round = rng.between(1, 2);
  for (int i = 0; i < straight + round; ++i) {
    const double angle = rng.uniform(0, kPi);
    Wave wave{i >= straight,
              {static_cast<float>(std::cos(angle)), static_cast<float>(std::sin(angle))},
              2 * static_cast<float>(kPi) / rng.uniformf(shortest, longest),
              rng.uniformf(0, 2 * kPi),
              rng.uniformf(0.6, 1.2)};
    if (wave.round) wave.from = {rng.uniformf(-0.3, 1.3) * kSkinCols, rng.uniformf(-0.1, 1.1) * kSkinRows};
    waves.push_back(wave);
  }
  // The phases drift a little, so that no two stretches of a skin repeat.
  const float drift = rng.uniformf(0.5, 2);
  const std::uint32_t seed = rng.next32();
  cv::Mat1f field(kSkinRows, kSkinCols);
  for (int r = 0; r < field.rows; ++r)
    for (int c = 0; c < field.cols; ++c) {
      const Vec2 p{static_cast<float>(c), static_cast<float>(r)};
      float sum = 0;
      std::uint32_t k = seed;
      for (const Wave& w : waves) {
        const float along = w.round ? length(p - w.from) : dot(p, w.from);
        sum += w.height *
               std::sin(along * w.per_cell + w.phase + drift * value_noise(p.x * 0.012f, p.y * 0.012f, k++));
      }
      field(r, c) = sum;
    }
  return field;
}

}  // namespace evet::render::detail
