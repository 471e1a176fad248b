# For a debugger.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
