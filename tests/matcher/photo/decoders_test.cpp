// Decoders apart: the same answers as in one process, and nothing that a picture makes its decoder do reaches
// further than an error about that picture.
#include "matcher/photo/decoders.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <chrono>
#include <thread>

#include "matcher/base/error.h"
#include "matcher/photo/decode.h"
#include "matcher/photo/decode_here.h"
#include "matcher/photo/messages.h"
#include "tests/matcher/photo/sample_files.h"

namespace evet {
namespace {

using samples::Bytes;

Bytes named(const char* text) {
  const auto* from = reinterpret_cast<const std::byte*>(text);
  return {from, from + std::string_view(text).size()};
}
std::string text_of(std::span<const std::byte> file) {
  return {reinterpret_cast<const char*>(file.data()), file.size()};
}

Error error_of(const std::function<void()>& work) {
  try {
    work();
  } catch (const Error& error) {
    return error;
  }
  ADD_FAILURE() << "no error";
  return {ErrorKind::usage, "", ""};
}

std::vector<Bytes> pictures() {
  const cv::Mat3b picture = samples::quarters(300, 200);
  samples::ExifSpec turned;
  turned.orientation = 6, turned.position = true;
  return {samples::jpeg(picture, {.exif = samples::exif_block(turned)}),
          samples::jpeg(picture, {.progressive = true}), samples::png(picture, {.bits = 16, .alpha = true}),
          samples::tiff(picture, {.orientation = 7}), samples::heic(picture, 6, samples::exif_block({}))};
}

TEST(Decoders, AnswerAsOneProcessDoes) {
  Decoders apart;
  for (const Bytes& file : pictures())
    for (const int enough : {0, 64, 100}) {
      const DecodeOptions options{.enough_long_side_px = enough};
      const Photo here = decode_here(file, "a.jpg", options, [](std::uint64_t) {}),
                  there = apart.decode(file, "a.jpg", options);
      ASSERT_EQ(here.bgr.size(), there.bgr.size());
      EXPECT_EQ(cv::norm(here.bgr, there.bgr, cv::NORM_INF), 0);
      EXPECT_EQ(here.full_per_px, there.full_per_px);
      const PhotoHeader &a = here.header, b = apart.header(file, "a.jpg", options);
      EXPECT_EQ(std::tie(a.format, a.width_px, a.height_px, a.orientation, a.taken_at, a.taken_at_offset,
                         a.has_position, a.camera),
                std::tie(b.format, b.width_px, b.height_px, b.orientation, b.taken_at, b.taken_at_offset,
                         b.has_position, b.camera));
      EXPECT_EQ(there.header.camera, a.camera);
    }
}

TEST(Decoders, TellErrorsAsOneProcessDoes) {
  Decoders apart;
  const Bytes whole = samples::jpeg(samples::quarters(300, 200));
  for (const Bytes& file : {named("no picture"), Bytes{}, Bytes(whole.begin(), whole.begin() + 900)}) {
    const Error here = error_of([&] { decode_here(file, "a.jpg", {}, [](std::uint64_t) {}); }),
                there = error_of([&] { apart.decode(file, "a.jpg", {}); });
    EXPECT_STREQ(here.what(), there.what());
    EXPECT_EQ(here.kind(), there.kind());
    EXPECT_EQ(there.item(), "a.jpg");
  }
  EXPECT_EQ(error_of([&] { apart.decode(whole, "a.jpg", {.max_megapixels = 0.001}); }).kind(),
            ErrorKind::too_large);
}

// A decoder taken over by what it read, doing what the bytes say.
Decoders::Work taken_over() {
  Decoders::Work work = Decoders::usual();
  work.decode = [](std::span<const std::byte> file, const DecodeOptions& options,
                   const Decoders::Grant& grant) {
    const std::string does = text_of(file);
    if (does == "abort") std::abort();
    if (does == "hang")
      for (std::atomic<bool> going{true}; going;) continue;
    if (does == "eat") {
      std::vector<std::vector<char>> all;
      for (;;) all.emplace_back(100'000'000, 'x');
    }
    std::string reached;
    if (does == "reach") {
      if (::open("/etc/passwd", O_RDONLY) >= 0) reached += " a file";
      if (::socket(AF_INET, SOCK_STREAM, 0) >= 0) reached += " the network";
      if (::fork() >= 0) reached += " a process";
      if (::kill(::getppid(), 0) == 0) reached += " another process";
      if (::execl("/bin/true", "true", nullptr) == 0 || errno != EPERM) reached += " a program";
      if (::write(1, "x", 1) == 1 && ::lseek(1, 0, SEEK_CUR) >= 0) reached += " the answer's place";
      throw Error(ErrorKind::bad_input, {},
                  {messages::kNotPictureProgramReads, {{"what", "reached:" + reached}}});
    }
    if (does == "other code") throw Error(ErrorKind::bad_input, {}, messages::kUseMoreThan0And);
    if (does == "storage") throw Error(ErrorKind::storage, {}, "the disk is full");
    Photo lie;
    if (does == "huge" || does == "other shape") {
      lie.header.width_px = does == "huge" ? 60'000 : 40, lie.header.height_px = does == "huge" ? 60'000 : 20;
      lie.bgr = cv::Mat3b(20, 30, cv::Vec3b());
      return lie;
    }
    return decode_here(file, {}, options, grant);
  };
  return work;
}

TEST(Decoders, APictureThatKillsOrStallsItsDecoderIsOneErrorAndTheNextIsDecoded) {
  Decoders apart({.seconds = 2}, taken_over());
  const Bytes good = samples::jpeg(samples::quarters(40, 24));
  for (const auto& [does, says] :
       std::vector<std::pair<const char*, const char*>>{{"abort", "stopped the decoder"},
                                                        {"hang", "takes longer than 2 s"},
                                                        {"storage", "stopped the decoder"},
                                                        {"huge", "stopped the decoder"},
                                                        {"other shape", "stopped the decoder"}}) {
    const Error error = error_of([&] { apart.decode(named(does), "a.jpg", {}); });
    EXPECT_NE(std::string(error.what()).find(says), std::string::npos) << does << ": " << error.what();
    EXPECT_EQ(error.kind(), ErrorKind::bad_input) << does;
    EXPECT_EQ(error.item(), "a.jpg");
    EXPECT_EQ(apart.decode(good, "b.jpg", {}).bgr.cols, 40) << "after " << does;
  }
}

#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
TEST(Decoders, MemoryIsLimited) {
  Decoders apart({.seconds = 60, .sandbox = {.memory_bytes = 400'000'000}}, taken_over());
  const Error error = error_of([&] { apart.decode(named("eat"), "a.jpg", {}); });
  EXPECT_EQ(error.kind(), ErrorKind::too_large) << error.what();
}
#endif

TEST(Decoders, ADecoderReachesNothing) {
  Decoders apart({}, taken_over());
  const Error error = error_of([&] { apart.decode(named("reach"), "a.jpg", {}); });
  EXPECT_EQ(error.wrong().argument("what"), "reached:");
}

TEST(Decoders, ADecoderSaysWhatItKnowsToSay) {
  Decoders apart({}, taken_over());
  const auto said = [&](const char* what) {
    return std::string(error_of([&] { apart.decode(named(what), "a.jpg", {}); }).wrong().code());
  };
  EXPECT_EQ(said("reach"), messages::kNotPictureProgramReads.code);
  EXPECT_EQ(said("other code"), messages::kBytesStoppedDecoderPictureIs.code);
}

TEST(Decoders, ServeSeveralThreadsAtOnce) {
  Decoders apart({.seconds = 5}, taken_over());
  const Bytes good = samples::jpeg(samples::quarters(400, 240));
  std::atomic<int> decoded{0}, refused{0};
  {
    std::vector<std::jthread> threads;
    for (int t = 0; t < 4; ++t)
      threads.emplace_back([&, t] {
        for (int i = 0; i < 10; ++i) try {
            apart.decode(t == 0 ? named("abort") : good, "a.jpg", {});
            ++decoded;
          } catch (const Error&) {
            ++refused;
          }
      });
  }
  EXPECT_EQ(decoded, 30);
  EXPECT_EQ(refused, 10);
}

TEST(Decoders, TheLargestPictureThatIsReadFits) {
  Decoders apart;
  const Bytes file = samples::tiff(cv::Mat3b(9'900, 10'000, cv::Vec3b(20, 120, 220)), {.compression = 5});
  EXPECT_EQ(apart.decode(file, "a.tif", {.enough_long_side_px = 500}).bgr.cols, 500);
}

TEST(Decoders, AreUsedByDecodePhotoWhileTheyAreThere) {
  const Bytes good = samples::jpeg(samples::quarters(40, 24));
  {
    Decoders apart({}, taken_over());
    Decoders::use(&apart);
    EXPECT_THROW(decode_photo(named("abort"), "a.jpg"), Error);
    EXPECT_EQ(decode_photo(good, "a.jpg").bgr.cols, 40);
  }
  EXPECT_EQ(Decoders::in_use(), nullptr);
  EXPECT_EQ(decode_photo(good, "a.jpg").bgr.cols, 40);
}

}  // namespace
}  // namespace evet
