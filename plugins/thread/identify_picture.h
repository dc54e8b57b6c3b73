// The pictures of thread.identify: the found profile and its look-alike to scale with the measured
// crest, and the standard threads round the measured point.
#pragma once

#include "thread/identify_sheet.h"

namespace fettle::thread {

// `other` may be nullptr: no look-alike. `all` is ranked, best first.
void draw_identified(const Readings& readings, const std::vector<Match>& all, const Match* other,
                     IdentifyAnswer& answer);

} // namespace fettle::thread
