#include "photos/sight.h"

#include "photos/grey.h"
#include "photos/jpeg.h"
#include "photos/tag_read.h"
#include "photos/tag_scan.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <utility>

namespace fettle::photos {
namespace {

// Pictures with a longer side than this are searched at half size: tags are made to be read where
// their modules have six pixels, which leaves three.
constexpr int kWholeSide = 2000;

bool is_searched_at_half(Size stored) {
    return std::max(stored.width, stored.height) > kWholeSide;
}

Box grown(const Box& box, int factor, Size limit) {
    const int x = box.x * factor, y = box.y * factor;
    return {x, y, std::min(box.width * factor, limit.width - x),
            std::min(box.height * factor, limit.height - y)};
}

// Whether a corner square, in pixels of the whole picture, belongs to the code in the box, whose
// sides run through the middles of its corner squares or outside of them.
bool belongs_to(const Box& box, double x, double y, double module) {
    const double border = 5 * module;
    return x > box.x - border && x < box.x + box.width + border && y > box.y - border &&
           y < box.y + box.height + border;
}

// How many places are looked at in vain: texture may have many, and each costs as much as a tag.
constexpr int kMostInVain = 8;

// The tags in a picture that was searched as `searched`, at 1/factor of its size; `whole` gives it
// at full size, and is only called when there may be one.
std::vector<std::string> tags_of(const Grey& searched, int factor,
                                 const std::function<std::optional<Grey>()>& whole) {
    const auto places = tag_places(searched);
    if (places.empty()) return {};
    const auto full = whole();
    if (!full) return {};
    std::vector<std::string> tags;
    std::vector<Box> read;
    int in_vain = 0;
    for (const auto& place : places) {
        const double module = place.module * factor;
        if (in_vain == kMostInVain) break;
        if (std::ranges::any_of(read, [&](const Box& box) {
                return belongs_to(box, place.square.x * factor, place.square.y * factor, module);
            }))
            continue; // another corner of a code that was read
        const auto box = grown(place.box, factor, full->size());
        if (box.width <= 0 || box.height <= 0) continue;
        const auto found = tags_in(cropped(*full, box), module, (place.squares + 2) / 3);
        in_vain += found.empty();
        for (const auto& [tag, where] : found) {
            read.push_back({box.x + where.x, box.y + where.y, where.width, where.height});
            if (std::ranges::find(tags, tag) == tags.end()) tags.push_back(tag);
        }
    }
    return tags;
}

std::vector<std::string> tags_of(const Picture& picture) {
    const auto grey = grey_of(picture);
    const auto whole = [&]() -> std::optional<Grey> { return grey; };
    if (!is_searched_at_half(picture.size())) return tags_of(grey, 1, whole);
    return tags_of(halved(grey), 2, whole);
}

Sight sight_of(DecodedPicture decoded, Size small) {
    Sight sight{{}, std::move(decoded.damage), tags_of(decoded.picture)};
    sight.small = decoded.picture.size() == small ? std::move(decoded.picture)
                                                  : shrunk(decoded.picture, small);
    return sight;
}

// A JPEG of brightness and colour: both are had apart, and colour stays as coarse as it is stored.
// Nothing for other JPEGs and for small ones, whose colour would be coarser than the thumbnail.
Result<std::optional<Sight>> see_planes(std::span<const std::byte> bytes, Size stored, Size small) {
    const int eighths = is_searched_at_half(stored) ? 4 : 8;
    auto decoded = decode_jpeg_planes(bytes, eighths, small);
    if (!decoded) return decoded.failure();
    if (!*decoded) return std::optional<Sight>();
    auto& planes = **decoded;
    Sight sight{thumbnail_of(planes, small), std::move(planes.damage), {}};
    sight.tags = tags_of(planes.brightness, 8 / eighths, [&]() -> std::optional<Grey> {
        if (eighths == 8) return std::move(planes.brightness);
        auto whole = decode_jpeg_grey(bytes);
        return whole ? std::optional(std::move(*whole)) : std::nullopt;
    });
    return std::optional(std::move(sight));
}

} // namespace

Result<Sight> see(const Recognised& recognised, std::span<const std::byte> bytes, Size small) {
    if (recognised.format == "JPEG") {
        auto planes = see_planes(bytes, recognised.stored, small);
        if (!planes) return planes.failure();
        if (*planes) return std::move(**planes);
    }
    auto decoded = decode(recognised, bytes, recognised.stored);
    if (!decoded) return decoded.failure();
    return sight_of(std::move(*decoded), small);
}

} // namespace fettle::photos
