// What a strip network gave in PyTorch, which trained and exported it.
#pragma once
#include <gtest/gtest.h>

#include <fstream>
#include <opencv2/imgproc.hpp>
#include <string>
#include <vector>

#include "matcher/pattern/pattern.h"

namespace evet {

inline constexpr int kStep = 8, kRows = kMapRows / kStep, kCols = kMapCols / kStep;

// Small planes and what the network gave for them, each number of a plane standing for kStep x kStep pixels.
// Layout: tools/train/train_strip.py, export_all(), and train_pair.py, save().
struct NetworkReference {
  std::vector<cv::Mat1f> planes;
  std::vector<float> answer;
};
inline NetworkReference network_reference(const std::string& name, int planes, size_t answers,
                                          int rows = kRows, int cols = kCols) {
  std::ifstream in(std::string(EVET_TEST_DATA) + "/" + name, std::ios::binary);
  NetworkReference out;
  out.answer.resize(answers);
  for (int k = 0; k < planes; ++k) {
    cv::Mat1f small(rows, cols), plane;
    in.read(reinterpret_cast<char*>(small.data), static_cast<std::streamsize>(small.total() * sizeof(float)));
    cv::resize(small, plane, {}, kStep, kStep, cv::INTER_NEAREST);
    out.planes.push_back(plane);
  }
  in.read(reinterpret_cast<char*>(out.answer.data()), static_cast<std::streamsize>(answers * sizeof(float)));
  EXPECT_TRUE(in) << name << " is missing or short";
  return out;
}

}  // namespace evet
