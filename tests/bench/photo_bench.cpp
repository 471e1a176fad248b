// What a photo costs: from the file of a 12-megapixel JPEG to the stored pattern, beside OpenCV's SIFT on the
// same picture; peak memory with two workers; and the start-up time of the program.
//
// One thread each; CPU time, so that other work on the machine matters less;
// medians of rounds that alternate between the two. SIFT is given the decoded picture and is
// not charged for decoding.
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <functional>
#include <opencv2/features2d.hpp>
#include <opencv2/imgproc.hpp>
#include <string>
#include <thread>
#include <vector>

#include "matcher/pattern/examine.h"
#include "matcher/photo/decoders.h"
#include "matcher/photo/read_file.h"
#include "tools/render/scene.h"

extern char** environ;

namespace evet {
namespace {

namespace fs = std::filesystem;

double cpu_seconds() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

double cpu_time_of(const std::function<void()>& work) {
  const double start = cpu_seconds();
  work();
  return cpu_seconds() - start;
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

// Runs a program with one argument or two, its output to `out`; wall seconds, or a negative
// number when it failed.
double run(const fs::path& program, std::vector<std::string> arguments, const fs::path& out) {
  std::vector<char*> argv{const_cast<char*>(program.c_str())};
  for (std::string& a : arguments) argv.push_back(a.data());
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 1, out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  const auto start = std::chrono::steady_clock::now();
  pid_t child = 0;
  int status = -1;
  if (posix_spawn(&child, program.c_str(), &actions, nullptr, argv.data(), environ) == 0)
    waitpid(child, &status, 0);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  posix_spawn_file_actions_destroy(&actions);
  return status == 0 ? took.count() : -1;
}

double wall_of(const std::function<void()>& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// A photo's way through intake: checked small, then examined; the least of `rounds` that alternate between
// decoding in this process and in one apart, by the clock on the wall.
void time_apart(const std::vector<std::byte>& bytes, std::size_t rounds) {
  Decoders apart;
  constexpr double kNone = 1e9;
  double here = kNone, there = kNone, pattern_here = kNone, pattern_there = kNone;
  for (std::size_t i = 0; i < rounds; ++i)
    for (const bool other : {false, true}) {
      Decoders::use(other ? &apart : nullptr);
      double &least = other ? there : here, &least_pattern = other ? pattern_there : pattern_here;
      least = std::min(least, wall_of([&] { decode_photo(bytes, "photo.jpg", ExamineOptions{}.decode); }));
      least_pattern = std::min(least_pattern, wall_of([&] {
                                 decode_photo(bytes, "photo.jpg", {.enough_long_side_px = 64});
                                 examine_photo(bytes, "photo.jpg");
                               }));
    }
  std::printf("decoded here / in a process apart, wall  %8.3f s / %.3f s\n", here, there);
  std::printf("checked and examined, the same           %8.3f s / %.3f s   (apart costs %.1f %%)\n",
              pattern_here, pattern_there, 100 * (pattern_there / pattern_here - 1));
}

// In a process of its own, because the peak never falls: two workers, four photos each. Prints MiB.
int peak_memory(const fs::path& photo) {
  const auto work = [&photo] {
    for (int i = 0; i < 4; ++i) examine_photo(read_file(photo, photo.string()), photo.string());
  };
  std::thread other(work);
  work();
  other.join();
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);)
    if (line.starts_with("VmHWM:")) std::printf("%.0f\n", std::stod(line.substr(6)) / 1024);
  return 0;
}

int bench(std::size_t rounds) {
  const fs::path self = fs::read_symlink("/proc/self/exe");
  std::string folder = (fs::temp_directory_path() / "evet_photo_bench_XXXXXX").string();
  if (mkdtemp(folder.data()) == nullptr) return EXIT_FAILURE;
  const fs::path photo = fs::path(folder) / "photo.jpg", out = fs::path(folder) / "out";

  render::CaptureSpec spec;
  spec.world_seed = 300;
  spec.size = {4000, 3000};
  const auto file = render::to_camera_jpeg(render::render(spec).bgr, 92, 6, "2031-05-14T22:41:07");
  std::ofstream(photo, std::ios::binary)
      .write(reinterpret_cast<const char*>(file.data()), static_cast<std::streamsize>(file.size()));

  const auto bytes = read_file(photo, "photo.jpg");
  time_apart(bytes, 4 * rounds);
  cv::Mat1b grey;
  cv::cvtColor(decode_photo(bytes, "photo.jpg").bgr, grey, cv::COLOR_BGR2GRAY);
  std::vector<double> decode, ours, sift;
  bool usable = false;
  std::size_t keypoints = 0;
  for (std::size_t i = 0; i < rounds; ++i) {
    decode.push_back(cpu_time_of([&] { decode_photo(bytes, "photo.jpg", ExamineOptions{}.decode); }));
    ours.push_back(cpu_time_of(
        [&] { usable = examine_photo(read_file(photo, "photo.jpg"), "photo.jpg").pattern.has_value(); }));
    sift.push_back(cpu_time_of([&] {
      std::vector<cv::KeyPoint> points;
      cv::Mat descriptors;
      cv::SIFT::create()->detectAndCompute(grey, {}, points, descriptors);
      keypoints = points.size();
    }));
  }
  std::vector<double> starts;
  const fs::path program = self.parent_path().parent_path() / "evet";
  for (int i = 0; i < 15; ++i) starts.push_back(run(program, {"--help"}, out));
  const bool helped = fs::file_size(out) > 0;
  double peak = -1;
  if (run(self, {"--peak-memory", photo.string()}, out) >= 0) std::ifstream(out) >> peak;

  std::printf("12-megapixel JPEG of %.1f MB, one thread, median CPU time of %zu rounds\n",
              static_cast<double>(bytes.size()) / 1e6, rounds);
  std::printf("  file to decoded picture, reduced     %8.3f s\n", median(decode));
  std::printf("  file to stored pattern%s %8.3f s\n", usable ? "              " : " (not usable!)",
              median(ours));
  std::printf("  SIFT on the decoded picture          %8.3f s   (%zu keypoints)\n", median(sift), keypoints);
  std::printf("  ratio, file to pattern / SIFT        %8.3f\n", median(ours) / median(sift));
  std::printf("peak memory, two workers, same photo   %8.0f MiB\n", peak);
  if (!helped) std::printf("evet --help printed nothing: its start-up is not measured\n");
  std::printf("start-up of evet --help, median wall   %8.3f s   (least %.3f s)\n", median(starts),
              *std::min_element(starts.begin(), starts.end()));
  fs::remove_all(folder);
  return usable && helped && peak > 0 && median(starts) > 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

}  // namespace
}  // namespace evet

int main(int argc, char** argv) {
  cv::setNumThreads(1);
  CLI::App app{"Times the way from a photo's bytes to its pattern."};
  std::size_t rounds = 5;
  std::string photo;
  app.add_option("ROUNDS", rounds, "of which the median counts")->check(CLI::PositiveNumber);
  app.add_option("--peak-memory", photo, "examine this photo alone and print the memory that it took");
  CLI11_PARSE(app, argc, argv);
  return photo.empty() ? evet::bench(rounds) : evet::peak_memory(photo);
}
