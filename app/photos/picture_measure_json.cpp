#include "photos/picture_measure.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace fettle::photos {
namespace {

using nlohmann::json;

json json_of(const ClickedPoint& point) {
    return json::array({point.x, point.y, point.sure});
}

json json_of(const KnownSize& size) {
    return {{"typed", size.typed}, {"metres", size.metres}, {"within", size.within}};
}

template <std::size_t N>
json json_of(const std::array<ClickedPoint, N>& points) {
    auto list = json::array();
    for (const ClickedPoint& point : points)
        list.push_back(json_of(point));
    return list;
}

// The readers throw json's own exceptions or std::out_of_range; `read` makes a Failure of them.
ClickedPoint point_of(const json& list) {
    const ClickedPoint point{list.at(0), list.at(1), list.at(2)};
    if (!std::isfinite(point.x) || !std::isfinite(point.y) || !(point.sure > 0))
        throw std::out_of_range("a point that is no place");
    return point;
}

KnownSize size_of(const json& body) {
    const KnownSize size{body.at("typed"), body.at("metres"), body.at("within")};
    if (!(size.metres > 0) || !(size.within >= 0 && size.within < size.metres))
        throw std::out_of_range("a size that is none");
    return size;
}

template <std::size_t N>
std::array<ClickedPoint, N> points_of(const json& list) {
    if (list.size() != N) throw std::out_of_range("another number of points");
    std::array<ClickedPoint, N> points;
    for (std::size_t i = 0; i < N; ++i)
        points[i] = point_of(list.at(i));
    return points;
}

template <class Read>
auto read(std::string_view text, const char* what, Read read_body)
    -> Result<decltype(read_body(json()))> {
    try {
        return read_body(json::parse(text));
    } catch (const std::exception& error) {
        return Failure{FailureKind::damaged,
                       std::string(what) + " cannot be read: remove it and set it anew.",
                       error.what()};
    }
}

} // namespace

std::string to_json(const KnownInPicture& known) {
    if (const auto* length = std::get_if<KnownLength>(&known))
        return json{{"length", json_of(length->length)}, {"points", json_of(length->ends)}}.dump();
    const auto& rectangle = std::get<KnownRectangle>(known);
    return json{{"width", json_of(rectangle.width)},
                {"height", json_of(rectangle.height)},
                {"points", json_of(rectangle.corners)}}
        .dump();
}

Result<KnownInPicture> known_from_json(std::string_view text) {
    return read(text, "What is known in this photo", [](const json& body) -> KnownInPicture {
        if (body.contains("length"))
            return KnownLength{points_of<2>(body.at("points")), size_of(body.at("length"))};
        return KnownRectangle{points_of<4>(body.at("points")), size_of(body.at("width")),
                              size_of(body.at("height"))};
    });
}

std::string to_json(const std::vector<Distance>& distances) {
    auto list = json::array();
    for (const Distance& distance : distances)
        list.push_back(json_of(distance));
    return list.dump();
}

Result<std::vector<Distance>> distances_from_json(std::string_view text) {
    return read(text, "What was measured in this photo", [](const json& body) {
        std::vector<Distance> distances;
        for (const json& distance : body)
            distances.push_back(points_of<2>(distance));
        return distances;
    });
}

} // namespace fettle::photos
