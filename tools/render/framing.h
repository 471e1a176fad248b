// Placing the animal in the frame: turn, scale and crop.
#pragma once
#include "tools/render/body.h"
#include "tools/render/camera.h"
#include "tools/render/capture.h"

namespace evet::render {

// The projected v = 0 line at u = 0, 1/64, ..., 1.
std::vector<cv::Point2d> project_midline(const Body& body, const Camera& camera);
double polyline_length(const std::vector<cv::Point2d>& points);

struct Framed {
  Body body;
  Camera camera;
  Pose pose;  // with the turn that was taken
};

// Finds a turn and crop such that the belly has the wanted length and lies in the frame (or is cut off as
// planned). If no turn will do, the length share shrinks towards `least_share`.
Framed frame_animal(const Individual& animal, const CapturePlan& plan, const DifficultyRanges& allowed,
                    cv::Size size, Rng rng);

}  // namespace evet::render
