#include "matcher/photo/confined.h"

#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cassert>
#include <csignal>
#include <cstring>

#include "matcher/base/error.h"
#include "matcher/photo/messages.h"

namespace evet {
namespace {

constexpr std::size_t kMostFiles = 4;

// Only `socket` stays open, beside three that lead nowhere.
void keep_only(int socket) {
  constexpr int kAside = 10;  // it may lie where it is about to be covered
  socket = ::fcntl(socket, F_DUPFD_CLOEXEC, kAside);
  const int nowhere = ::open("/dev/null", O_RDWR | O_CLOEXEC);
  for (const int fd : {0, 1, 2}) ::dup2(nowhere, fd);
  ::dup2(socket, kConfinedLine);
  ::close_range(kConfinedLine + 1, ~0U, 0);
}

// A message of one byte with descriptors.
bool send_files(int to, std::span<const int> files) {
  assert(!files.empty() && files.size() <= kMostFiles);
  char byte = '!';
  iovec data{&byte, 1};
  alignas(cmsghdr) std::array<char, CMSG_SPACE(kMostFiles * sizeof(int))> control{};
  msghdr message{};
  message.msg_iov = &data, message.msg_iovlen = 1;
  message.msg_control = control.data(), message.msg_controllen = CMSG_SPACE(files.size_bytes());
  cmsghdr* head = CMSG_FIRSTHDR(&message);
  head->cmsg_level = SOL_SOCKET, head->cmsg_type = SCM_RIGHTS, head->cmsg_len = CMSG_LEN(files.size_bytes());
  std::memcpy(CMSG_DATA(head), files.data(), files.size_bytes());
  return ::sendmsg(to, &message, MSG_NOSIGNAL) == 1;
}
// Nothing when not so many come.
std::vector<int> receive_files(int from, std::size_t count) {
  char byte = 0;
  iovec data{&byte, 1};
  alignas(cmsghdr) std::array<char, CMSG_SPACE(kMostFiles * sizeof(int))> control{};
  msghdr message{};
  message.msg_iov = &data, message.msg_iovlen = 1;
  message.msg_control = control.data(), message.msg_controllen = control.size();
  std::vector<int> files(count, -1);
  if (count > kMostFiles || ::recvmsg(from, &message, MSG_CMSG_CLOEXEC) != 1) return {};
  const cmsghdr* head = CMSG_FIRSTHDR(&message);
  if (head == nullptr || head->cmsg_type != SCM_RIGHTS || head->cmsg_len != CMSG_LEN(count * sizeof(int)))
    return {};
  std::memcpy(files.data(), CMSG_DATA(head), count * sizeof(int));
  return files;
}

[[noreturn]] void be_confined(int socket, const ConfinedWork& work) {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  keep_only(socket);
  Line line(kConfinedLine);
  try {
    work(line);
  } catch (const std::exception&) {  // the asker is done
  }
  ::_exit(0);
}

// A process of the kind that each byte names, until whoever sends them has gone; then all end.
[[noreturn]] void be_maker(int socket, const std::vector<ConfinedWork>& kinds) {
  for (const int sign : {SIGINT, SIGHUP, SIGPIPE}) std::signal(sign, SIG_IGN);  // the end comes by the socket
  std::signal(SIGCHLD, SIG_IGN);
  keep_only(socket);
  for (unsigned char kind = 0; ::read(kConfinedLine, &kind, 1) == 1 && kind < kinds.size();) {
    int both[2];
    if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, both) != 0) ::_exit(1);
    const pid_t child = ::fork();
    if (child == 0) be_confined(both[1], kinds[kind]);
    ::close(both[1]);
    const int handle = child < 0 ? -1 : static_cast<int>(::syscall(SYS_pidfd_open, child, 0));
    if (handle < 0 || !send_files(kConfinedLine, std::array{both[0], handle})) ::_exit(1);
    ::close(both[0]), ::close(handle);
  }
  ::_exit(0);
}

Error none_to_be_had() {
  return {ErrorKind::storage, "process for bytes from elsewhere", messages::kMachineGivesNoMoreProcesses,
          messages::kCloseOtherProgramsAndRun};
}

}  // namespace

Confined::~Confined() {  // by its handle: never another process
  ::syscall(SYS_pidfd_send_signal, process_, SIGKILL, nullptr, 0);
  ::close(socket_), ::close(process_);
}

void Confined::hand_over(std::span<const int> files) {
  if (!send_files(socket_, files)) throw LineBroken("the other end has gone");
}
std::vector<int> take_files(std::size_t count) {
  std::vector<int> files = receive_files(kConfinedLine, count);
  if (files.empty()) throw LineBroken("the files did not come");
  return files;
}

ConfinedMaker::ConfinedMaker(const std::vector<ConfinedWork>& kinds) {
  int both[2];
  if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, both) != 0) throw none_to_be_had();
  maker_pid_ = ::fork();
  if (maker_pid_ == 0) {
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    be_maker(both[1], kinds);
  }
  ::close(both[1]);
  maker_ = both[0];
  if (maker_pid_ < 0) throw none_to_be_had();
}
ConfinedMaker::~ConfinedMaker() {
  ::close(maker_);
  ::waitpid(maker_pid_, nullptr, 0);
}

std::unique_ptr<Confined> ConfinedMaker::make(std::uint8_t kind) {
  const std::lock_guard lock(mutex_);
  if (::send(maker_, &kind, 1, MSG_NOSIGNAL) != 1) throw none_to_be_had();
  const std::vector<int> both = receive_files(maker_, 2);
  if (both.empty()) throw none_to_be_had();
  return std::make_unique<Confined>(both[0], both[1]);
}

}  // namespace evet
