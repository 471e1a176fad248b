#include "matcher/photo/sandbox.h"

#include <fcntl.h>
#include <sched.h>
#include <seccomp.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <initializer_list>

namespace evet {
namespace {

// The address and thread sanitizers map terabytes of address space for themselves.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
constexpr bool kSanitized = true;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
constexpr bool kSanitized = true;
#else
constexpr bool kSanitized = false;
#endif
#else
constexpr bool kSanitized = false;
#endif

void limit(__rlimit_resource_t what, std::uint64_t most) {
  const rlimit both{most, most};
  ::setrlimit(what, &both);
}

std::uint64_t address_space() {
  std::uint64_t pages = 0;
  std::ifstream("/proc/self/statm") >> pages;
  return pages * static_cast<std::uint64_t>(::sysconf(_SC_PAGESIZE));
}

// What memory, threads, locks, clocks and the answer need.
constexpr int kAllowed[] = {SCMP_SYS(read),
                            SCMP_SYS(pread64),  // of what is open: a database handed over
                            SCMP_SYS(write),
                            SCMP_SYS(close),
                            SCMP_SYS(brk),
                            SCMP_SYS(munmap),
                            SCMP_SYS(mremap),
                            SCMP_SYS(madvise),
                            SCMP_SYS(futex),
                            SCMP_SYS(exit),
                            SCMP_SYS(exit_group),
                            SCMP_SYS(rt_sigaction),
                            SCMP_SYS(rt_sigprocmask),
                            SCMP_SYS(rt_sigreturn),
                            SCMP_SYS(sigaltstack),
                            SCMP_SYS(restart_syscall),
                            SCMP_SYS(getpid),
                            SCMP_SYS(gettid),
                            SCMP_SYS(getrandom),
                            SCMP_SYS(clock_gettime),
                            SCMP_SYS(gettimeofday),
                            SCMP_SYS(nanosleep),
                            SCMP_SYS(sched_yield),
                            SCMP_SYS(clock_nanosleep),
                            SCMP_SYS(sched_getaffinity),
                            SCMP_SYS(set_robust_list),
                            SCMP_SYS(rseq),
                            SCMP_SYS(setitimer),
                            SCMP_SYS(fstat),
                            SCMP_SYS(newfstatat),
                            SCMP_SYS(getrusage)};

bool restrict_calls() {
  scmp_filter_ctx rules = ::seccomp_init(SCMP_ACT_ERRNO(EPERM));
  if (rules == nullptr) return false;
  bool good = true;
  for (const int call : kAllowed) good = good && ::seccomp_rule_add(rules, SCMP_ACT_ALLOW, call, 0) == 0;
  const auto rule = [&](std::uint32_t action, int call, std::initializer_list<scmp_arg_cmp> arguments) {
    good = good && ::seccomp_rule_add_array(rules, action, call, static_cast<unsigned>(arguments.size()),
                                            arguments.begin()) == 0;
  };
  const auto bits = [](unsigned argument, scmp_datum_t which, scmp_datum_t as) {
    return scmp_arg_cmp{argument, SCMP_CMP_MASKED_EQ, which, as};
  };
  // Memory, but none that holds a program; nothing mapped from a file.
  rule(SCMP_ACT_ALLOW, SCMP_SYS(mmap), {bits(2, PROT_EXEC, 0), bits(3, MAP_ANONYMOUS, MAP_ANONYMOUS)});
  rule(SCMP_ACT_ALLOW, SCMP_SYS(mprotect), {bits(2, PROT_EXEC, 0)});
  // Threads, but no process. The flags of clone3 lie in memory, where no rule sees them.
  rule(SCMP_ACT_ALLOW, SCMP_SYS(clone), {bits(0, CLONE_THREAD, CLONE_THREAD)});
  rule(SCMP_ACT_ERRNO(ENOSYS), SCMP_SYS(clone3), {});
  // abort() signals its own process alone.
  rule(SCMP_ACT_ALLOW, SCMP_SYS(tgkill), {{0, SCMP_CMP_EQ, static_cast<scmp_datum_t>(::getpid()), 0}});
  good = good && ::seccomp_load(rules) == 0;
  ::seccomp_release(rules);
  return good;
}

}  // namespace

bool confine(const SandboxLimits& limits) {
  ::prctl(PR_SET_DUMPABLE, 0);
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_FSIZE, 0);
  if (!kSanitized) limit(RLIMIT_AS, address_space() + limits.memory_bytes);
  limit(RLIMIT_NOFILE, 0);  // last: reading one's own size took a file
  return restrict_calls();
}

}  // namespace evet
