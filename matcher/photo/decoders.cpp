#include "matcher/photo/decoders.h"

#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <csignal>
#include <cstring>
#include <opencv2/core/utility.hpp>
#include <optional>

#include "matcher/base/error.h"
#include "matcher/photo/decode_budget.h"
#include "matcher/photo/decode_here.h"
#include "matcher/photo/messages.h"
#include "matcher/photo/photo_wire.h"
#include "matcher/photo/read_file.h"

namespace evet {
namespace {

std::atomic<Decoders*> used{nullptr};

enum class Said : std::uint8_t { done, error, wants_room };

// One picture, from request to answer.
void serve_one(Line& line, const Decoders::Work& work) {
  const bool pixels = line.get_value<std::uint8_t>() != 0;
  DecodeOptions options;
  options.max_megapixels = line.get_value<double>();
  options.enough_long_side_px = line.get_value<std::int32_t>();
  std::vector<std::byte> file(line.get_value<std::uint64_t>());
  line.get(file.data(), file.size());
  std::optional<Photo> photo;
  PhotoHeader header;
  try {
    if (pixels)
      photo = work.decode(file, options, [&](std::uint64_t bytes) {
        line.put_value(Said::wants_room);
        line.put_value(bytes);
        line.get_value<std::uint8_t>();
      });
    else
      header = work.header(file, options);
  } catch (const LineBroken&) {
    throw;
  } catch (const Error& error) {
    line.put_value(Said::error);
    return put_error(line, error.kind(), error.what());
  } catch (const std::exception&) {  // std::bad_alloc, and OpenCV's word for it
    line.put_value(Said::error);
    return put_error(line, ErrorKind::too_large,
                     Reason{messages::kDecodingTakesMuchMemory, messages::kExportItSmaller}.words());
  }
  line.put_value(Said::done);
  if (photo)
    put_photo(line, *photo);
  else
    put_header(line, header);
}

// Only `socket` stays open, as descriptor 3, beside three that lead nowhere.
int keep_only(int socket) {
  constexpr int kAside = 10;  // it may lie where it is about to be covered
  socket = ::fcntl(socket, F_DUPFD_CLOEXEC, kAside);
  const int nowhere = ::open("/dev/null", O_RDWR | O_CLOEXEC);
  for (const int fd : {0, 1, 2}) ::dup2(nowhere, fd);
  ::dup2(socket, 3);
  ::close_range(4, ~0U, 0);
  return 3;
}

[[noreturn]] void be_decoder(int socket, const DecoderLimits& limits, const Decoders::Work& work) {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  socket = keep_only(socket);
  confine(limits.sandbox);
  Line line(socket);
  try {
    for (;;) serve_one(line, work);
  } catch (const std::exception&) {  // the asker is done
  }
  ::_exit(0);
}

// A message of one byte with two descriptors.
bool send_two(int to, int first, int second) {
  char byte = '!';
  iovec data{&byte, 1};
  alignas(cmsghdr) std::array<char, CMSG_SPACE(2 * sizeof(int))> control{};
  msghdr message{};
  message.msg_iov = &data, message.msg_iovlen = 1;
  message.msg_control = control.data(), message.msg_controllen = control.size();
  cmsghdr* head = CMSG_FIRSTHDR(&message);
  head->cmsg_level = SOL_SOCKET, head->cmsg_type = SCM_RIGHTS, head->cmsg_len = CMSG_LEN(2 * sizeof(int));
  const std::array<int, 2> both{first, second};
  std::memcpy(CMSG_DATA(head), both.data(), sizeof both);
  return ::sendmsg(to, &message, MSG_NOSIGNAL) == 1;
}
std::array<int, 2> receive_two(int from) {
  char byte = 0;
  iovec data{&byte, 1};
  alignas(cmsghdr) std::array<char, CMSG_SPACE(2 * sizeof(int))> control{};
  msghdr message{};
  message.msg_iov = &data, message.msg_iovlen = 1;
  message.msg_control = control.data(), message.msg_controllen = control.size();
  std::array<int, 2> both{-1, -1};
  if (::recvmsg(from, &message, MSG_CMSG_CLOEXEC) != 1) return both;
  const cmsghdr* head = CMSG_FIRSTHDR(&message);
  if (head != nullptr && head->cmsg_type == SCM_RIGHTS && head->cmsg_len == CMSG_LEN(sizeof both))
    std::memcpy(both.data(), CMSG_DATA(head), sizeof both);
  return both;
}

// A decoder for each byte that comes, until whoever sends them has gone; then all end.
[[noreturn]] void be_maker(int socket, const DecoderLimits& limits, const Decoders::Work& work) {
  for (const int sign : {SIGINT, SIGHUP, SIGPIPE}) std::signal(sign, SIG_IGN);  // the end comes by the socket
  std::signal(SIGCHLD, SIG_IGN);
  cv::setNumThreads(1);
  socket = keep_only(socket);
  for (char byte = 0; ::read(socket, &byte, 1) == 1;) {
    int both[2];
    if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, both) != 0) ::_exit(1);
    const pid_t child = ::fork();
    if (child == 0) be_decoder(both[1], limits, work);
    ::close(both[1]);
    const auto handle = child < 0 ? -1 : static_cast<int>(::syscall(SYS_pidfd_open, child, 0));
    if (handle < 0 || !send_two(socket, both[0], handle)) ::_exit(1);
    ::close(both[0]), ::close(handle);
  }
  ::_exit(0);
}

