// Whether one bolt may stand in for another: each measure compared, with what it means for the
// joint. SI units. Knows words, but no notes, no sink and no host.
//
// What is compared: strength, stress area, thread and pitch, attainable preload, head, engagement;
// further the fit in the hole, shear, hydrogen, toughness, corrosion, nut and locking. Rules of
// judgement without a source are common practice and say so where they stand.
#pragma once

#include "screw_threads/engagement.h"
#include "screw_threads/grades.h"
#include "torque/seats.h"
#include "torque/threads.h"

#include <optional>
#include <string>
#include <vector>

namespace fettle::torque {

// Words of the form's choices.
inline constexpr std::array<const char*, 3> kDuties = {"clamps parts together", "carries shear",
                                                       "centre bolt of a leaf spring"};
inline constexpr std::array<const char*, 3> kMates = {"its own nut goes with it",
                                                      "the old nut stays", "the tapped hole stays"};
inline constexpr std::array<const char*, 4> kFinishes = {
    "plain or black", "zinc or cadmium electroplated", "zinc flake or phosphate", "stainless"};
inline constexpr std::array<const char*, 4> kLockings = {
    "nothing", "prevailing-torque nut", "split pin or wire", "tab or spring washer"};

enum class Duty { clamp, shear, centre };
enum class Mate { own_nut, old_nut, tapped_hole };
enum class Finish { plain, electroplated, other_coating, stainless };
enum class Locking { nothing, prevailing, pinned, washer };

struct Fastener {
    Thread thread;
    Grade grade;
    UsualHead head;               // with typed sizes put in
    std::optional<double> shank;  // m, plain, under the head
    std::optional<double> length; // m, under the head
};

struct Situation {
    Duty duty;
    Mate mate;
    Finish finish; // of the offered one
    Locking locking;
    PartMaterial into; // for a tapped hole
    double into_tensile;
    PartMaterial bears_on;
    std::optional<double> grip;
    std::optional<double> head_room;  // m, height free for the head
    std::optional<double> seat_hole;  // m, that a centre bolt's head sits in
    std::optional<double> seat_depth; // m
};

enum class Weight { good, worth_knowing, condition, against };

struct Finding {
    const char* measure; // "strength"
    std::string original, offered;
    const char* word; // "better", "same", "worse", "does not mate" ...
    Weight weight;
    std::string reason; // a sentence; "" for good without comment
    bool worse;
};

// Numbers the sheet gives beside the findings.
struct Ratios {
    double strength; // breaking load, offered over original
    double area;
    double preload;
    std::optional<double> pressure; // Pa under the offered head, not when it pulls through
    double engagement;              // m, needed by the offered one
};

Ratios ratios(const Fastener& original, const Fastener& offered, const Situation& at);

std::vector<Finding> compare(const Fastener& original, const Fastener& offered,
                             const Situation& at);

// The half of compare() that is about strength, and the half that is about form and surface.
void compare_strength(const Fastener& original, const Fastener& offered, const Situation& at,
                      std::vector<Finding>& findings);
void compare_form(const Fastener& original, const Fastener& offered, const Situation& at,
                  std::vector<Finding>& findings);

// Whether the nut of one runs on the other, and if not why: "" when it does.
std::string why_not_mating(const Thread& bolt, const Thread& nut);

// The ring under the offered head, on the hole of whichever is larger; nothing when the head pulls
// through.
std::optional<Seat> offered_seat(const Fastener& original, const Fastener& offered);

// Preload a bolt is tightened to here: 0.75 of the proof load, Shigley eq. 8-31.
double usual_preload(const Fastener& fastener);

} // namespace fettle::torque
