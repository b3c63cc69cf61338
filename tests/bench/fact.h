// tests/bench/fact.h - what tests/bench/report.mjs is told besides times.
#pragma once

#include <cstdio>

namespace bench {

/// A line of its own in the program's output.
inline void fact(const char* name, double value) { std::printf("\nfact %s %.17g\n", name, value); }

}  // namespace bench
