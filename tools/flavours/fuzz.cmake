# The fuzz programs, under the address and undefined-behaviour sanitizers.
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(CMAKE_C_COMPILER clang CACHE STRING "")
set(CMAKE_CXX_COMPILER clang++ CACHE STRING "")
set(EVET_SANITIZE address,undefined,fuzzer-no-link CACHE STRING "")
set(EVET_FUZZ ON CACHE STRING "")
set(EVET_BENCH OFF CACHE STRING "")
