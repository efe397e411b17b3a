# cmake -C .cmake/release.cmake -S . -B build -G Ninja: optimised, portable; what the program and the tests use.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
