# What people run.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
# A fresh machine builds in little over half the time. Who changes one file again and again sets this off in the own build.
set(EVET_UNITY ON CACHE BOOL "")
