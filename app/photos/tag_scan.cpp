#include "photos/tag_scan.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <optional>
#include <span>

namespace fettle::photos {
namespace {

// How far the samples must turn back before a line counts as having crossed from light to dark:
// over the noise of a picture, under the contrast of a tag in the shade.
constexpr int kLeastSwing = 14;
// Beside a strong edge JPEG leaves ripples, some pixels wide: there a quarter of the edge is
// needed.
constexpr int kRippleWidth = 24;
constexpr double kLeastApart = 0.15;
constexpr int kRowStep = 3;
// A corner square is 7 modules wide; at 2 pixels a module nothing can be told any more.
constexpr double kLeastModule = 1.7;

constexpr std::size_t kMostPlaces = 60;

// Where light and dark change along one line of samples.
struct Edges {
    std::vector<double> at;
    std::vector<int> levels;  // the turning point before each edge
    bool starts_dark = false; // the stretch before the first edge

    void add(double place, int level) {
        at.push_back(place);
        levels.push_back(level);
    }
};

// The place between two turning points where the samples pass their middle.
double crossing(const std::uint8_t* line, int from, int to) {
    const double middle = (line[from] + line[to]) / 2.0;
    const bool falls = line[from] > line[to];
    for (int x = from; x < to; ++x) {
        const double here = line[x], next = line[x + 1];
        if (falls ? (here >= middle && next < middle) : (here <= middle && next > middle))
            return x + 0.5 + (middle - here) / (next - here);
    }
    return (from + to + 1) / 2.0;
}

// How far back the samples must turn, `away` pixels behind the end of a rise or fall of `swing`.
int swing_needed(int swing, int away) {
    return std::max(kLeastSwing, swing * (kRippleWidth - away) / (4 * kRippleWidth));
}

// Follows the line from one turning point to the next: heights and hollows far enough apart,
// whatever the light does in between.
void find_edges(std::span<const std::uint8_t> line, Edges& edges) {
    edges.at.clear();
    edges.levels.clear();
    int high = 0, low = 0, last = -1; // places of the extremes since the last turn
    bool is_rising = false, is_known = false;
    const auto* samples = line.data();
    const int count = static_cast<int>(line.size());
    for (int x = 1; x < count; ++x) {
        const int here = samples[x];
        if (here > samples[high]) high = x;
        if (here < samples[low]) low = x;
        if (!is_known) {
            if (samples[high] - samples[low] < kLeastSwing) continue;
            is_known = true;
            is_rising = high > low;
            last = is_rising ? low : high;
            edges.starts_dark = is_rising;
        } else if (is_rising &&
                   samples[high] - here >= swing_needed(samples[high] - samples[last], x - high)) {
            edges.add(crossing(samples, last, high), samples[last]);
            last = high;
            is_rising = false;
            low = x;
        } else if (!is_rising &&
                   here - samples[low] >= swing_needed(samples[last] - samples[low], x - low)) {
            edges.add(crossing(samples, last, low), samples[last]);
            last = low;
            is_rising = true;
            high = x;
        }
        if (is_rising)
            low = x; // only the height counts until the line turns
        else
            high = x;
    }
    if (is_known) edges.add(crossing(samples, last, is_rising ? high : low), samples[last]);
}

struct Pattern {
    double middle = 0; // of the wide dark run
    double module = 0;
    double core = 0; // its width
};

// Whether the five runs that start at edge `first` are 1:1:3:1:1, near enough for a blurred
// square that is seen aslant.
std::optional<Pattern> pattern_at(const Edges& edges, std::size_t first) {
    const double* e = edges.at.data() + first;
    const double module = (e[5] - e[0]) / 7;
    if (module < kLeastModule) return {};
    const double core = e[3] - e[2];
    if (std::abs(core - 3 * module) > 1.0 * module) return {};
    for (int run : {0, 1, 3, 4})
        if (std::abs(e[run + 1] - e[run] - module) > 0.5 * module) return {};
    // Light and dark of one square keep well apart; in texture they mingle.
    const int* levels = edges.levels.data() + first;
    const auto [darkest, dark] = std::minmax({levels[1], levels[3], levels[5]});
    const auto [light, lightest] = std::minmax({levels[2], levels[4]});
    if (light - dark < kLeastApart * (lightest - darkest)) return {};
    return Pattern{(e[2] + e[3]) / 2, module, core};
}

class Scan {
  public:
    explicit Scan(const Grey& grey) : grey_(grey) {}

    std::vector<Finder> run() {
        for (int y = kRowStep; y < grey_.height; y += kRowStep)
            look_along(y);
        return std::move(found_);
    }

  private:
    void look_along(int y) {
        find_edges({grey_.row(y), std::size_t(grey_.width)}, row_);
        // Runs that are dark start at every second edge.
        for (std::size_t first = row_.starts_dark ? 1 : 0; first + 5 < row_.at.size(); first += 2)
            if (auto across = pattern_at(row_, first); across && !is_known(*across, y))
                confirm(*across, y);
    }

