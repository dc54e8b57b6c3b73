// Friction by the state of thread and head, as ranges with their source. Constant data.
//
// Two kinds of sources. Friction classes of VDI 2230 part 1, table A5 (seen in two reprints): a
// coefficient outright. Ranges of the nut factor K of T = K D F, turned into a coefficient by
// K = 0.02 + 1.2 mu, which is the torque equation for usual bolts and gives the K = 0.20 that
// Shigley, 9th ed., p. 438, finds for mu = 0.15 "no matter what size".
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace fettle::torque {

constexpr double friction_of_nut_factor(double factor) {
    return (factor - 0.02) / 1.2;
}

struct Surface {
    const char* name;
    double least; // coefficient of friction, thread and head alike
    double greatest;
    const char* source;

    constexpr double middle() const { return (least + greatest) / 2; }
};

inline constexpr std::array<Surface, 11> kSurfaces = {{
    {"oiled", 0.08, 0.16,
     "class B of VDI 2230 table A5: bright, black, phosphated or zinc, with "
     "oil or grease"},
    {"dry as delivered", 0.14, 0.24,
     "class C of VDI 2230 table A5: bright, lightly oiled from the "
     "maker"},
    {"dry and rough", 0.20, 0.35, "class D of VDI 2230 table A5"},
    {"moly paste or wax", 0.04, 0.10, "class A of VDI 2230 table A5: solid lubricants, wax"},
    {"anti-seize", friction_of_nut_factor(0.09), friction_of_nut_factor(0.15),
     "K = 0.12 of Shigley table 8-15, a quarter either way (the width from common practice, no "
     "source)"},
    {"phosphated and oiled", friction_of_nut_factor(0.15), friction_of_nut_factor(0.22),
     "K 0.15 to 0.22, a chart of nut factors (seen)"},
    {"zinc plated, dry", friction_of_nut_factor(0.17), friction_of_nut_factor(0.35),
     "K 0.17 to 0.35, a chart of nut factors (seen); Shigley table 8-15 has 0.20"},
    {"cadmium plated", friction_of_nut_factor(0.15), friction_of_nut_factor(0.19),
     "K 0.15 to 0.19, a chart of nut factors (seen); Shigley table 8-15 has 0.16"},
    {"wet thread-locker", friction_of_nut_factor(0.11), 0.24,
     "K from 0.11 on phosphate, a torque sheet (seen), up to class C of VDI 2230 table A5, which "
     "lists adhesives"},
    {"plain black, dry", friction_of_nut_factor(0.20), friction_of_nut_factor(0.30),
     "K = 0.30 of Shigley table 8-15 down to the 0.20 usual for dry steel"},
    {"stainless, dry", friction_of_nut_factor(0.30), friction_of_nut_factor(0.50),
     "K 0.30 to 0.50, stainless on stainless, a chart of nut factors (seen)"},
}};

std::optional<Surface> surface_named(std::string_view name);

} // namespace fettle::torque
