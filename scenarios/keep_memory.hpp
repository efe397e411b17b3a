// Memory that a solved model gives back stays with the process: the next model takes it without asking the system.
//
// A model's large arrays are else mapped and unmapped each time, and two threads then wait for each other in the kernel: two
// threads over variants gain less (docs/performance.md). Not for a process that is to lie idle for long.
#pragma once

#include <malloc.h>

namespace hoofload::scenarios {

inline void keep_memory() {
  mallopt(M_MMAP_MAX, 0);
  mallopt(M_TRIM_THRESHOLD, 1 << 30);
}

}  // namespace hoofload::scenarios