    bool is_known(const Pattern& across, int y) const {
        return std::ranges::any_of(found_, [&](const Finder& finder) {
            const double reach = 2.5 * std::max(finder.widest, across.module);
            return std::abs(finder.x - across.middle) < reach && std::abs(finder.y - y) < reach;
        });
    }

    void confirm(const Pattern& across, int y) {
        const auto down = pattern_through(across.middle, y + 0.5, 0, 1, across.module);
        if (!down) return;
        // What is a square from side to side is one from corner to corner as well.
        const double middle = y + 0.5 + down->middle;
        Finder finder{across.middle, middle, std::min(across.module, down->module),
                      std::max(across.module, down->module)};
        int diagonals = 0;
        for (int way : {1, -1})
            if (auto aslant = pattern_through(across.middle, middle, 1, way, across.module)) {
                ++diagonals;
                // A step along a diagonal is 1.4 pixels long.
                const double module = aslant->module * std::numbers::sqrt2;
                finder.narrowest = std::min(finder.narrowest, module);
                finder.widest = std::max(finder.widest, module);
            }
        if (diagonals == 0) return; // one of the two may be lost in the blur
        finder.is_sure = diagonals == 2;
        found_.push_back(finder);
    }

    // The pattern along a line through a point whose wide dark run holds that point; its middle is
    // told from there. `module` is how wide one is along the row: seen aslant, twice that at most.
    std::optional<Pattern> pattern_through(double x, double y, int dx, int dy, double module) {
        const int reach = static_cast<int>(std::ceil(module * 8)) + 2;
        const int px = static_cast<int>(x), py = static_cast<int>(y);
        line_samples_.clear();
        int before = 0;
        for (int step = -reach; step <= reach; ++step) {
            const int ax = px + step * dx, ay = py + step * dy;
            if (ax < 0 || ay < 0 || ax >= grey_.width || ay >= grey_.height) continue;
            before += step < 0;
            line_samples_.push_back(grey_.row(ay)[ax]);
        }
        find_edges(line_samples_, line_);
        for (std::size_t first = line_.starts_dark ? 1 : 0; first + 5 < line_.at.size();
             first += 2) {
            auto pattern = pattern_at(line_, first);
            if (!pattern) continue;
            pattern->middle -= before + 0.5;
            const double skew = pattern->module / module;
            if (std::abs(pattern->middle) < 0.6 * pattern->core && skew > 0.45 && skew < 2.2)
                return pattern;
        }
        return {};
    }

    const Grey& grey_;
    Edges row_, line_;
    std::vector<std::uint8_t> line_samples_;
    std::vector<Finder> found_;
};

// Codes of tags have 21 to 29 modules a side (versions 1 to 3): two corner squares lie 14 to 22 of
// them apart, or 31 across; seen aslant less. Texture has odd squares, too: only those of one size
// belong together.
bool may_belong_together(const Finder& one, const Finder& other) {
    const double ratio = one.narrowest / other.narrowest;
    const double apart = std::hypot(one.x - other.x, one.y - other.y);
    return ratio > 0.6 && ratio < 1.67 && apart > 8 * std::min(one.narrowest, other.narrowest) &&
           apart < 34 * std::min(one.widest, other.widest);
}

// The box that holds the whole code, with some of its border, whichever corner the square is at.
Box box_around(const Finder& finder, Size full) {
    constexpr double kFarthestCorner = 38; // modules
    const double module = std::min(finder.widest, finder.narrowest * std::numbers::sqrt2);
    const int reach = static_cast<int>(kFarthestCorner * module) + 1;
    const int x = std::max(0, static_cast<int>(finder.x) - reach);
    const int y = std::max(0, static_cast<int>(finder.y) - reach);
    return {x, y, std::min(full.width, static_cast<int>(finder.x) + reach) - x,
            std::min(full.height, static_cast<int>(finder.y) + reach) - y};
}

} // namespace

std::vector<Finder> find_finders(const Grey& grey) {
    return Scan(grey).run();
}

std::vector<TagPlace> tag_places(const Grey& grey) {
    const auto finders = find_finders(grey);
    std::vector<TagPlace> places;
    for (const auto& finder : finders) {
        std::size_t squares = 1;
        bool is_any_sure = finder.is_sure;
        for (const auto& other : finders)
            if (&other != &finder && may_belong_together(finder, other)) {
                ++squares;
                is_any_sure = is_any_sure || other.is_sure;
            }
        // One square of the three may be lost in blur or shade; texture seldom has two that match,
        // one of them sure.
        if (squares < 2 || !is_any_sure) continue;
        places.push_back({box_around(finder, grey.size()), finder, finder.narrowest, squares});
    }
    std::ranges::stable_sort(places, std::greater{}, &TagPlace::squares);
    if (places.size() > kMostPlaces) places.resize(kMostPlaces);
    return places;
}

} // namespace fettle::photos
