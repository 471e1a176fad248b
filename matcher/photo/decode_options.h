// What may be decoded, and how small. See decode.h.
#pragma once

namespace evet {

struct DecodeOptions {
  double max_megapixels = 100;  // refuse larger pictures before decoding them
  // Decode at a reduced size when the format can do so cheaply and the longer side stays at or above this
  // many pixels; 0 keeps full size. JPEG uses its DCT scaling (1/2, 1/4, 1/8), others are area-averaged.
  int enough_long_side_px = 0;
  void check() const;
};

}  // namespace evet
