// The readings of a set as lights times normals, both up to one matrix of 3 by 3: what is known of
// a matt surface under distant lights before anything is known of these (Hayakawa, J. Opt. Soc. Am.
// A 11, 1994). Only for this room.
#pragma once

#include "relief/lights.h"

#include <Eigen/Dense>

namespace fettle::relief {

struct Factors {
    int width = 0, height = 0;
    Eigen::MatrixXd lights;               // one a row
    std::vector<Eigen::Vector3d> normals; // times albedo, one a sample
    std::vector<bool> in;                 // false where a shadow, a glint or an edge spoils it
    double third = 0, fourth = 0;         // sizes of the readings' axes beside the first

    bool enough() const; // samples
    bool tells() const;  // the third axis is more than noise: there is relief, and lights differ
};
// Precondition: 4 photos or more.
Factors factors_of(const SmallSet& set);

} // namespace fettle::relief
