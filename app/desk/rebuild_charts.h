// The rebuild at a glance as charts, the same for the window and the build book. Any thread.
#pragma once

#include "calc/plot_bars.h"
#include "notebook/rebuild.h"

namespace fettle::desk {

// A row for each group, shared out by its positions.
calc::ShareChart chart_of_groups(const std::vector<GroupShares>& groups);
// The latest twenty years of them; the label says so where there are more.
inline constexpr std::size_t kMostMonths = 240;
calc::MonthChart chart_of_hours(const std::vector<MonthHours>& months);
// What was spent in that currency, in its major unit; from the first month it was spent in, of the
// latest twenty years, to the last one.
calc::MonthChart chart_of_spent(const std::vector<MonthSpent>& months, const std::string& currency);

} // namespace fettle::desk
