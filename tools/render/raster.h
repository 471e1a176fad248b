// A depth-buffered rasteriser for small triangles: what skin is seen at every pixel.
#pragma once
#include <cstdint>
#include <opencv2/core.hpp>
#include <vector>

#include "tools/render/body.h"
#include "tools/render/camera.h"

namespace evet::render {

enum class Part : std::uint8_t { none, trunk, head, tail, limb };

struct Fragment {
  float u = 0, s = 0;
  Vec3 position, normal;
  float depth = 1e9f;
  Part part = Part::none;
};

// Fragments of a window of the picture.
class Raster {
 public:
  explicit Raster(cv::Rect window) : window_(window), fragments_(static_cast<std::size_t>(window.area())) {}
  cv::Rect window() const { return window_; }
  Fragment& at(int x, int y) { return fragments_[index(x, y)]; }  // picture coordinates, inside the window
  const Fragment& at(int x, int y) const { return fragments_[index(x, y)]; }

  struct Vertex {
    cv::Point2f px;
    Fragment fragment;
  };
  void triangle(const Vertex& a, const Vertex& b, const Vertex& c);
  // Rows of vertices joined into a surface.
  void surface(const std::vector<std::vector<Vertex>>& rows);

 private:
  std::size_t index(int x, int y) const {
    return static_cast<std::size_t>((y - window_.y) * window_.width + x - window_.x);
  }
  cv::Rect window_;
  std::vector<Fragment> fragments_;
};

// The tube of the body, without limbs.
std::vector<std::vector<Raster::Vertex>> body_surface(const Body& body, const Camera& camera);

// A limb or finger: a tube along points with radii.
struct TubePoint {
  Vec3 position;
  float radius;
};
std::vector<std::vector<Raster::Vertex>> tube_surface(const std::vector<TubePoint>& path,
                                                      const Camera& camera, Part part, float id);

// The smallest window that holds all, inside the picture.
cv::Rect window_of(const std::vector<std::vector<std::vector<Raster::Vertex>>>& surfaces, cv::Size picture);

}  // namespace evet::render
