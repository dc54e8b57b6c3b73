// The classes of fit of ANSI B4.1, inch sizes up to 19.69 in on the basic hole: running and sliding
// (RC), locational clearance (LC), transition (LT) and interference (LN), force and shrink (FN).
// Lengths in metres. No state, any thread.
//
// Sources: ANSI B4.1-1967, read in Machinery's Handbook, 31st ed., tables 8a, 8b, 10, 11 and 12
// (RC, LT, LN; FN from 4.73 in), 27th ed., table 11 (FN up to 3.94 in), and in a reprint of the
// table of LC 6 to LC 11 up to 1.97 in. From memory, the clearances with them: LC 1 to LC 5, LC 6
// to LC 11 above 1.97 in, FN from 3.94 to 4.73 in, FN 2 above 15.75 in.
#pragma once

#include "fit/tolerances.h"

#include <array>

namespace fettle::fit {

inline constexpr double kGreatestInchSize = 19.69 * 0.0254; // m

struct InchFit {
    Zone hole;
    Zone shaft;
};

struct InchClass {
    const char* name;
    const char* use; // what the class is meant for, in the words of the trade
};

inline constexpr std::array<InchClass, 34> kInchClasses = {
    {{"RC 1", "close sliding, no play to be felt"},
     {"RC 2", "sliding, moves and turns easily but does not run"},
     {"RC 3", "precision running, slow and lightly loaded, no change of temperature"},
     {"RC 4", "close running, moderate speed and load"},
     {"RC 5", "medium running, higher speed or load"},
     {"RC 6", "medium running, higher speed or load, wider limits"},
     {"RC 7", "free running, or large changes of temperature"},
     {"RC 8", "loose running, commercial limits"},
     {"RC 9", "loose running, commercial limits, the loosest"},
     {"LC 1", "located, stationary, put together by hand, the finest"},
     {"LC 2", "located, stationary, put together by hand"},
     {"LC 3", "located, stationary, put together by hand"},
     {"LC 4", "located, stationary, wide limits"},
     {"LC 5", "located, stationary, always some play"},
     {"LC 6", "located, stationary, always some play"},
     {"LC 7", "stationary, easy to put together"},
     {"LC 8", "stationary, easy to put together"},
     {"LC 9", "stationary, loose, for fasteners"},
     {"LC 10", "stationary, loose, for fasteners"},
     {"LC 11", "stationary, the loosest"},
     {"LT 1", "transition, mostly a little play"},
     {"LT 2", "transition, mostly a little play, wider limits"},
     {"LT 3", "transition, nearly no play"},
     {"LT 4", "transition, nearly no play, wider limits"},
     {"LT 5", "transition, mostly a light press"},
     {"LT 6", "transition, mostly a light press, wider limits"},
     {"LN 1", "located by a light press, carries no load by its grip"},
     {"LN 2", "located by a press, carries no load by its grip"},
     {"LN 3", "located by a firm press"},
     {"FN 1", "light drive: thin sections, long fits, cast iron"},
     {"FN 2", "medium drive: ordinary steel parts; the tightest for good cast iron"},
     {"FN 3", "heavy drive: heavier steel parts"},
     {"FN 4", "force: parts that may be highly stressed"},
     {"FN 5", "force or shrink: parts that may be highly stressed"}}};

// Tolerance of grade 4 to 13 in the inch system; nothing outside its table.
std::optional<double> inch_tolerance(int grade, double size);

// Limits of both parts; nothing for an unknown class or where the standard gives none (LT 3 and
// LT 4 up to 0.24 in, FN 3 up to 0.95 in, sizes above 19.69 in).
std::optional<InchFit> inch_fit(std::string_view name, double size);

} // namespace fettle::fit
