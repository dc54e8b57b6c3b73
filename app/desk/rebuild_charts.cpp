#include "desk/rebuild_charts.h"

#include <cmath>

namespace fettle::desk {
namespace {

constexpr int kHoursSeries = 1; // its colour among those of the series

// A year mistyped long ago would draw out hundreds of empty months.
void leave_out_far_off(calc::MonthChart& chart) {
    if (chart.values.size() <= kMostMonths) return;
    const std::size_t before = chart.values.size() - kMostMonths;
    chart.values.erase(chart.values.begin(), chart.values.begin() + std::ptrdiff_t(before));
    chart.first += std::chrono::months(before);
    chart.label += ", from " + to_words(chart.first) + " on";
}

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
    leave_out_far_off(chart);
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
    leave_out_far_off(chart);
    return chart;
}

} // namespace fettle::desk
