#include "photos/placeless.h"

#include "photos/heif.h"

#include <exiv2/exiv2.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <optional>
#include <span>
#include <string_view>

namespace fettle::photos {
namespace {

using Bytes = std::vector<std::byte>;

constexpr std::uint16_t kGpsTag = 0x8825; // EXIF 2.32, 4.6.3: pointer to the GPS directory
constexpr std::size_t kEntryBytes = 12;

// One TIFF block within a file (TIFF 6.0, section 2), from its byte order mark to the file's end.
class TiffBlock {
  public:
    static std::optional<TiffBlock> at(std::span<std::byte> bytes) {
        if (bytes.size() < 8) return {};
        const auto mark = std::string_view(reinterpret_cast<const char*>(bytes.data()), 2);
        if (mark != "II" && mark != "MM") return {};
        TiffBlock block(bytes, mark == "MM");
        if (block.small(2) != 42) return {};
        return block;
    }

    // Sets whatever its GPS directory says to zero.
    void forget_place() {
        const auto pointer = entry_of(large(4), kGpsTag);
        if (!pointer) return;
        const std::size_t directory = large(*pointer + 8);
        const std::size_t entries = small(directory);
        for (std::size_t number = 0; number < entries; ++number)
            clear(directory + 2 + number * kEntryBytes);
        put_zeros(directory, 2); // a directory of no entries
    }

  private:
    TiffBlock(std::span<std::byte> bytes, bool big) : bytes_(bytes), big_(big) {}

    bool holds(std::size_t at, std::size_t count) const {
        return at <= bytes_.size() && count <= bytes_.size() - at;
    }
    std::uint32_t number(std::size_t at, std::size_t count) const {
        std::uint32_t value = 0;
        if (!holds(at, count)) return 0;
        for (std::size_t i = 0; i < count; ++i) {
            const auto place = big_ ? at + i : at + count - 1 - i;
            value = value << 8 | std::to_integer<std::uint32_t>(bytes_[place]);
        }
        return value;
    }
    std::uint32_t small(std::size_t at) const { return number(at, 2); }
    std::uint32_t large(std::size_t at) const { return number(at, 4); }

    void put_zeros(std::size_t at, std::size_t count) {
        if (holds(at, count)) std::ranges::fill(bytes_.subspan(at, count), std::byte{0});
    }

    std::optional<std::size_t> entry_of(std::size_t directory, std::uint16_t tag) const {
        if (!holds(directory, 2)) return {};
        for (std::size_t number = 0; number < small(directory); ++number) {
            const auto entry = directory + 2 + number * kEntryBytes;
            if (!holds(entry, kEntryBytes)) return {};
            if (small(entry) == tag) return entry;
        }
        return {};
    }

    void clear(std::size_t entry) {
        if (!holds(entry, kEntryBytes)) return;
        constexpr std::array<std::size_t, 13> kSizes{0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8};
        const auto type = small(entry + 2);
        const std::size_t size = type < kSizes.size() ? kSizes[type] : 1;
        const std::size_t bytes = size * large(entry + 4);
        if (bytes > 4) put_zeros(large(entry + 8), bytes);
        put_zeros(entry, kEntryBytes);
    }

    std::span<std::byte> bytes_;
    bool big_;
};

void forget_place_at(Bytes& file, std::size_t start) {
    if (start >= file.size()) return;
    if (auto block = TiffBlock::at(std::span(file).subspan(start))) block->forget_place();
}

// Every EXIF block there is, also in pictures that stand behind the first one.
void forget_places_in_blocks(Bytes& file) {
    constexpr std::array<std::byte, 6> kHead{std::byte{'E'}, std::byte{'x'}, std::byte{'i'},
                                             std::byte{'f'}, std::byte{0},   std::byte{0}};
    for (auto at = file.begin(); true; at += kHead.size()) {
        at = std::search(at, file.end(), kHead.begin(), kHead.end());
        if (at == file.end()) return;
        forget_place_at(file, static_cast<std::size_t>(at - file.begin()) + kHead.size());
    }
}

constexpr const char* kPointer = "Exif.Image.GPSTag";

bool is_place(const std::string& key) {
    return key.starts_with("Exif.GPSInfo.") || key == kPointer || key.starts_with("Xmp.exif.GPS");
}

template <class Metadata>
bool erase_places(Metadata& metadata) {
    bool found = false;
    for (auto at = metadata.begin(); at != metadata.end();) {
        const bool place = is_place(at->key());
        found |= place;
        at = place ? metadata.erase(at) : std::next(at);
    }
    return found;
}

template <class Metadata>
bool holds_place(const Metadata& metadata) {
    return std::ranges::any_of(metadata, [](const auto& tag) {
        return is_place(tag.key()) && tag.key() != kPointer; // which may lead to an empty directory
    });
}

Exiv2::Image::AutoPtr opened(const Bytes& file) {
    Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute);
    Exiv2::enableBMFF(true);
    auto image = Exiv2::ImageFactory::open(reinterpret_cast<const Exiv2::byte*>(file.data()),
                                           static_cast<long>(file.size()));
    image->readMetadata();
    return image;
}

bool says_where(const Bytes& file) {
    try {
        const auto image = opened(file);
        return holds_place(image->exifData()) || holds_place(image->xmpData());
    } catch (const Exiv2::AnyError&) {
        return false; // of no kind that holds EXIF
    }
}

bool can_be_written(const std::string& format) {
    return format == "JPEG" || format == "PNG" || format == "WebP" || format == "TIFF";
}

void rewrite(Bytes& file) {
    const auto image = opened(file);
    const bool in_exif = erase_places(image->exifData());
    const bool in_xmp = erase_places(image->xmpData());
    if (!in_exif && !in_xmp) return;
    image->writeMetadata();
    auto& io = image->io();
    if (io.open() != 0) return;
    Bytes written(static_cast<std::size_t>(io.size()));
    io.seek(0, Exiv2::BasicIo::beg);
    const long read =
        io.read(reinterpret_cast<Exiv2::byte*>(written.data()), static_cast<long>(written.size()));
    if (read == static_cast<long>(written.size())) file = std::move(written);
}

} // namespace

Result<Bytes> without_place(Bytes file, const std::string& format) {
    if (can_be_written(format)) {
        try {
            rewrite(file);
        } catch (const Exiv2::AnyError&) {
            // What could not be rewritten is set to zero below, or refused.
        }
    }
    forget_places_in_blocks(file);
    if (!can_be_written(format))
        for (const auto start : heif_exif_starts(file))
            forget_place_at(file, start);
    if (says_where(file))
        return Failure{FailureKind::refused,
                       "says where it was taken, and that cannot be taken out of a " + format};
    return file;
}

} // namespace fettle::photos
