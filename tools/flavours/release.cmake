# What people run.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
