// The sheet thread.engagement in words: how much thread must be screwed in so that the bolt breaks
// before a thread strips, in each material, and what the worn thread that is there still holds.
//
// FED-STD-H28/2 through screw_threads/engagement.h. SI units; knows no sink and no host.
#pragma once

#include "screw_threads/picture.h"
#include "thread/joined.h"

namespace fettle::thread {

struct EngagementTyped {
    JoinedTyped joined;
    std::optional<double> have;       // m, full threads engaged
    std::optional<double> bolt_major; // m, measured outside of the worn bolt
    std::optional<double> hole_minor; // m, measured bore of the worn hole
};

struct MaterialRow {
    std::string name;
    double tensile, needed, diameters;
};

struct EngagementAnswer {
    double needed = 0; // m
    double diameters = 0, turns = 0;
    double bolt_breaks = 0;                    // N
    std::optional<double> strip_load, reserve; // N; strip over break
    std::vector<MaterialRow> materials;
    screw::Picture load{"load", {}, {}};
    screw::Picture section{"section", {}, {}};
    plugin::Account account;
};

plugin::Outcome<EngagementAnswer> work_engagement(const EngagementTyped& typed);

} // namespace fettle::thread
