#include "thread/drills.h"

#include "screw_threads/words.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fettle::thread {
namespace {

using plugin::line;
using screw::Form;
using screw::kInch;
using screw::plain_number;

// Thousandths and tenths of them, in; no. 1 to no. 60.
constexpr double kNumbers[] = {
    .2280, .2210, .2130, .2090, .2055, .2040, .2010, .1990, .1960, .1935, .1910, .1890,
    .1850, .1820, .1800, .1770, .1730, .1695, .1660, .1610, .1590, .1570, .1540, .1520,
    .1495, .1470, .1440, .1405, .1360, .1285, .1200, .1160, .1130, .1110, .1100, .1065,
    .1040, .1015, .0995, .0980, .0960, .0935, .0890, .0860, .0820, .0810, .0785, .0760,
    .0730, .0700, .0670, .0635, .0595, .0550, .0520, .0465, .0430, .0420, .0410, .0400};
constexpr double kLetters[] = {.234, .238, .242, .246, .250, .257, .261, .266, .272,
                               .277, .281, .290, .295, .302, .316, .323, .332, .339,
                               .348, .358, .368, .377, .386, .397, .404, .413}; // A to Z

void add_inch(std::vector<Drill>& all) {
    for (std::size_t i = 0; i < std::size(kNumbers); ++i)
        all.push_back({line("no. ", std::to_string(i + 1)), kNumbers[i] * kInch});
    for (std::size_t i = 0; i < std::size(kLetters); ++i) {
        // E is the quarter-inch drill and goes by that name.
        if (kLetters[i] == .250) continue;
        all.push_back(
            {line("letter ", std::string(1, static_cast<char>('A' + i))), kLetters[i] * kInch});
    }
    for (int n = 3; n <= 160; ++n) {
        const int common = std::gcd(n, 64);
        const int bottom = 64 / common;
        const int whole = n / 64;
        const int top = n / common - whole * bottom;
        std::string name = whole > 0 ? std::to_string(whole) : "";
        if (top > 0) {
            name += line(name.empty() ? "" : " ", std::to_string(top), "/", std::to_string(bottom));
        }
        all.push_back({name + " in", n / 64.0 * kInch});
    }
}

void add_metric(std::vector<Drill>& all) {
    struct Steps {
        double from, to, step; // hundredths of a millimetre
    };
    static constexpr Steps kSteps[] = {
        {100, 300, 5}, {310, 1400, 10}, {1425, 3200, 25}, {3250, 6400, 50}};
    for (const Steps& steps : kSteps) {
        for (double size = steps.from; size <= steps.to; size += steps.step)
            all.push_back({line(plain_number(size / 100), " mm"), size / 1e5});
    }
}

// d - P as ISO 2306 rounds it, m; nothing where the tenths of the standard drills end.
std::optional<double> metric_hole(const screw::Thread& thread) {
    const double hole = std::round((thread.diameter - thread.pitch) * 1e7) / 1e4; // mm
    if (hole < 1 || hole > 14) return std::nullopt;
    const double steps = hole < 3 ? 20 : 10;
    return std::nearbyint(hole * steps) / steps / 1e3;
}

Drill nearest(std::string_view set, double wanted) {
    const std::vector<Drill> all = drills(set);
    return *std::ranges::min_element(
        all, {}, [wanted](const Drill& drill) { return std::abs(drill.diameter - wanted); });
}

} // namespace

std::vector<Drill> drills(std::string_view set) {
    std::vector<Drill> all;
    if (set != "inch") add_metric(all);
    if (set != "metric") add_inch(all);
    std::ranges::stable_sort(all, {}, &Drill::diameter);
    return all;
}

double thread_share(const screw::Thread& thread, double hole) {
    return (thread.diameter - hole) / (screw::full_depth(thread.form) * thread.pitch);
}

double usual_share(Form form) {
    return form == Form::whitworth || form == Form::cycle ? 0.82 : 0.75;
}

double hole_for(const screw::Thread& thread, double share) {
    return thread.diameter - share * screw::full_depth(thread.form) * thread.pitch;
}

Drill tapping_drill(const screw::Thread& thread, std::string_view set,
                    std::optional<double> share) {
    if (share) return nearest(set, hole_for(thread, *share));
    if (thread.form != Form::metric)
        return nearest(set, hole_for(thread, usual_share(thread.form)));
    const auto hole = metric_hole(thread);
    return nearest(set == "all" ? "metric" : set, hole.value_or(thread.diameter - thread.pitch));
}

Drill drill_between(std::string_view set, double least, double wanted, double most) {
    std::vector<Drill> fitting = drills(set);
    std::erase_if(fitting, [&](const Drill& drill) {
        return drill.diameter < least || drill.diameter > most;
    });
    if (fitting.empty()) return nearest(set, wanted);
    return *std::ranges::min_element(
        fitting, {}, [wanted](const Drill& drill) { return std::abs(drill.diameter - wanted); });
}

} // namespace fettle::thread
