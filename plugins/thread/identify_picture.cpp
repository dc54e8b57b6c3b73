#include "thread/identify_picture.h"

#include "screw_threads/words.h"
#include "thread/profile.h"

#include <algorithm>

namespace fettle::thread {
namespace {

using plugin::line;
using screw::Thread;

constexpr int kTurnsDrawn = 4;
constexpr std::size_t kDotsShown = 6;

void draw_profiles(const Readings& readings, const Match& best, const Match* other,
                   screw::Picture& picture) {
    const auto root = [](const Match* match) {
        return screw::core_diameter(match->known.thread) / 2;
    };
    const double greatest =
        std::max(best.known.thread.pitch, other != nullptr ? other->known.thread.pitch : 0.0);
    const double floor =
        std::min(root(&best), other != nullptr ? root(other) : root(&best)) - greatest / 2;
    double from = 0;
    for (const Match* match : {&best, other}) {
        if (match == nullptr) continue;
        const Thread& thread = match->known.thread;
        picture.traces.push_back(
            {thread.name, FETTLE_BODY, profile_outline(thread, from, kTurnsDrawn, floor)});
        picture.labels.push_back({{from, thread.diameter / 2 + greatest / 3},
                                  line(thread.name, ", ", screw::form_name(thread.form))});
        from += kTurnsDrawn * thread.pitch + 2 * greatest;
    }
    const double measured = readings.diameter / 2;
    picture.traces.push_back({readings.hole ? "measured bore" : "measured crest",
                              FETTLE_DASHED,
                              {{0, measured}, {from - 2 * greatest, measured}}});
}

void draw_field(const Readings& readings, const std::vector<Match>& all, screw::Picture& picture) {
    std::vector<fettle_point> dots;
    for (std::size_t i = 0; i < kDotsShown && i < all.size(); ++i) {
        const fettle_point at{all[i].basic, all[i].known.thread.pitch};
        dots.push_back(at);
        picture.labels.push_back({at, all[i].known.thread.name});
    }
    picture.traces.push_back({"standard threads", FETTLE_DOTS, dots});
    picture.traces.push_back({"measured", FETTLE_DOTS, {{readings.diameter, readings.pitch}}});
    // Basic sizes that the reading may come from, worn by as much as was said.
    const double worn = readings.wear;
    const double low = readings.diameter - readings.diameter_doubt - (readings.hole ? worn : 0);
    const double high = readings.diameter + readings.diameter_doubt + (readings.hole ? 0 : worn);
    const double fine = readings.pitch * (1 - readings.pitch_doubt);
    const double coarse = readings.pitch * (1 + readings.pitch_doubt);
    picture.traces.push_back(
        {"within wear and gauge",
         FETTLE_DASHED,
         {{low, fine}, {high, fine}, {high, coarse}, {low, coarse}, {low, fine}}});
}

} // namespace

void draw_identified(const Readings& readings, const std::vector<Match>& all, const Match* other,
                     IdentifyAnswer& answer) {
    draw_profiles(readings, all[0], other, answer.profile);
    draw_field(readings, all, answer.field);
}

} // namespace fettle::thread
