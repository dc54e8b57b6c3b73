#include "photos/sidecar_wire.h"

#include "photos/answer_json.h"

#include <cmath>

namespace fettle::photos {
namespace {

json to_json(const NamedBox& box) {
    return {
        {"at", {box.x, box.y, box.w, box.h}}, {"name", box.name}, {"description", box.description}};
}

NamedBox box_from(const json& value) {
    const auto at = value.at("at").get<std::array<double, 4>>();
    return {at[0],
            at[1],
            at[2],
            at[3],
            value.at("name").get<std::string>(),
            value.at("description").get<std::string>()};
}

json to_json(const Sidecar& sidecar) {
    json value{{"description", sidecar.description},
               {"subjects", sidecar.subjects},
               {"boxes", json::array()}};
    for (const auto& box : sidecar.boxes)
        value["boxes"].push_back(to_json(box));
    if (sidecar.place) value["place"] = to_json(*sidecar.place);
    return value;
}

Sidecar sidecar_in(const json& value) {
    Sidecar sidecar{value.at("description").get<std::string>(),
                    value.at("subjects").get<std::vector<std::string>>(),
                    {},
                    {}};
    for (const auto& box : value.at("boxes"))
        sidecar.boxes.push_back(box_from(box));
    if (value.contains("place")) sidecar.place = place_from(value.at("place"));
    return sidecar;
}

} // namespace

std::string to_text(const SidecarWish& wish) {
    return dumped({{"width", wish.lie.upright.width},
                   {"height", wish.lie.upright.height},
                   {"orientation", wish.lie.orientation},
                   {"sidecar", to_json(wish.sidecar)}});
}

Result<SidecarWish> sidecar_wish_from(std::string_view text) {
    try {
        const auto value = json::parse(text);
        return SidecarWish{{{value.at("width").get<int>(), value.at("height").get<int>()},
                            value.at("orientation").get<int>()},
                           sidecar_in(value.at("sidecar"))};
    } catch (const json::exception&) {
        return Failure{FailureKind::invalid, "The question makes no sense.", std::string(text)};
    }
}

Frame answer_frame(const Sidecar& sidecar) {
    return {dumped({{"sidecar", to_json(sidecar)}}), {}};
}

Frame answer_frame(std::vector<std::byte> bytes) {
    return {dumped({{"bytes", bytes.size()}}), std::move(bytes)};
}

Result<Sidecar> sidecar_from(Frame frame) {
    return answer_from<Sidecar>(
        frame, [](const json& value) { return std::optional(sidecar_in(value.at("sidecar"))); });
}

Result<std::vector<std::byte>> bytes_from(Frame frame) {
    return answer_from<std::vector<std::byte>>(
        frame, [&](const json& value) -> std::optional<std::vector<std::byte>> {
            if (value.at("bytes").get<std::size_t>() != frame.blob.size()) return {};
            return std::move(frame.blob);
        });
}

} // namespace fettle::photos
