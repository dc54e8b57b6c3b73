#include "photos/picture_measure.h"

#include "base/quantity.h"
#include "base/text.h"
#include "photos/plane_map.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <span>

namespace fettle::photos {
namespace {

constexpr double kHalfOfRectangular = 0.57735026918962576; // 1 / sqrt 3

Failure refused(std::string sentence) {
    return {FailureKind::invalid, std::move(sentence)};
}

double apart(const ClickedPoint& one, const ClickedPoint& other) {
    return std::hypot(one.x - other.x, one.y - other.y);
}

// Nearer than one can click: no figure could be made of it.
bool on_one_spot(const ClickedPoint& one, const ClickedPoint& other) {
    return !(apart(one, other) > std::max(one.sure, other.sure));
}

double twice_area(const ClickedPoint& a, const ClickedPoint& b, const ClickedPoint& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

Done check_corners(const std::array<ClickedPoint, 4>& corners) {
    for (std::size_t a = 0; a < 4; ++a)
        for (std::size_t b = a + 1; b < 4; ++b)
            if (on_one_spot(corners[a], corners[b]))
                return refused("Corners " + std::to_string(a + 1) + " and " +
                               std::to_string(b + 1) +
                               " of the rectangle lie on one spot: draw one of them away.");
    int turning = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        const auto &a = corners[i], &b = corners[(i + 1) % 4], &c = corners[(i + 2) % 4];
        const double area = twice_area(a, b, c), longest = std::max(apart(a, b), apart(b, c));
        // As near to the line as its ends can be clicked, and flatter than 1 in 50.
        const double flat = std::max({a.sure, b.sure, c.sure, longest / 50});
        if (std::abs(area) <= longest * flat)
            return refused("Corners " + std::to_string(i + 1) + ", " +
                           std::to_string((i + 1) % 4 + 1) + " and " +
                           std::to_string((i + 2) % 4 + 1) +
                           " of the rectangle lie in a line: draw one of them to its corner.");
        turning += area > 0 ? 1 : -1;
    }
    if (std::abs(turning) == 4) return done();
    return refused("The corners cross or do not go round a rectangle: set them one after another "
                   "round it, the first two along its width.");
}

// All that a figure depends on, as one row of numbers with their standard uncertainties, so that
// each can be moved on its own.
struct Inputs {
    std::vector<double> values, sure;
    void add(const ClickedPoint& point) {
        values.insert(values.end(), {point.x, point.y});
        sure.insert(sure.end(), {point.sure, point.sure});
    }
    void add(const KnownSize& size) {
        values.push_back(size.metres);
        sure.push_back(size.standard());
    }
};

PlanePoint point_at(std::span<const double> values, std::size_t point) {
    return {values[2 * point], values[2 * point + 1]};
}

double length_between(PlanePoint one, PlanePoint other) {
    return std::hypot(one.x - other.x, one.y - other.y);
}

// Values: from, to, the known ends, the known length.
double by_length(std::span<const double> values) {
    return length_between(point_at(values, 0), point_at(values, 1)) /
           length_between(point_at(values, 2), point_at(values, 3)) * values[8];
}

Result<PlaneMap> plane_of(std::span<const double> values) {
    const double width = values[12];
    const auto pointed = [&](std::size_t corner) {
        const auto [x, y] = point_at(values, 2 + corner);
        return ClickedPoint{x, y};
    };
    // Corners set the other way round see the rectangle's back: the same distances.
    const double height =
        twice_area(pointed(0), pointed(1), pointed(2)) > 0 ? values[13] : -values[13];
    const PlanePoint true_corners[] = {{0, 0}, {width, 0}, {width, height}, {0, height}};
    std::array<PointPair, 4> pairs;
    for (std::size_t i = 0; i < pairs.size(); ++i)
        pairs[i] = {point_at(values, 2 + i), true_corners[i]};
    return map_by_points(PlaneKind::homography, pairs, {{"the picture", 0}, {"the rectangle", 0}});
}

// Values: from, to, the corners, width and height. Not finite beyond the horizon.
double by_rectangle(std::span<const double> values) {
    const auto plane = plane_of(values);
    if (!plane) return NAN;
    const PlanePoint from = point_at(values, 0), to = point_at(values, 1);
    if (!(plane->depth(from) > 0 && plane->depth(to) > 0)) return NAN;
    return length_between((*plane)(from), (*plane)(to));
}

using Model = double (*)(std::span<const double>);

// JCGM 100:2008, formula (10), with the products of slope and uncertainty by 5.1.3, note 2.
MeasuredDistance propagated(Model model, Inputs inputs) {
    MeasuredDistance measured{model(inputs.values), 0};
    double square = 0;
    for (std::size_t i = 0; i < inputs.values.size(); ++i) {
        const double value = inputs.values[i], sure = inputs.sure[i];
        if (sure == 0) continue;
        inputs.values[i] = value + sure;
        const double above = model(inputs.values);
        inputs.values[i] = value - sure;
        const double below = model(inputs.values);
        inputs.values[i] = value;
        square += (above - below) * (above - below) / 4;
    }
    measured.standard = std::sqrt(square);
    return measured;
}

std::string fixed(double value, int decimals) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", decimals, value);
    return text;
}

} // namespace