Error died(const std::string& item) {
  return {ErrorKind::bad_input, item, messages::kBytesStoppedDecoderPictureIs,
          messages::kCopyFromCamerasCardAgain};
}
Error too_slow(const std::string& item, int seconds) {
  return {ErrorKind::bad_input, item,
          Message(messages::kDecodingTakesLongerThanS, {{"seconds", std::to_string(seconds)}}),
          messages::kCopyFromCamerasCardAgainOr};
}
Error none_to_be_had() {
  return {ErrorKind::storage, "decoder of pictures", messages::kMachineGivesNoMoreProcesses,
          messages::kCloseOtherProgramsAndRun};
}

}  // namespace

struct Decoders::Decoder {
  int socket, process;
  Line line;
  Decoder(int fd, int handle) : socket(fd), process(handle), line(fd) {}
  ~Decoder() {  // by its handle: whatever it is doing, and never another process
    ::syscall(SYS_pidfd_send_signal, process, SIGKILL, nullptr, 0);
    ::close(socket), ::close(process);
  }
  Decoder(const Decoder&) = delete;
  Decoder& operator=(const Decoder&) = delete;
};

Decoders::Work Decoders::usual() {
  return {[](std::span<const std::byte> file, const DecodeOptions& options) {
            return read_header_here(file, {}, options);
          },
          [](std::span<const std::byte> file, const DecodeOptions& options, const Grant& grant) {
            return decode_here(file, {}, options, grant);
          }};
}

Decoders::Decoders(const DecoderLimits& limits, Work work) : limits_(limits) {
  int both[2];
  if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, both) != 0) throw none_to_be_had();
  maker_pid_ = ::fork();
  if (maker_pid_ == 0) {
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    be_maker(both[1], limits, work);
  }
  ::close(both[1]);
  maker_ = both[0];
  if (maker_pid_ < 0) throw none_to_be_had();
}

Decoders::~Decoders() {
  if (in_use() == this) use(nullptr);
  idle_.clear();
  ::close(maker_);
  ::waitpid(maker_pid_, nullptr, 0);
}

Decoders* Decoders::in_use() {
  return used;
}
void Decoders::use(Decoders* decoders) {
  used = decoders;
}

std::unique_ptr<Decoders::Decoder> Decoders::make() {
  const char byte = '!';
  if (::send(maker_, &byte, 1, MSG_NOSIGNAL) != 1) throw none_to_be_had();
  const auto [socket, process] = receive_two(maker_);
  if (socket < 0 || process < 0) throw none_to_be_had();
  return std::make_unique<Decoder>(socket, process);
}
std::unique_ptr<Decoders::Decoder> Decoders::take() {
  const std::lock_guard lock(mutex_);
  if (idle_.empty()) return make();
  auto one = std::move(idle_.back());
  idle_.pop_back();
  return one;
}
void Decoders::put_back(std::unique_ptr<Decoder> decoder) {
  const std::lock_guard lock(mutex_);
  idle_.push_back(std::move(decoder));
}

template <class Result>
Result Decoders::ask(std::span<const std::byte> file, const std::string& item, const DecodeOptions& options,
                     bool pixels, const std::function<Result(Decoder&)>& answer) {
  if (file.size() > kMaxPhotoBytes) throw Error(ErrorKind::too_large, item, messages::kFileIsLargerThanAny);
  auto decoder = take();
  Line& line = decoder->line;
  std::optional<DecodeShare> share;
  try {
    line.allow_seconds(limits_.seconds);
    line.put_value<std::uint8_t>(pixels);
    line.put_value<double>(options.max_megapixels);
    line.put_value<std::int32_t>(options.enough_long_side_px);
    line.put_value<std::uint64_t>(file.size());
    line.put(file.data(), file.size());
    auto said = line.get_value<std::uint8_t>();
    if (pixels && said == static_cast<std::uint8_t>(Said::wants_room)) {
      share.emplace(std::min(line.get_value<std::uint64_t>(), DecodeShare::kAll));
      line.allow_seconds(limits_.seconds);  // who waits for room has not been slow
      line.put_value<std::uint8_t>(1);
      said = line.get_value<std::uint8_t>();
    }
    if (said == static_cast<std::uint8_t>(Said::error)) {
      const Error error = get_error(line, item);
      put_back(std::move(decoder));
      throw error;
    }
    if (said != static_cast<std::uint8_t>(Said::done)) throw LineBroken("it says what no decoder says");
    Result result = answer(*decoder);
    put_back(std::move(decoder));
    return result;
  } catch (const LineTooSlow&) {
    throw too_slow(item, limits_.seconds);
  } catch (const LineBroken&) {
    throw died(item);
  }
}

PhotoHeader Decoders::header(std::span<const std::byte> file, const std::string& item,
                             const DecodeOptions& options) {
  return ask<PhotoHeader>(file, item, options, false,
                          [&](Decoder& from) { return get_header(from.line, options); });
}
Photo Decoders::decode(std::span<const std::byte> file, const std::string& item,
                       const DecodeOptions& options) {
  return ask<Photo>(file, item, options, true, [&](Decoder& from) { return get_photo(from.line, options); });
}

}  // namespace evet
