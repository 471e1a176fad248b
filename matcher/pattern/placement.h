// Where one strip lies on another, to first order.
#pragma once

namespace evet {

// Takes (u, v) of one pattern to (u, v) of the other:
//   u' = (u - 0.5) * u_stretch + 0.5 + u_shift,   v' = v * v_stretch + v_shift.
// Midlines are found within a few hundredths of the length and a roll's centre within some tenths of the
// half-width, so these numbers are small; what they leave is taken up by the smooth alignment.
struct Placement {
  double u_shift = 0, u_stretch = 1;
  double v_shift = 0, v_stretch = 1;

  double u(double u_from) const { return (u_from - 0.5) * u_stretch + 0.5 + u_shift; }
  double v(double v_from) const { return v_from * v_stretch + v_shift; }
};

}  // namespace evet
