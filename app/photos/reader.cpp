#include "photos/reader.h"

#include "base/text.h"
#include "photos/decode.h"
#include "photos/hashing.h"
#include "photos/jpeg.h"
#include "photos/likeness.h"
#include "photos/sight.h"
#include "photos/tile_file.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fettle::photos {
namespace {

using Path = std::filesystem::path;

// `failure` holds the rest of a sentence that begins with the file's name.
Failure about(const Path& file, Failure failure) {
    failure.sentence = spoken_name(file) + " " + failure.sentence + ".";
    return failure;
}

std::string in_words(Size size) {
    return std::to_string(size.width) + " x " + std::to_string(size.height);
}

Result<Recognised> recognise_in(const Path& file, std::span<const std::byte> bytes) {
    auto recognised = recognise(bytes, lower_ascii(file.extension().native()));
    if (!recognised) return about(file, recognised.failure());
    const auto size = recognised->stored;
    constexpr std::int64_t kMega = 1'000'000;
    const auto pixels = std::int64_t(size.width) * size.height;
    if (pixels > kMostPixels)
        return about(file,
                     {FailureKind::refused,
                      "is " + in_words(size) + " pixels, " +
                          std::to_string((pixels + kMega - 1) / kMega) + " megapixels; at most " +
                          std::to_string(kMostPixels / kMega) + " megapixels can be taken"});
    return recognised;
}

Result<DecodedPicture> decode_from(const Path& file, const Recognised& recognised,
                                   std::span<const std::byte> bytes, Size wanted) {
    auto decoded = decode(recognised, bytes, wanted);
    if (!decoded) return about(file, decoded.failure());
    return decoded;
}

Picture at_size(Picture picture, Size size) {
    return picture.size() == size ? std::move(picture) : shrunk(picture, size);
}

int scaled(int side, double scale) {
    return std::max(1, static_cast<int>(std::lround(side * scale)));
}

} // namespace

Result<Reader::Bytes> Reader::load(const Path& file) {
    auto open = OpenFile::open(file);
    if (!open) return open.failure();
    const auto& stamp = open->stamp();
    if (auto loaded = std::exchange(loaded_, std::nullopt); loaded && loaded->stamp == stamp)
        return std::move(*loaded);
    if (stamp.bytes == 0)
        return about(file, {FailureKind::invalid, "is empty: the file has 0 bytes"});
    if (stamp.bytes > kMostFileBytes)
        return about(file, {FailureKind::refused, "has " + std::to_string(stamp.bytes >> 20) +
                                                      " MiB; picture files of at most " +
                                                      std::to_string(kMostFileBytes >> 20) +
                                                      " MiB are taken"});
    auto bytes = open->read_all();
    if (!bytes) return bytes.failure();
    return Bytes{stamp, std::move(*bytes)};
}

Result<std::string> Reader::hash(const Path& file) {
    kept_.reset();
    auto loaded = load(file);
    if (!loaded) return loaded.failure();
    auto digits = hash_of(loaded->bytes);
    loaded_ = std::move(*loaded);
    return digits;
}

Result<Look> Reader::look(const Path& file) {
    kept_.reset();
    auto loaded = load(file);
    if (!loaded) return loaded.failure();
    const auto& bytes = loaded->bytes;
    auto recognised = recognise_in(file, bytes);
    if (!recognised) return recognised.failure();

    Look look;
    look.hash = hash_of(bytes);
    look.bytes = bytes.size();
    look.format = recognised->format;
    look.exif = exif_of(*recognised, bytes);
    const auto upright = upright_size(recognised->stored, look.exif.orientation);
    look.width = upright.width;
    look.height = upright.height;

    const auto small = fitted(recognised->stored, kThumbnailSide);
    auto sight = see(*recognised, bytes, small);
    if (!sight) return about(file, sight.failure());
    look.damage = std::move(sight->damage);
    look.damaged = !look.damage.empty();
    look.tags = std::move(sight->tags);
    look.sharpness = sight->sharpness;
    const auto upright_small = turned_upright(std::move(sight->small), look.exif.orientation);
    look.likeness = likeness_of(grey_of(upright_small));
    auto thumbnail = encode_jpeg(upright_small);
    if (!thumbnail) return about(file, thumbnail.failure());
    look.thumbnail = std::move(*thumbnail);
    return look;
}

