// Pictures without a tag's code, many of them made to look like one: grids, nested squares, codes
// that were scrambled or hold something else, and pieces of the demo's photographs.
#pragma once

#include "photos/picture.h"

#include <random>
#include <vector>

namespace tag_tests {

class NoCodes {
  public:
    explicit NoCodes(std::vector<fettle::photos::Picture> photographs)
        : photographs_(std::move(photographs)) {}
    // The picture with this number; the same number gives the same picture.
    fettle::photos::Picture picture(unsigned number) const;

  private:
    std::vector<fettle::photos::Picture> photographs_;
};

} // namespace tag_tests