double sure_of_click(double zoom) {
    return std::sqrt(1 / (zoom * zoom) + 1.0 / 12);
}

double KnownSize::standard() const {
    return within * kHalfOfRectangular;
}

Result<KnownSize> parse_known_size(std::string_view text, std::string_view what) {
    const auto wrong = [&](const std::string& why) {
        return refused("The " + std::string(what) + ": " + why);
    };
    std::string_view length = text, limits;
    for (const std::string_view sign : {"±", "+/-", "+-"})
        if (const auto at = text.find(sign); at != text.npos && limits.empty()) {
            length = text.substr(0, at);
            limits = trim(text.substr(at + sign.size()));
            if (limits.empty()) return wrong("after ± stands by how much it may be off.");
        }
    if (trim(length).empty())
        return wrong("type how long it is in truth, such as 5/16, 12 thou or 25 mm.");
    std::string unit = "in";
    double within = 0;
    if (!limits.empty()) {
        // "25 ± 0.1 mm": the unit at the end is that of both.
        const bool bare = parse_number(trim(length)).ok();
        const auto first =
            bare ? Result<Measured>(Measured{0, "in"}) : parse_quantity(length, "length", "in");
        if (!first) return wrong(first.failure().sentence);
        const auto off = parse_quantity(limits, "length", first->unit);
        if (!off) return wrong(off.failure().sentence);
        if (bare) unit = off->unit;
        within = off->si;
    }
    const auto size = parse_quantity(length, "length", unit);
    if (!size) return wrong(size.failure().sentence);
    if (!(size->si > 0)) return wrong("it is longer than 0, not " + fettle::quoted(text) + ".");
    if (limits.empty()) within = size->half_step;
    if (!(within >= 0 && within < size->si))
        return wrong("what stands after ± is less than the length itself, and not below 0.");
    return KnownSize{safe_utf8(trim(text)), size->si, within};
}

Done check_known(const KnownInPicture& known) {
    if (const auto* rectangle = std::get_if<KnownRectangle>(&known))
        return check_corners(rectangle->corners);
    const auto& ends = std::get<KnownLength>(known).ends;
    if (on_one_spot(ends[0], ends[1]))
        return refused("The two ends of the known length lie on one spot: draw one of them away.");
    return done();
}

Result<MeasuredDistance> measure(const KnownInPicture& known, const Distance& distance) {
    if (auto fine = check_known(known); !fine) return fine.failure();
    if (on_one_spot(distance[0], distance[1]))
        return refused("The two ends of the distance lie on one spot: draw one of them away.");
    Inputs inputs;
    inputs.add(distance[0]);
    inputs.add(distance[1]);
    MeasuredDistance measured;
    if (const auto* rectangle = std::get_if<KnownRectangle>(&known)) {
        for (const ClickedPoint& corner : rectangle->corners)
            inputs.add(corner);
        inputs.add(rectangle->width);
        inputs.add(rectangle->height);
        measured = propagated(by_rectangle, std::move(inputs));
    } else {
        const auto& length = std::get<KnownLength>(known);
        for (const ClickedPoint& end : length.ends)
            inputs.add(end);
        inputs.add(length.length);
        measured = propagated(by_length, std::move(inputs));
    }
    if (!std::isfinite(measured.metres) || !std::isfinite(measured.standard))
        return refused("An end of the distance lies at or beyond the horizon of the rectangle's "
                       "plane: measure nearer to the rectangle.");
    return measured;
}

std::string in_words(const MeasuredDistance& measured, std::string_view unit) {
    const double one = *from_unit(1, "length", unit);
    const double figure = measured.metres / one, sure = measured.expanded() / one;
    const std::string label = " " + unit_label("length", unit);
    if (!(sure > 0)) return format_number(figure, 6) + label;
    const double tens = std::floor(std::log10(sure));
    const bool two = sure / std::pow(10, tens) < 3 - 1e-9;
    const double place = tens - (two ? 1 : 0);
    const double step = std::pow(10, place);
    const int decimals = place < 0 ? int(-place) : 0;
    // A hair off, so that 0.3 stays 0.3 and does not become 0.4.
    const double rounded = std::ceil(sure / step - 1e-9) * step;
    return fixed(std::round(figure / step) * step, decimals) + " ± " + fixed(rounded, decimals) +
           label;
}

} // namespace fettle::photos
