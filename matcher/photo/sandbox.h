// What a process that reads bytes from elsewhere may still do: compute, take some memory, and answer through
// what it has open. No file, no program, no network, no other process.
#pragma once
#include <cstdint>

namespace evet {

struct SandboxLimits {
  std::uint64_t memory_bytes = 2'000'000'000;  // beside what the process has already
};

// For this process and for good. System calls go through seccomp (seccomp(2), by libseccomp): what is not on
// the list fails with EPERM. Whether the kernel took the list; memory and files are limited in either case.
bool confine(const SandboxLimits& limits);

}  // namespace evet
