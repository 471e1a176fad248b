# Address and undefined-behaviour sanitizers; asserts stay on.
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(EVET_SANITIZE address,undefined CACHE STRING "")
set(EVET_BENCH OFF CACHE STRING "")
