// The page's connections, before anything that comes over them is believed: who connects may send a small
// request soon, and nothing else.
//
// One thread looks after all of them and reads what comes, up to a bound and a time; only a request that has
// arrived whole costs a thread of its own, and only while it is answered. A connection that dawdles holds a
// few kilobytes. When there are too many, of all or of one address, the one that has waited longest with
// nothing asked goes, strangers first. So neither slow connections nor a flood of them keep a reader from the
// next pair.
#pragma once
#include <chrono>
#include <functional>
#include <memory>
#include <string>

namespace evet::review {

struct FrontLimits {
  std::size_t head_bytes = 16 * 1024;  // request line and headers
  std::size_t body_bytes = 64 * 1024;
  std::size_t connections = 512, of_one_peer = 256;
  std::size_t threads = 16;                   // that answer
  std::chrono::milliseconds request{10'000};  // from its first byte to its last
  std::chrono::milliseconds idle{60'000};     // between requests
  std::chrono::milliseconds answer{30'000};   // without the other side taking a byte of it
};

// The bytes of one request, whole, or its head alone where its body is longer than allowed
// or of unknown length.
struct Arrived {
  std::string bytes;
  std::string peer;  // numeric address of the other side
  int port = 0;      // of the other side
};
struct Answered {
  std::string bytes;
  bool close = false;
  bool trusted = false;  // the other side is known: its connection goes last when there are too many
};

class Front {
 public:
  // `listening`: a socket that listens; owned from here on.
  Front(int listening, std::function<Answered(const Arrived&)> answer, const FrontLimits& limits = {});
  ~Front();
  Front(const Front&) = delete;
  Front& operator=(const Front&) = delete;

  void run();   // until stop()
  void stop();  // from any thread, also before run()

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

// What can be told of a request's end from its bytes so far.
struct RequestEnd {
  enum { unfinished, whole, head_only, too_large } state = unfinished;
  std::size_t bytes = 0;  // of it, when it is whole or head_only
};
RequestEnd request_end(const std::string& bytes, const FrontLimits& limits);

}  // namespace evet::review
