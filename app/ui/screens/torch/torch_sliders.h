// How a relief is looked at: what of it is shown, and the sliders, each with its keys.
#pragma once

#include "ui/beside/torch_work.h"
#include "ui/frame/page.h"

namespace fettle::ui {

// True while ← and → move a slider.
bool torch_sliders(Page& page, relief::View& view, const TorchDone& done);

} // namespace fettle::ui
