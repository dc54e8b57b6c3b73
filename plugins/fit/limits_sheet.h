// The sheet fit.limits in words: checks what was typed, looks both tolerance zones up, says what
// kind of fit they make. Knows notes and refusals of the contract, but no sink and no host. SI.
#pragma once

#include "fit/words.h"

namespace fettle::fit {

inline constexpr const char* kIsoSystem = "ISO 286";
inline constexpr const char* kInchSystem = "ANSI B4.1";
inline constexpr std::array<const char*, 2> kSystems = {kIsoSystem, kInchSystem};

inline constexpr const char* kMustRun = "must move freely";
inline constexpr const char* kMustHold = "must hold by its grip";
inline constexpr std::array<const char*, 3> kDuties = {"no matter", kMustRun, kMustHold};

struct LimitsTyped {
    std::string system; // blank: ISO 286
    std::optional<double> size;
    std::string hole;       // ISO 286
    std::string shaft;      // ISO 286
    std::string inch_class; // ANSI B4.1
    std::string duty;       // blank: no matter
};

struct LimitedPart {
    const char* part;  // "hole"
    std::string named; // "H7"
    double lower;      // deviations
    double upper;
};

struct LimitsAnswer {
    LimitedPart hole;
    LimitedPart shaft;
    double size;
    double clearance_min; // negative: interference
    double clearance_max;
    std::string kind;
    std::string use;
    Account account;
    Picture picture;
};

Outcome<LimitsAnswer> work_limits(const LimitsTyped& typed);

} // namespace fettle::fit
