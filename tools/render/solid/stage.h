// Everything solid in a picture, for rays to meet; traced by Embree on one thread, with instructions that
// every x86-64 host of the last decade has, so that results are the same on all of them.
#pragma once
#include <limits>
#include <memory>
#include <vector>

#include "tools/render/solid/dice.h"
#include "tools/render/solid/mesh.h"

namespace evet::render::solid {

class Stage {
 public:
  Stage();
  ~Stage();
  Stage(const Stage&) = delete;
  Stage& operator=(const Stage&) = delete;

  void clear();
  void add(Mesh mesh);
  void build();  // after which nothing may be added
  // The nearest thing on the ray from `eye`, no farther than `most`; false where it meets none.
  bool meet(const Point& eye, const Point& way, Touch& touch,
            float most = std::numeric_limits<float>::infinity()) const;
  bool blocked(const Point& from, const Point& way, float far) const;
  // How open to the sky each corner lies, by `rays` rays of limited length; smoothed over neighbours.
  using Blocked = std::function<bool(const Point& from, const Point& way, float far)>;
  void measure_openness(int rays, float reach, float ground, const Blocked& blocked_by, Dice dice);
  const std::vector<Mesh>& meshes() const { return meshes_; }

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
  std::vector<Mesh> meshes_;
};

}  // namespace evet::render::solid
