// Fourier transforms of grids, for shifts between pictures, and the cosine transform in which
// heights are found (height.h).
//
// By Eigen's own transform and not by FFTW, which is under the GPL: the program would come under it
// as a whole. Pure; any thread.
#pragma once

#include "relief/grid.h"
#include "relief/work.h"

#include <complex>
#include <memory>

namespace fettle::relief {

// The next length that has no other prime factors than 2, 3 and 5: others take many times as long.
int quick_length(int least);

// A cosine transform of lines (DCT-II and its inverse, by one complex transform of the same length
// for two lines: Makhoul, IEEE Trans. ASSP 28, 1980). Not orthonormal: X[k] = sum x[n] cos(pi k
// (2 n + 1) / 2 N), and inverse() undoes it. One thread each.
class CosineLines {
  public:
    explicit CosineLines(int length);
    ~CosineLines();
    // Two lines at a time, in place.
    void forward(double* one, double* other);
    void inverse(double* one, double* other);

  private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

// Of both axes, in place, by several threads. Fails with cancelled.
enum class Way { forward, inverse };
Done cosine_transform(Grid& grid, Way way, const Work& work, const std::string& what);

// How well `moved` fits on `still` at every whole shift: entry (x, y) is that of moved by (x, y),
// cyclic, so that the last column is a shift by -1. Both are put into a square of quick length at
// least both sizes, with zeros around. Phase alone (Kuglin and Hines, 1975) gives a sharp peak
// where both are alike and nothing else; without it sums of products come out.
enum class Weigh { phase, products };
Grid correlated(const Grid& still, const Grid& moved, Weigh weigh, int side);

} // namespace fettle::relief
