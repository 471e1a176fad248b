#include "tests/bench/faults/workers.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <exception>

#include "tests/bench/faults/table.h"

namespace evet::faults {
namespace {

// The rows of a process of its own, as JSON through a pipe.
struct Worker {
  pid_t child = 0;
  int from = -1;
  explicit Worker(const std::function<std::vector<Row>()>& work) {
    int pipe[2];
    if (::pipe(pipe) != 0) std::exit(4);
    child = ::fork();
    from = pipe[0];
    if (child != 0) {
      ::close(pipe[1]);
      return;
    }
    std::vector<Row> rows;
    try {
      rows = work();
    } catch (const std::exception& error) {
      rows.push_back({"the harness itself", 1, 1, error.what()});
    }
    const std::string text = text_of(rows);
    for (std::size_t at = 0; at < text.size();) {
      const ssize_t n = ::write(pipe[1], text.data() + at, text.size() - at);
      if (n <= 0) ::_exit(4);
      at += static_cast<std::size_t>(n);
    }
    ::_exit(0);
  }
  std::vector<Row> rows() const {
    std::string text;
    char some[4096];
    for (ssize_t n = 0; (n = ::read(from, some, sizeof some)) > 0;)
      text.append(some, static_cast<std::size_t>(n));
    ::close(from);
    ::waitpid(child, nullptr, 0);
    return rows_in(text).value_or(
        std::vector<Row>{{"processes of the harness that ended early", 1, 1, "a process"}});
  }
};

}  // namespace

std::vector<Row> in_processes(const Part& part, const std::function<std::vector<Row>(const Part&)>& work) {
  std::vector<Worker> workers;
  for (std::size_t i = 0; i < part.processes; ++i) {
    Part own = part;
    own.index = part.piece * part.processes + i, own.of = part.pieces * part.processes;
    workers.emplace_back([&work, own] { return work(own); });
  }
  std::vector<Row> all;
  for (const Worker& worker : workers) add(all, worker.rows());
  return all;
}

}  // namespace evet::faults
