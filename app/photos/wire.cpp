#include "photos/wire.h"

#include "base/tag.h"
#include "photos/answer_json.h"
#include "photos/hashing.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fettle::photos {

json to_json(const Place& place) {
    json value{{"latitude", place.latitude}, {"longitude", place.longitude}};
    if (place.altitude_m) value["altitude_m"] = *place.altitude_m;
    return value;
}

Place place_from(const json& value) {
    Place place{value.at("latitude").get<double>(), value.at("longitude").get<double>(), {}};
    if (value.contains("altitude_m")) place.altitude_m = value.at("altitude_m").get<double>();
    return place;
}

Failure failure_from(const json& value) {
    constexpr int kLastFailureKind = static_cast<int>(FailureKind::cancelled);
    const int kind = value.at("kind").get<int>();
    return {kind >= 0 && kind <= kLastFailureKind ? static_cast<FailureKind>(kind)
                                                  : FailureKind::plugin,
            value.at("sentence").get<std::string>(), value.at("detail").get<std::string>()};
}

namespace {

constexpr const char* kKinds[] = {"hash",   "look",          "picture", "region", "sidecar",
                                  "packet", "without place", "cut",     "copy"};

json to_json(const Moment& moment) {
    json value{{"local_ms", moment.local.time_since_epoch().count()},
               {"has_subsecond", moment.has_subsecond}};
    if (moment.offset) value["offset_min"] = moment.offset->count();
    return value;
}

Moment moment_from(const json& value) {
    Moment moment;
    moment.local += std::chrono::milliseconds(value.at("local_ms").get<std::int64_t>());
    moment.has_subsecond = value.at("has_subsecond").get<bool>();
    if (value.contains("offset_min"))
        moment.offset = std::chrono::minutes(value.at("offset_min").get<int>());
    return moment;
}

json to_json(const ExifFacts& exif) {
    json value{{"orientation", exif.orientation},
               {"make", exif.camera_make},
               {"model", exif.camera_model},
               {"lens", exif.lens}};
    if (exif.taken) value["taken"] = to_json(*exif.taken);
    if (exif.place) value["place"] = to_json(*exif.place);
    return value;
}

ExifFacts exif_from(const json& value) {
    ExifFacts exif;
    exif.orientation = value.at("orientation").get<int>();
    exif.camera_make = value.at("make").get<std::string>();
    exif.camera_model = value.at("model").get<std::string>();
    exif.lens = value.at("lens").get<std::string>();
    if (value.contains("taken")) exif.taken = moment_from(value.at("taken"));
    if (value.contains("place")) exif.place = place_from(value.at("place"));
    return exif;
}

bool is_sound(const Look& look) {
    return is_hash(look.hash) && look.width > 0 && look.height > 0 && look.exif.orientation >= 1 &&
           look.exif.orientation <= 8 && !look.thumbnail.empty() &&
           std::ranges::all_of(look.tags, is_tag) && std::isfinite(look.sharpness.value_or(0)) &&
           look.sharpness.value_or(0) >= 0;
}

} // namespace

std::string to_text(const Question& question) {
    const auto& region = question.region;
    return dumped({{"do", kKinds[static_cast<int>(question.kind)]},
                   {"longest_side", question.longest_side},
                   {"region", {region.x, region.y, region.width, region.height}},
                   {"scale", region.scale},
                   {"body", question.body}});
}

Result<Question> question_from(std::string_view text) {
    try {
        const auto value = json::parse(text);
        const auto kind = value.at("do").get<std::string>();
        const auto sides = value.at("region").get<std::array<int, 4>>();
        for (std::size_t at = 0; at < std::size(kKinds); ++at)
            if (kind == kKinds[at])
                return Question{
                    static_cast<Question::Kind>(at),
                    value.at("longest_side").get<int>(),
                    {sides[0], sides[1], sides[2], sides[3], value.at("scale").get<double>()},
                    value.at("body").get<std::string>()};
    } catch (const json::exception&) {
    }
    return Failure{FailureKind::invalid, "The question makes no sense.", std::string(text)};
}

