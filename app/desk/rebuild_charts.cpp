#include "desk/rebuild_charts.h"

#include <cmath>

namespace fettle::desk {
namespace {

constexpr int kHoursSeries = 1; // its colour among those of the series

} // namespace

calc::ShareChart chart_of_groups(const std::vector<GroupShares>& groups) {
    calc::ShareChart chart{
        "Positions by group", {"fitted", "there, not fitted yet", "missing"}, {}};
    for (const GroupShares& one : groups) {
        const Shares& shares = one.positions;
        chart.rows.push_back(
            {one.label, {shares.fitted, shares.there, shares.missing}, to_words(shares)});
    }
    return chart;
}

calc::MonthChart chart_of_hours(const std::vector<MonthHours>& months) {
    calc::MonthChart chart{"Hours by month", "hours", {}, {}, kHoursSeries};
    if (!months.empty()) chart.first = months.front().month;
    for (const MonthHours& month : months)
        chart.values.push_back(month.hours);
    return chart;
}

calc::MonthChart chart_of_spent(const std::vector<MonthSpent>& months,
                                const std::string& currency) {
    calc::MonthChart chart{"Cost by month, " + currency, currency, {}, {}, calc::kFrame};
    const double major = std::pow(10.0, decimals_of(currency));
    std::size_t filled = 0;
    for (const MonthSpent& month : months) {
        const bool spent = month.spent.holds(currency);
        if (chart.values.empty() && !spent) continue;
        if (chart.values.empty()) chart.first = month.month;
        chart.values.push_back(double(month.spent.in(currency)) / major);
        if (spent) filled = chart.values.size();
    }
    chart.values.resize(filled);
    return chart;
}

} // namespace fettle::desk
