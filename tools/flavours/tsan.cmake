# The thread sanitizer.
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(EVET_SANITIZE thread CACHE STRING "")
set(EVET_BENCH OFF CACHE STRING "")
