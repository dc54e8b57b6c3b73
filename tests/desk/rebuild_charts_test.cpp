#include "desk/rebuild_charts.h"

#include <doctest/doctest.h>

using namespace fettle;

TEST_CASE("a month far off does not draw out the chart: the latest twenty years stand in it") {
    const CalendarMonth last{std::chrono::year(2026), std::chrono::March};
    std::vector<MonthHours> months;
    for (CalendarMonth at = last - std::chrono::months(12 * 1000); at <= last;
         at += std::chrono::months(1))
        months.push_back({.month = at});
    months.front().hours = 3;
    months.back().hours = 5;
    const auto chart = desk::chart_of_hours(months);
    REQUIRE(chart.values.size() == 240);
    CHECK(chart.values.back() == 5);
    CHECK(chart.first == CalendarMonth{std::chrono::year(2006), std::chrono::April});
    CHECK(chart.label == "Hours by month, from Apr 2006 on");
    months.erase(months.begin(), months.end() - 240);
    CHECK(desk::chart_of_hours(months).label == "Hours by month");
}
