// Rules that grow a pattern everywhere at once: activator and inhibitor, thresholded noise, marble, cells.
#include <opencv2/imgproc.hpp>

#include "tools/render/solid/pattern_rules.h"
#include "tools/render/solid/shapes.h"
#include "tools/render/solid/texture_noise.h"

namespace evet::render::solid {

namespace {

// A short-range activator and a longer-range inhibitor on random beginnings (after Turing 1952), stepped a
// few times on a grid as coarse as the pattern allows.
void activate_and_inhibit(Canvas& canvas, const Manner& manner, float bias, float gain, Dice dice) {
  const float activator = 1.35F;
  const float cell = manner.scale / 7.5F;
  const cv::Size coarse(std::max(8, cvRound(static_cast<float>(canvas.depth.cols) * canvas.cell / cell)),
                        std::max(8, cvRound(static_cast<float>(canvas.depth.rows) * canvas.cell / cell)));
  cv::Mat1f state(coarse);
  for (float& x : state) x = dice.between(-1, 1);
  const double along = std::sqrt(manner.stretch), across = 1 / along;
  cv::Mat1f near, far;
  for (int i = 0; i < 16; ++i) {
    cv::GaussianBlur(state, near, {}, activator * across, activator * along, cv::BORDER_REFLECT);
    cv::GaussianBlur(state, far, {}, 1.75 * activator * across, 1.75 * activator * along, cv::BORDER_REFLECT);
    for (int r = 0; r < state.rows; ++r)
      for (int c = 0; c < state.cols; ++c)
        state(r, c) = std::tanh(0.4F * state(r, c) + gain * (near(r, c) - far(r, c)) + bias);
  }
  cv::GaussianBlur(state, state, {}, 0.7);
  cv::resize(state, canvas.depth, canvas.depth.size(), 0, 0, cv::INTER_CUBIC);
}

void ragged(Canvas& canvas, float strength, float scale, std::uint32_t seed) {
  for (int r = 0; r < canvas.depth.rows; ++r)
    for (int c = 0; c < canvas.depth.cols; ++c)
      canvas.depth(r, c) += strength * rough(canvas.u_of(r) / scale, canvas.x_of(c) / scale, 2, seed);
}

}  // namespace

void reaction_spots(Canvas& canvas, const Manner& manner, Dice dice) {
  activate_and_inhibit(canvas, manner, 0.12F, 7, dice.apart(1));
  ragged(canvas, manner.wobble, manner.scale * 0.4F, dice.bits());
}

void reaction_maze(Canvas& canvas, const Manner& manner, Dice dice) {
  activate_and_inhibit(canvas, manner, 0, 6, dice.apart(1));
  ragged(canvas, 1.1F * manner.wobble, manner.scale * 0.7F, dice.bits());
}

void yellow_islands(Canvas& canvas, const Manner& manner, Dice dice) {
  activate_and_inhibit(canvas, manner, -0.14F, 7, dice.apart(1));
  ragged(canvas, 0.8F * manner.wobble, manner.scale * 0.5F, dice.bits());
}

void stretched_noise(Canvas& canvas, const Manner& manner, Dice dice) {
  const std::uint32_t seed = dice.bits(), bend = dice.bits();
  const float slant = dice.between(-0.5, 0.5), s = manner.scale * 0.8F;
  for (int r = 0; r < canvas.depth.rows; ++r)
    for (int c = 0; c < canvas.depth.cols; ++c) {
      const float u = canvas.u_of(r) / s, x = canvas.x_of(c) / s;
      const float du = 0.5F * wave(u * 0.7F, x * 0.7F, bend), dx = 0.5F * wave(u * 0.7F, x * 0.7F, bend + 1);
      canvas.depth(r, c) =
          rough((u + slant * x + du) / manner.stretch, (x + dx) * std::sqrt(manner.stretch), 3, seed);
    }
}

void marble(Canvas& canvas, const Manner& manner, Dice dice) {
  const std::uint32_t seed = dice.bits();
  const float turn = dice.between(-1.2, 1.2), s = manner.scale, strength = dice.between(3, 6);
  for (int r = 0; r < canvas.depth.rows; ++r)
    for (int c = 0; c < canvas.depth.cols; ++c) {
      const float u = canvas.u_of(r) / s, x = canvas.x_of(c) / s;
      const float along = u * std::cos(turn) + x * std::sin(turn);
      canvas.depth(r, c) = std::sin(2.6F * along + strength * rough(u * 0.45F, x * 0.45F, 3, seed)) +
                           0.6F * wave(u * 0.8F, x * 0.8F, seed + 9);
    }
}

void merged_cells(Canvas& canvas, const Manner& manner, Dice dice) {
  const std::uint32_t seed = dice.bits();
  const float share = dice.between(0.4, 0.55), gap = dice.between(0.02, 0.16), s = manner.scale * 0.85F;
  cv::Mat1b dark(canvas.depth.size());
  for (int r = 0; r < dark.rows; ++r)
    for (int c = 0; c < dark.cols; ++c) {
      const float u = canvas.u_of(r) / s / manner.stretch, x = canvas.x_of(c) / s;
      const float du = 0.25F * wave(u * 2, x * 2, seed + 1), dx = 0.25F * wave(u * 2, x * 2, seed + 2);
      const Scatter cell = scatter(u + du, x + dx, seed);
      // Cells of one mind run together where the gap between them is closed.
      const bool open = chance_of(cell.number, 5) < 0.5F;
      dark(r, c) = chance_of(cell.number, 3) < share && (open || cell.second - cell.first > gap) ? 255 : 0;
    }
  cv::Mat1f inside, outside;
  cv::distanceTransform(dark, inside, cv::DIST_L2, 3);
  cv::distanceTransform(~dark, outside, cv::DIST_L2, 3);
  canvas.depth = outside - inside;
  cv::GaussianBlur(canvas.depth, canvas.depth, {}, 1 + 6 * manner.wobble);
}

}  // namespace evet::render::solid
