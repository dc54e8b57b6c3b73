// Heights from slopes.
#pragma once

#include "base/result.h"
#include "relief/grid.h"
#include "relief/work.h"

namespace fettle::relief {

// The heights whose differences between neighbours come nearest, in the least squares, to the
// slopes (rise a pixel to the right and downwards) in the middle between them: Poisson's equation
// with free edges, solved in cosines (Simchony, Chellappa and Shao, IEEE PAMI 12, 1990, section
// III; Frankot and Chellappa, IEEE PAMI 10, 1988, is the same with edges that join). Their mean is
// 0, in pixels. Of a slope that leans as a whole (slopes of one value everywhere) a plane comes
// out. Refused (invalid): grids of two sizes, or with less than two samples on a side. Fails with
// cancelled.
Result<Grid> heights_of(const Grid& to_the_right, const Grid& downwards, const Work& work = {});

// Without the plane that comes nearest to all of it.
Grid levelled(Grid heights);

} // namespace fettle::relief
