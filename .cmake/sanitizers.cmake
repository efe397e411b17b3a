# cmake -C .cmake/sanitizers.cmake -S . -B build-sanitizers -G Ninja: address and undefined behaviour, for tests and fuzzing.
set(CMAKE_BUILD_TYPE RelWithDebInfo CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELWITHDEBINFO "-O1 -g" CACHE STRING "")
set(HOOFLOAD_SANITIZE "address,undefined" CACHE STRING "")
