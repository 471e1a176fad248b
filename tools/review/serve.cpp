#include "tools/review/serve.h"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <unistd.h>

#include <memory>
#include <optional>
#include <ostream>
#include <thread>

#include "matcher/base/error.h"
#include "tools/review/messages.h"
#include "tools/review/running.h"
#include "tools/review/server.h"
#include "tools/words/in_words.h"

namespace evet::review {
namespace {

// The same port each time, where it is free: a browser keeps the reader's code, and what it could not yet
// save, by address and port.
constexpr int kUsualPort = 8737;

std::unique_ptr<Server> listen(const PageOptions& options) {
  if (options.port >= 0) return std::make_unique<Server>(options.host, options.port);
  try {
    return std::make_unique<Server>(options.host, kUsualPort);
  } catch (const Error& error) {
    if (error.kind() != ErrorKind::conflict) throw;
    return std::make_unique<Server>(options.host, 0);
  }
}

// Best effort: the address is printed as well. xdg-open is the desktop's own way (freedesktop.org xdg-utils).
void open_browser(std::string url) {
  posix_spawn_file_actions_t files;
  posix_spawn_file_actions_init(&files);
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    posix_spawn_file_actions_addopen(&files, stream, "/dev/null", O_RDWR, 0);
  posix_spawnattr_t how;
  posix_spawnattr_init(&how);
  sigset_t none;
  sigemptyset(&none);
  posix_spawnattr_setsigmask(&how, &none);  // the browser is to be ended as any program is
  posix_spawnattr_setflags(&how, POSIX_SPAWN_SETSIGMASK);
  std::string program = "xdg-open";
  char* const arguments[] = {program.data(), url.data(), nullptr};
  pid_t child = 0;
  ::signal(SIGCHLD, SIG_IGN);  // nobody waits for it
  ::posix_spawnp(&child, program.c_str(), &files, &how, arguments, environ);
  posix_spawnattr_destroy(&how);
  posix_spawn_file_actions_destroy(&files);
}

}  // namespace

void serve(const std::filesystem::path& catalogue, Env& env, PageOptions options, std::ostream& out,
           std::ostream& log) {
  options.check();
  if (!is_loopback(options.host) && options.passphrase.size() < 8)
    throw Error(ErrorKind::usage, "--listen " + options.host, messages::kOtherMachinesCouldOpenPage,
                messages::kGivePassphraseFileWithAt);
  if (catalogue.empty() && options.homes && options.port < 0 && is_loopback(options.host) && !options.json)
    if (const auto window = window_of_running_page(*options.homes, env)) {
      log << in_words(messages::kPageIsServedAlready) << "\n";
      out << *window << std::endl;
      if (options.browser) open_browser(*window);
      return;
    }
  // Blocked before any thread starts, so that the one that waits for them is the one that gets them.
  sigset_t ends;
  sigemptyset(&ends);
  sigaddset(&ends, SIGINT), sigaddset(&ends, SIGTERM);
  pthread_sigmask(SIG_BLOCK, &ends, nullptr);

  const std::unique_ptr<Server> server = listen(options);
  options.port = server->port();
  Page page(catalogue, env, options);
  page.house().end = [&] { server->stop(); };
  std::optional<RunningNote> note;
  if (options.homes) note.emplace(*options.homes, env, page.url());
  if (const auto desk = page.house().desk())
    for (const std::string& warning : desk->catalogue.warnings()) log << warning << '\n';
  if (!is_loopback(options.host)) log << in_words(messages::kWarningOfNetwork) << "\n";
  log << in_words(messages::kOpenThisAddress) << std::endl;
  if (options.json)
    out << nlohmann::json{{"url", page.url()}}.dump() << std::endl;
  else
    out << page.url() << std::endl;
  if (options.browser) open_browser(page.url_once());
  std::thread waiting([&] {
    int which = 0;
    sigwait(&ends, &which);
    server->stop();
  });
  server->run(page);
  // Stopped by a signal, or the socket failed: either way the waiting thread is let go.
  pthread_kill(waiting.native_handle(), SIGTERM);
  waiting.join();
}

}  // namespace evet::review
