// An independent account of a pack for the tests: Hermite beam elements, neighbours kept apart by
// stiff springs at the nodes, which are switched on where they are pressed. Shares nothing with the
// solver under test: other unknowns, other equations, other way to find the contacts. SI units.
#pragma once

#include <vector>

namespace fettle::test {

struct FemLeaf {
    int elements;      // from the clamp to the tip, all of one length
    double stiffness;  // N.m², E I
    double curvature;  // 1/m, free
    double half_depth; // m, from the neutral fibre to the face: half the thickness
};

struct FemPack {
    double element;              // m
    std::vector<FemLeaf> leaves; // the load hangs on the tip of the first
};

struct FemAnswer {
    bool settled;
    double eye;                 // m, height of the first leaf's tip over the clamp
    std::vector<double> moment; // N.m, of each leaf against its free shape, greatest in size
    std::vector<double> press;  // N, between each leaf and the next
};

// `friction`: coefficient, positive while the spring goes down, negative while it comes up.
FemAnswer solve_by_elements(const FemPack& pack, double half_load, double friction);

} // namespace fettle::test
