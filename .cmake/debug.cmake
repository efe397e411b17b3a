# cmake -C .cmake/debug.cmake -S . -B build-debug -G Ninja: unoptimised, with Eigen's own checks.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
