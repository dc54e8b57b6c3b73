// Inside the sheet torque.tighten: everything that was typed, settled into one job before any sum
// is done, and the parts of the sheet that work on it. SI units.
#pragma once

#include "screw_threads/engagement.h"
#include "screw_threads/grades.h"
#include "torque/scatter.h"
#include "torque/seats.h"
#include "torque/surfaces.h"
#include "torque/threads.h"
#include "torque/tighten_sheet.h"

namespace fettle::torque {

enum class ScatterBy { share, factor, readings };

struct Rubbing {
    Friction taken;
    Friction slick; // the least and the greatest the surface may have; equal where typed
    Friction sticky;
    std::optional<Surface> surface; // when the friction, or half of it, came from there
};

struct Joint { // what the bolt screws into and what pulls at it
    PartMaterial into;
    double into_tensile; // Pa
    bool into_typed;
    PartMaterial bears_on;
    std::optional<double> have; // m, thread engaged
    std::optional<double> grip; // m
    std::optional<double> outer_load;
    double shank;                         // m
    std::optional<double> bolt_stiffness; // typed
    std::optional<double> parts_stiffness;
};

struct Job {
    Thread thread;
    Grade grade;
    Rubbing rubbing;
    UsualHead head; // with what was typed put in
    const char* seat_source;
    bool by_yield;
    double use;
    ScatterBy scatter_by;
    double scatter;
    double factor;
    std::vector<double> readings;
    double prevailing;
    Joint joint;
    std::string place;
};

plugin::Outcome<Job> settle(const TightenTyped& typed);

// Engagement, pressure under the head, outer load and place: fills the answer and its account.
// Comes after preload and scatter are known.
void work_joint(const Job& job, TightenAnswer& answer);

// To scale: bolt, clamped parts and thread engaged, with the engagement needed. And preload over
// torque with the band of the scatter.
Picture bolt_drawing(const Job& job, const TightenAnswer& answer);
Picture preload_chart(const Job& job, const TightenAnswer& answer);

} // namespace fettle::torque
