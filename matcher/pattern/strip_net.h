// The three small networks behind a match. Trained as tools/train/README.md says; their weights are part of
// the library; run by OpenCV's DNN module. The first two work on the frame of the spot map, the third on half
// of it.
//
//   spots      RGB in [0, 1], 0.5 where the strip shows nothing -> logits: dark skin; skin plainly seen
//   embedding  probability dark - 0.5, 0 where unknown; 1 where known -> 128 numbers: alike for one animal
//   pairs      of the earlier map, then of the later drawn onto it: (probability dark - 0.5) x weight; weight
//              -> 1 number: logarithm of the likelihood ratio that they show one animal, as it was learned
#pragma once
#include <memory>
#include <opencv2/core.hpp>
#include <span>
#include <vector>

namespace evet {

class StripNet {
 public:
  // Error: unsupported, when the bytes are no network that OpenCV reads.
  StripNet(std::span<const std::byte> onnx, const char* name);
  ~StripNet();
  StripNet(StripNet&&) noexcept;
  StripNet& operator=(StripNet&&) noexcept;

  // Planes of one size, that of the network's frame; the answer's numbers in order. Not to be called from two
  // threads at once. Errors: unsupported, for planes that are not the network's.
  std::vector<float> forward(const std::vector<cv::Mat1f>& planes);

  static StripNet& spots();      // one for each thread
  static StripNet& embedding();  // likewise
  static StripNet& pairs();      // likewise

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

// The weights as they lie in the library, for saying what a pattern or a ratio was made with.
struct StripWeights {
  std::span<const std::byte> spots, embedding, pairs;
};
StripWeights strip_weights();

}  // namespace evet
