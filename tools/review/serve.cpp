#include "tools/review/serve.h"

#include <signal.h>

#include <ostream>
#include <thread>

#include "matcher/base/error.h"
#include "tools/review/server.h"

namespace evet::review {
namespace {

bool loopback(const std::string& host) {
  return host == "127.0.0.1" || host == "::1" || host == "localhost";
}

}  // namespace

void serve(const std::filesystem::path& catalogue, Env& env, PageOptions options, std::ostream& out,
           std::ostream& log) {
  options.check();
  if (!loopback(options.host) && options.passphrase.size() < 8)
    throw Error(ErrorKind::usage, "--listen " + options.host,
                "other machines could open the page, and no passphrase keeps them out",
                "give --passphrase-file with at least 8 characters, or leave --listen out");
  // Blocked before any thread starts, so that the one that waits for them is the one that gets them.
  sigset_t ends;
  sigemptyset(&ends);
  sigaddset(&ends, SIGINT), sigaddset(&ends, SIGTERM);
  pthread_sigmask(SIG_BLOCK, &ends, nullptr);

  Server server(options.host, options.port);
  options.port = server.port();
  Page page(catalogue, env, options);
  for (const std::string& warning : page.catalogue().warnings()) log << warning << '\n';
  if (!loopback(options.host))
    log << "Warning: whoever is on this network and knows the passphrase can read and write this catalogue, "
           "and "
           "what is sent can be read on the way. Use a network of your own, and stop the program "
           "afterwards.\n";
  log << "Open this address in a browser; Ctrl-C ends the page.\n";
  out << page.url() << std::endl;
  std::thread waiting([&] {
    int which = 0;
    sigwait(&ends, &which);
    server.stop();
  });
  server.run(page);
  // Stopped by a signal, or the socket failed: either way the waiting thread is let go.
  pthread_kill(waiting.native_handle(), SIGTERM);
  waiting.join();
}

}  // namespace evet::review