Result<JpegCopy> Reader::copy(const Path& file, int longest_side) {
    auto loaded = load(file);
    if (!loaded) return loaded.failure();
    auto recognised = recognise_in(file, loaded->bytes);
    if (!recognised) return recognised.failure();
    const auto stored = recognised->stored;
    const bool shrinks = longest_side > 0 && longest_side < std::max(stored.width, stored.height);
    if (!shrinks && recognised->format == "JPEG") {
        const auto orientation = exif_of(*recognised, loaded->bytes).orientation;
        if (auto jpeg = bare_jpeg(loaded->bytes, orientation))
            return JpegCopy{upright_size(stored, orientation), std::move(*jpeg)};
    }
    loaded_ = std::move(*loaded);
    auto picture = this->picture(file, longest_side);
    if (!picture) return picture.failure();
    auto jpeg = encode_jpeg(*picture);
    if (!jpeg) return about(file, jpeg.failure());
    return JpegCopy{picture->size(), std::move(*jpeg)};
}

Result<Picture> Reader::picture(const Path& file, int longest_side) {
    kept_.reset();
    auto loaded = load(file);
    if (!loaded) return loaded.failure();
    auto recognised = recognise_in(file, loaded->bytes);
    if (!recognised) return recognised.failure();
    const auto size =
        longest_side > 0 ? fitted(recognised->stored, longest_side) : recognised->stored;
    if (std::uint64_t(size.width) * size.height * 4 > kMostFrameBytes)
        return about(file, {FailureKind::refused, "is too large to be handed over whole at " +
                                                      in_words(size) +
                                                      " pixels; ask for it smaller or in regions"});
    auto decoded = decode_from(file, *recognised, loaded->bytes, size);
    if (!decoded) return decoded.failure();
    const auto orientation = exif_of(*recognised, loaded->bytes).orientation;
    return turned_upright(at_size(std::move(decoded->picture), size), orientation);
}

Result<Size> Reader::cut(const Path& file, int into) {
    kept_.reset();
    auto loaded = load(file);
    if (!loaded) return loaded.failure();
    auto recognised = recognise_in(file, loaded->bytes);
    if (!recognised) return recognised.failure();
    auto decoded = decode_from(file, *recognised, loaded->bytes, recognised->stored);
    if (!decoded) return decoded.failure();
    const auto orientation = exif_of(*recognised, loaded->bytes).orientation;
    loaded->bytes = {};
    if (auto written = write_tiles(into, decoded->picture, orientation); !written)
        return about(file, written.failure());
    return upright_size(decoded->picture.size(), orientation);
}

Done Reader::keep_decoded(const Path& file, double scale) {
    auto wanted = [&](Size stored) {
        return Size{static_cast<int>(std::ceil(stored.width * scale)),
                    static_cast<int>(std::ceil(stored.height * scale))};
    };
    if (kept_) {
        auto open = OpenFile::open(file);
        if (!open) return open.failure();
        const auto size = decoded_size(kept_->format, kept_->stored, wanted(kept_->stored));
        if (open->stamp() == kept_->stamp && size == kept_->decoded_as) return done();
        kept_.reset();
    }
    auto loaded = load(file);
    if (!loaded) return loaded.failure();
    auto recognised = recognise_in(file, loaded->bytes);
    if (!recognised) return recognised.failure();
    auto decoded = decode_from(file, *recognised, loaded->bytes, wanted(recognised->stored));
    if (!decoded) return decoded.failure();
    const auto orientation = exif_of(*recognised, loaded->bytes).orientation;
    loaded->bytes = {};
    const auto decoded_as = decoded->picture.size();
    kept_ = Kept{loaded->stamp,
                 recognised->format,
                 recognised->stored,
                 decoded_as,
                 upright_size(recognised->stored, orientation),
                 turned_upright(std::move(decoded->picture), orientation)};
    return done();
}

Result<Picture> Reader::region(const Path& file, const Region& region) {
    if (!(region.scale > 0 && region.scale <= 1))
        return about(file, {FailureKind::invalid, "was asked for at the scale " +
                                                      std::to_string(region.scale) +
                                                      "; more than 0 and at most 1 is accepted"});
    if (auto kept = keep_decoded(file, region.scale); !kept) return kept.failure();
    const auto full = kept_->full;
    if (region.x < 0 || region.y < 0 || region.width <= 0 || region.height <= 0 ||
        region.width > full.width - region.x || region.height > full.height - region.y)
        return about(file, {FailureKind::invalid,
                            "was asked for a region outside its " + in_words(full) + " pixels"});
    const Size size{scaled(region.width, region.scale), scaled(region.height, region.scale)};
    if (std::uint64_t(size.width) * size.height * 4 > kMostFrameBytes)
        return about(file, {FailureKind::refused, "was asked for a region too large to hand over"});
    const double across = double(kept_->upright.width) / full.width;
    const double down = double(kept_->upright.height) / full.height;
    return shrunk(kept_->upright,
                  {region.x * across, region.y * down, region.width * across, region.height * down},
                  size);
}

} // namespace fettle::photos
