#include "photos/sight.h"

#include "photos/grey.h"
#include "photos/jpeg.h"
#include "photos/likeness.h"
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
    return std::max(stored.width, stored.height) > kWholeSide &&
           std::min(stored.width, stored.height) > 1;
}

Box grown(const Box& box, int factor, Size limit) {
    const int x = box.x * factor, y = box.y * factor;
    return {x, y, std::min(box.width * factor, limit.width - x),
            std::min(box.height * factor, limit.height - y)};
}

// Whether a corner square belongs to the code in the box, whose sides run through the middles of
// its corner squares or outside of them.
bool belongs_to(const Box& box, double x, double y, double module) {
    const double border = 5 * module;
    return x > box.x - border && x < box.x + box.width + border && y > box.y - border &&
           y < box.y + box.height + border;
}

// Modules of fewer pixels are looked at in full size at once.
constexpr double kLeastAtHalf = 3;
// How many places are looked at in vain: texture may have many, and each costs as much as a tag.
constexpr int kMostInVain = 4;

// Reads the places of one picture one after the other, first from the pixels it was searched in,
// then, where that was at half size and did not do, from those at full size.
class TagsOf {
  public:
    TagsOf(const Grey& searched, int factor, const std::function<std::optional<Grey>()>& whole)
        : searched_(searched), factor_(factor), whole_(whole) {}

    std::vector<std::string> read() {
        int in_vain = 0;
        for (const auto& place : tag_places(searched_)) {
            if (in_vain == kMostInVain) break;
            if (is_read(place)) continue; // another corner of a code that was read
            in_vain += !look_at(place);
        }
        return std::move(tags_);
    }

  private:
    bool is_read(const TagPlace& place) const {
        return std::ranges::any_of(read_, [&](const Box& box) {
            return belongs_to(box, place.square.x, place.square.y, place.module);
        });
    }

    bool look_at(const TagPlace& place) {
        const std::size_t codes = (place.squares + 2) / 3;
        if (factor_ == 1) {
            keep(tags_in(cropped(searched_, place.box), place.module, codes, Effort::thorough),
                 place.box, 1);
            return is_read(place);
        }
        if (place.module >= kLeastAtHalf) {
            keep(tags_in(cropped(searched_, place.box), place.module, codes, Effort::quick),
                 place.box, 1);
            if (is_read(place)) return true;
        }
        if (!full_) full_ = whole_();
        if (!full_) return false;
        const auto box = grown(place.box, factor_, full_->size());
        if (box.width <= 0 || box.height <= 0) return false;
        keep(tags_in(cropped(*full_, box), place.module * factor_, codes, Effort::thorough),
             place.box, factor_);
        return is_read(place);
    }

    // Boxes are kept in pixels of the picture as it was searched.
    void keep(const std::vector<TagRead>& found, const Box& within, int factor) {
        for (const auto& [tag, where] : found) {
            read_.push_back({within.x + where.x / factor, within.y + where.y / factor,
                             where.width / factor, where.height / factor});
            if (std::ranges::find(tags_, tag) == tags_.end()) tags_.push_back(tag);
        }
    }

    const Grey& searched_;
    int factor_;
    const std::function<std::optional<Grey>()>& whole_;
    std::optional<Grey> full_;
    std::vector<Box> read_;
    std::vector<std::string> tags_;
};

// Tags and sharpness, of the same brightness.
void look_into(Sight& sight, const Picture& picture) {
    const auto grey = grey_of(picture);
    const std::function<std::optional<Grey>()> whole = [&] { return std::optional(grey); };
    const bool at_half = is_searched_at_half(picture.size());
    const auto searched = at_half ? halved(grey) : Grey();
    sight.tags = TagsOf(at_half ? searched : grey, at_half ? 2 : 1, whole).read();
    sight.sharpness = sharpness_of(at_half ? searched : grey);
}

Sight sight_of(DecodedPicture decoded, Size small) {
    Sight sight{{}, std::move(decoded.damage), {}, {}};
    look_into(sight, decoded.picture);
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
    Sight sight{thumbnail_of(planes, small), std::move(planes.damage), {}, {}};
    const std::function<std::optional<Grey>()> whole = [&]() -> std::optional<Grey> {
        auto grey = decode_jpeg_grey(bytes);
        return grey ? std::optional(std::move(*grey)) : std::nullopt;
    };
    sight.tags = TagsOf(planes.brightness, 8 / eighths, whole).read();
    sight.sharpness = sharpness_of(planes.brightness);
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
