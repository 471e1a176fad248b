// Patterns cut from continuous fields: reaction and diffusion, noise, nets.
#include "tools/render/blur.h"
#include "tools/render/mechanisms.h"
#include "tools/render/noise.h"
#include "tools/render/pattern_field.h"

namespace evet::render::detail {

namespace {

// Bilinear from a coarser canvas to the whole one.
cv::Mat1f enlarged(const cv::Mat1f& small) {
  cv::Mat1f out(kSkinRows, kSkinCols);
  for (int r = 0; r < out.rows; ++r) {
    const float y =
        std::clamp((static_cast<float>(r) + 0.5f) * static_cast<float>(small.rows) / kSkinRows - 0.5f, 0.0f,
                   static_cast<float>(small.rows) - 1.001f);
    const int iy = static_cast<int>(y);
    for (int c = 0; c < out.cols; ++c) {
      const float x =
          std::clamp((static_cast<float>(c) + 0.5f) * static_cast<float>(small.cols) / kSkinCols - 0.5f, 0.0f,
                     static_cast<float>(small.cols) - 1.001f);
      const int ix = static_cast<int>(x);
      const float fy = y - static_cast<float>(iy), fx = x - static_cast<float>(ix);
      out(r, c) = mix(mix(small(iy, ix), small(iy, ix + 1), fx),
                      mix(small(iy + 1, ix), small(iy + 1, ix + 1), fx), fy);
    }
  }
  gaussian_blur(out, 1.5);
  return out;
}

}  // namespace

// Gray & Scott's autocatalysis, du/dt = Du lap(u) - u v^2 + F (1 - u), dv/dt = Dv lap(v) + u v^2 - (F + k) v,
// in the régimes of spots, worms and nets (Pearson 1993, "Complex patterns in a simple system").
cv::Mat1f reaction_diffusion_field(Rng rng) {
  struct Regime {
    float feed, kill;
  };
  static const std::vector<Regime> regimes = {{0.030f, 0.062f}, {0.034f, 0.0625f}, {0.038f, 0.061f},
                                              {0.046f, 0.063f}, {0.042f, 0.0595f}, {0.029f, 0.0575f}};
  const Regime regime = rng.pick(regimes);
  const float coarse = rng.uniformf(2.6, 4.6);
  const int rows = static_cast<int>(kSkinRows / coarse), cols = static_cast<int>(kSkinCols / coarse) / 2 * 2;
  const float along = rng.uniformf(0.75, 1.25);  // faster diffusion one way stretches the pattern
  const float du_x = 0.16f * (2 - along), du_y = 0.16f * along, dv_x = 0.08f * (2 - along),
              dv_y = 0.08f * along;

  cv::Mat1f u(rows + 2, cols + 2, 1.0f), v(rows + 2, cols + 2, 0.0f), u2(u.size()), v2(v.size()),
      feed(u.size());
  const std::uint32_t seed = rng.next32();
  for (int r = 0; r < u.rows; ++r)
    for (int c = 0; c < u.cols; ++c) {
      feed(r, c) = regime.feed * (1 + 0.06f * value_noise(static_cast<float>(c) * 0.06f,
                                                          static_cast<float>(r) * 0.04f, seed));
      if (value_noise(static_cast<float>(c) * 0.31f, static_cast<float>(r) * 0.31f, seed + 1) > 0.42f) {
        u(r, c) = 0.5f + 0.05f * rng.uniformf(-1, 1);
        v(r, c) = 0.3f + 0.05f * rng.uniformf(-1, 1);
      }
    }
  const int steps = rng.between(700, 1300);
  for (int step = 0; step < steps; ++step) {
    for (cv::Mat1f* m : {&u, &v}) {  // nothing flows over the border
      m->row(1).copyTo(m->row(0));
      m->row(rows).copyTo(m->row(rows + 1));
      m->col(1).copyTo(m->col(0));
      m->col(cols).copyTo(m->col(cols + 1));
    }
    for (int r = 1; r <= rows; ++r) {
      const float *u0 = u[r - 1] + 1, *u1 = u[r] + 1, *un = u[r + 1] + 1, *v0 = v[r - 1] + 1, *v1 = v[r] + 1,
                  *vn = v[r + 1] + 1;
      const float* f = feed[r] + 1;
      float *ou = u2[r] + 1, *ov = v2[r] + 1;
      for (int c = 0; c < cols; ++c) {
        const float lu = du_y * (u0[c] + un[c] - 2 * u1[c]) + du_x * (u1[c - 1] + u1[c + 1] - 2 * u1[c]);
        const float lv = dv_y * (v0[c] + vn[c] - 2 * v1[c]) + dv_x * (v1[c - 1] + v1[c + 1] - 2 * v1[c]);
        const float reaction = u1[c] * v1[c] * v1[c];
        ou[c] = u1[c] + lu - reaction + f[c] * (1 - u1[c]);
        ov[c] = v1[c] + lv + reaction - (f[c] + regime.kill) * v1[c];
      }
    }
    std::swap(u, u2);
    std::swap(v, v2);
  }
  return enlarged(v(cv::Rect(1, 1, cols, rows)).clone());
}

cv::Mat1f turing_field(Rng rng) {
  const int rows = kSkinRows / 2, cols = kSkinCols / 2;
  cv::Mat1f field(rows, cols);
  for (float& x : field) x = rng.uniformf(-1, 1);
  const double inner = rng.uniform(1.8, 4.2), outer = inner * rng.uniform(1.6, 2.4);
  const int rounds = rng.between(5, 12);
  for (int i = 0; i < rounds; ++i) {
    cv::Mat1f near = field.clone(), far = field.clone();
    gaussian_blur(near, inner);
    gaussian_blur(far, outer);
    for (int r = 0; r < rows; ++r)
      for (int c = 0; c < cols; ++c)
        field(r, c) = std::clamp(0.4f * field(r, c) + 8 * (near(r, c) - far(r, c)), -1.0f, 1.0f);
  }
  gaussian_blur(field, 1.2);
  return enlarged(field);
}

cv::Mat1f anisotropic_noise_field(Rng rng) {
  cv::Mat1f field(kSkinRows, kSkinCols);
  const float scale = rng.uniformf(9, 26), stretch = rng.uniformf(0.5, 2.0), angle = rng.uniformf(0, kPi);
  const float warp = rng.uniformf(0, 1.2), gain = rng.uniformf(0.3, 0.6);
  const float cosine = std::cos(angle), sine = std::sin(angle);
  const std::uint32_t seed = rng.next32();
  for (int r = 0; r < field.rows; ++r)
    for (int c = 0; c < field.cols; ++c) {
      const float y = static_cast<float>(r) / scale, x = static_cast<float>(c) / scale;
      const float a = (cosine * x + sine * y) * stretch, b = (cosine * y - sine * x) / stretch;
      const float wa = a + warp * value_noise(a * 0.5f, b * 0.5f, seed + 11),
                  wb = b + warp * value_noise(a * 0.5f, b * 0.5f, seed + 12);
      field(r, c) = fractal_noise(wa, wb, seed, 4, gain);
    }
  return field;
}

cv::Mat1f net_field(Rng rng) {
  cv::Mat1f field(kSkinRows, kSkinCols);
  const float scale = rng.uniformf(22, 48), warp = rng.uniformf(0.2, 0.8);
  const std::uint32_t seed = rng.next32();
  for (int r = 0; r < field.rows; ++r)
    for (int c = 0; c < field.cols; ++c) {
      const float y = static_cast<float>(r) / scale, x = static_cast<float>(c) / scale;
      const CellNoise cell = cell_noise(x + warp * value_noise(x * 1.7f, y * 1.7f, seed),
                                        y + warp * value_noise(x * 1.7f, y * 1.7f, seed + 1), seed + 2);
      field(r, c) = cell.nearest - 0.5f * cell.second;  // high on the walls between cells
    }
  return field;
}

}  // namespace evet::render::detail
