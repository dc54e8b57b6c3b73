// The hanger H7 through its repair: the same casting from the same view in each state.
#pragma once

#include "scene.h"

namespace fettle::demo {

enum class HangerState { rusted, blasted, primed, enamelled };

Scene hanger_view(HangerState state);
// The maker's mark on its foot, close.
Scene hanger_mark(HangerState state);

} // namespace fettle::demo
