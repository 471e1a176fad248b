// How the rules fill a canvas: the deeper a value, the earlier that place turns dark. Which part is dark is
// decided afterwards, by the share that the animal is to have.
#pragma once
#include <opencv2/core.hpp>

#include "tools/render/solid/dice.h"

namespace evet::render::solid {

// Square cells of `cell` belly lengths, row 0 at `first_u`, the midline between the middle columns.
struct Canvas {
  cv::Mat1f depth;
  float cell = 0, first_u = 0, half_skin = 0;
  Canvas(float cell_size, float half_skin_width);
  float u_of(int row) const { return first_u + (static_cast<float>(row) + 0.5F) * cell; }
  float x_of(int col) const {
    return (static_cast<float>(col) + 0.5F - 0.5F * static_cast<float>(depth.cols)) * cell;
  }
};

// What the animals of one kind share.
struct Manner {
  float scale;    // typical distance between blotches, belly lengths
  float stretch;  // > 1: blotches longer than wide
  float wobble;   // raggedness of edges
};

using Rule = void (*)(Canvas&, const Manner&, Dice);
void reaction_spots(Canvas&, const Manner&, Dice);
void reaction_maze(Canvas&, const Manner&, Dice);
void yellow_islands(Canvas&, const Manner&, Dice);
void stretched_noise(Canvas&, const Manner&, Dice);
void marble(Canvas&, const Manner&, Dice);
void merged_cells(Canvas&, const Manner&, Dice);
void chained_spots(Canvas&, const Manner&, Dice);
void side_rows(Canvas&, const Manner&, Dice);
void middle_band(Canvas&, const Manner&, Dice);
void few_huge(Canvas&, const Manner&, Dice);
void many_fine(Canvas&, const Manner&, Dice);
void broken_bars(Canvas&, const Manner&, Dice);

}  // namespace evet::render::solid
