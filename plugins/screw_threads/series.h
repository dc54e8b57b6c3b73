// The standard series of screw threads as tables: threads to the inch by size, coarse and fine
// pitches by diameter, BA by number. Constant data.
#pragma once

#include "screw_threads/threads.h"

#include <span>

namespace fettle::screw {

// Threads to the inch of the standard series, 0 where there is none.
// UNC, UNF, 8-UN, UNEF: ASME B1.1 (UNEF from memory). BSW, BSF: BS 84. BSC (also called CEI or
// cycle): BS 811, from memory. BSB, brass tube and fittings: 26 to the inch in every size, of
// Whitworth form; trade practice, from memory.
struct InchSize {
    const char* size;
    double inches;
    double unc, unf, un8, bsw, bsf, bsc;
    double unef = 0, bsb = 0;
};

struct Series {
    const char* name;
    Form form;
    double InchSize::*tpi;
    bool of_diameter; // see Thread
};

struct MetricSize {         // or BA, by its number
    double diameter, pitch; // mm
};

std::span<const InchSize> inch_sizes();
std::span<const Series> inch_series();
std::span<const MetricSize> coarse_pitches();      // ISO 261
std::span<const MetricSize> fine_pitches();        // ISO 261, from memory
std::span<const MetricSize> association_threads(); // BS 93, 0BA to 12BA

} // namespace fettle::screw
