#include "tools/render/solid/stage.h"

#include <embree3/rtcore.h>

#include <Eigen/Geometry>
#include <stdexcept>

namespace evet::render::solid {

namespace {

struct Device {
  RTCDevice handle = rtcNewDevice("threads=1,isa=sse4.2,frequency_level=simd128");
  ~Device() {
    if (handle) rtcReleaseDevice(handle);
  }
};
// One a thread, so that threads share nothing.
RTCDevice device() {
  thread_local Device own;
  if (!own.handle) throw std::runtime_error("Embree gives no device; it needs SSE 4.2");
  return own.handle;
}

RTCRay ray_of(const Point& from, const Point& way, float near, float far) {
  RTCRay ray{};
  ray.org_x = from[0], ray.org_y = from[1], ray.org_z = from[2];
  ray.dir_x = way[0], ray.dir_y = way[1], ray.dir_z = way[2];
  ray.tnear = near;
  ray.tfar = far;
  ray.mask = ~0U;
  return ray;
}

}  // namespace

struct Stage::Inside {
  RTCScene scene = rtcNewScene(device());
  ~Inside() { rtcReleaseScene(scene); }
};

Stage::Stage() {
  clear();
}
Stage::~Stage() = default;

void Stage::clear() {
  meshes_.clear();
  inside_ = std::make_unique<Inside>();
  rtcSetSceneFlags(inside_->scene, RTC_SCENE_FLAG_ROBUST);
}

void Stage::add(Mesh mesh) {
  RTCGeometry geometry = rtcNewGeometry(device(), RTC_GEOMETRY_TYPE_TRIANGLE);
  auto* points = static_cast<float*>(rtcSetNewGeometryBuffer(
      geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 3 * sizeof(float), mesh.points.size()));
  for (std::size_t i = 0; i < mesh.points.size(); ++i)
    for (int k = 0; k < 3; ++k) points[3 * i + static_cast<std::size_t>(k)] = mesh.points[i][k];
  auto* corners = static_cast<unsigned*>(rtcSetNewGeometryBuffer(
      geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(unsigned), mesh.triangles.size()));
  for (const auto& triangle : mesh.triangles)
    for (const unsigned corner : triangle) *corners++ = corner;
  rtcCommitGeometry(geometry);
  rtcAttachGeometryByID(inside_->scene, geometry, static_cast<unsigned>(meshes_.size()));
  rtcReleaseGeometry(geometry);
  if (mesh.open.empty()) mesh.open.assign(mesh.points.size(), 1.0F);
  meshes_.push_back(std::move(mesh));
}

void Stage::build() {
  rtcCommitScene(inside_->scene);
}

bool Stage::meet(const Point& eye, const Point& way, Touch& touch, float most) const {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  RTCRayHit hit{};
  hit.ray = ray_of(eye, way, 0, most);
  hit.hit.geomID = RTC_INVALID_GEOMETRY_ID;
  rtcIntersect1(inside_->scene, &context, &hit);
  if (hit.hit.geomID == RTC_INVALID_GEOMETRY_ID) return false;
  const Mesh& mesh = meshes_[hit.hit.geomID];
  const auto& corners = mesh.triangles[hit.hit.primID];
  const float b = hit.hit.u, c = hit.hit.v, a = 1 - b - c;
  touch.mesh = static_cast<int>(hit.hit.geomID);
  touch.distance = hit.ray.tfar;
  touch.at = eye + way * hit.ray.tfar;
  touch.from_eye = way;
  touch.normal = (a * mesh.normals[corners[0]] + b * mesh.normals[corners[1]] + c * mesh.normals[corners[2]])
                     .normalized();
  if (touch.normal.dot(way) > 0.15F) touch.normal = -touch.normal;
  touch.place = a * mesh.places[corners[0]] + b * mesh.places[corners[1]] + c * mesh.places[corners[2]];
  touch.open = a * mesh.open[corners[0]] + b * mesh.open[corners[1]] + c * mesh.open[corners[2]];
  return true;
}

bool Stage::blocked(const Point& from, const Point& way, float far) const {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  RTCRay ray = ray_of(from, way, 0, far);
  rtcOccluded1(inside_->scene, &context, &ray);
  return ray.tfar < 0;
}

void Stage::measure_openness(int rays, float reach, float ground, const Blocked& blocked_by, Dice dice) {
  for (Mesh& mesh : meshes_) {
    for (std::size_t i = 0; i < mesh.points.size(); ++i) {
      const Point& n = mesh.normals[i];
      if (n[2] < -0.5F) {
        mesh.open[i] = 0.1F;  // faces the ground; no ray is spent on it
        continue;
      }
      const Point from = mesh.points[i] + n * 2e-3F;
      int free = 0;
      for (int k = 0; k < rays; ++k) {
        // Evenly on a sphere that touches the plane: cosine weighted about the normal.
        const float z = 2 * dice.unit() - 1, angle = 2 * kPi * dice.unit(), r = std::sqrt(1 - z * z);
        Point way = n + Point(r * std::cos(angle), r * std::sin(angle), z);
        way = way.norm() > 1e-3F ? Point(way.normalized()) : n;
        const bool to_ground = way[2] < 0 && (from[2] - ground) < -way[2] * reach;
        free += !to_ground && !blocked_by(from, way, reach);
      }
      mesh.open[i] = static_cast<float>(free) / static_cast<float>(rays);
    }
    for (int pass = 0; pass < 3; ++pass) {
      std::vector<float> sum(mesh.open.size(), 0.0F), count(mesh.open.size(), 0.0F);
      for (const auto& t : mesh.triangles) {
        const float mean = (mesh.open[t[0]] + mesh.open[t[1]] + mesh.open[t[2]]) / 3;
        for (const unsigned corner : t) sum[corner] += mean, count[corner] += 1;
      }
      for (std::size_t i = 0; i < sum.size(); ++i)
        if (count[i] > 0) mesh.open[i] = sum[i] / count[i];
    }
  }
}

}  // namespace evet::render::solid
