// What some cameras do to a picture and the training's cameras do not: bright rims along edges, heavy tone
// curves, dark corners with a hard edge, coloured fringes.
#pragma once
#include <opencv2/core.hpp>

#include "tools/render/rng.h"

namespace evet::render {

struct Finish {
  double halo = 0;         // strength of the light and dark rims on either side of an edge
  double halo_share = 0;   // their width, share of the diagonal
  double crush = 0;        // 0..1: dark tones pressed to black and light ones to white
  double fade = 0;         // 0..1: black lifted to grey and white lowered
  double rim = 0;          // share of the light lost in the corners
  double rim_start = 0.6;  // where the loss begins, half diagonals from the middle
  double fringe = 0;       // by which red is drawn larger and blue smaller than green, share of the size
};

// One of them plainly, and sometimes others half as much.
Finish draw_finish(Rng rng);

// Before the sensor: fringes and corners. `light`: linear r, g, b.
void through_lens(cv::Mat3f& light, const Finish& finish);

// After it: tone and halos, on the 8-bit picture.
void finish_picture(cv::Mat3b& bgr, const Finish& finish);

}  // namespace evet::render