Frame answer_frame(const Failure& failure) {
    return {dumped({{"failure",
                     {{"kind", static_cast<int>(failure.kind)},
                      {"sentence", failure.sentence},
                      {"detail", failure.detail}}}}),
            {}};
}

Frame answer_frame(const std::string& hash) {
    return {dumped({{"hash", hash}}), {}};
}

Frame answer_frame(Look look) {
    json value{{"hash", look.hash},       {"bytes", look.bytes},   {"format", look.format},
               {"width", look.width},     {"height", look.height}, {"exif", to_json(look.exif)},
               {"damaged", look.damaged}, {"damage", look.damage}, {"tags", look.tags}};
    if (look.sharpness) value["sharpness"] = *look.sharpness;
    if (look.likeness) value["likeness"] = *look.likeness;
    return {dumped(value), std::move(look.thumbnail)};
}

Frame answer_frame(Picture picture) {
    return {dumped({{"width", picture.width}, {"height", picture.height}}),
            std::move(picture.rgba)};
}

Frame answer_frame(Size size) {
    return {dumped({{"width", size.width}, {"height", size.height}}), {}};
}

Frame answer_frame(JpegCopy copy) {
    return {dumped({{"width", copy.size.width}, {"height", copy.size.height}}),
            std::move(copy.jpeg)};
}

Result<std::string> hash_from(Frame frame) {
    return answer_from<std::string>(frame, [](const json& value) -> std::optional<std::string> {
        auto hash = value.at("hash").get<std::string>();
        return is_hash(hash) ? std::optional(hash) : std::nullopt;
    });
}

Result<Look> look_from(Frame frame) {
    return answer_from<Look>(frame, [&](const json& value) -> std::optional<Look> {
        Look look;
        look.hash = value.at("hash").get<std::string>();
        look.bytes = value.at("bytes").get<std::uint64_t>();
        look.format = value.at("format").get<std::string>();
        look.width = value.at("width").get<int>();
        look.height = value.at("height").get<int>();
        look.exif = exif_from(value.at("exif"));
        look.damaged = value.at("damaged").get<bool>();
        look.damage = value.at("damage").get<std::string>();
        look.tags = value.at("tags").get<std::vector<std::string>>();
        if (value.contains("sharpness")) look.sharpness = value.at("sharpness").get<double>();
        if (value.contains("likeness")) look.likeness = value.at("likeness").get<std::uint64_t>();
        look.thumbnail = std::move(frame.blob);
        return is_sound(look) ? std::optional(std::move(look)) : std::nullopt;
    });
}

Result<Picture> picture_from(Frame frame) {
    return answer_from<Picture>(frame, [&](const json& value) -> std::optional<Picture> {
        Picture picture{value.at("width").get<int>(), value.at("height").get<int>(), {}};
        if (picture.width <= 0 || picture.height <= 0 ||
            std::uint64_t(picture.width) * picture.height * 4 != frame.blob.size())
            return std::nullopt;
        picture.rgba = std::move(frame.blob);
        return picture;
    });
}

Result<Size> size_from(Frame frame) {
    return answer_from<Size>(frame, [](const json& value) -> std::optional<Size> {
        const Size size{value.at("width").get<int>(), value.at("height").get<int>()};
        return size.width > 0 && size.height > 0 ? std::optional(size) : std::nullopt;
    });
}

Result<JpegCopy> copy_from(Frame frame) {
    return answer_from<JpegCopy>(frame, [&](const json& value) -> std::optional<JpegCopy> {
        JpegCopy copy{{value.at("width").get<int>(), value.at("height").get<int>()}, {}};
        if (copy.size.width <= 0 || copy.size.height <= 0 || frame.blob.empty())
            return std::nullopt;
        copy.jpeg = std::move(frame.blob);
        return copy;
    });
}

} // namespace fettle::photos
