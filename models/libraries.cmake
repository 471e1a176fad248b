# What the models are built on: also for who links them from outside.
find_package(PkgConfig REQUIRED)
find_package(Boost REQUIRED)  # headers alone
find_package(Eigen3 REQUIRED)
find_package(nlohmann_json REQUIRED)
pkg_check_modules(NLOPT REQUIRED IMPORTED_TARGET GLOBAL nlopt)
find_library(EVET_CSV csv REQUIRED)  # linked by its name
