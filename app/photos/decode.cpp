#include "photos/decode.h"

#include "photos/exif.h"
#include "photos/formats.h"
#include "photos/heif.h"
#include "photos/jpeg.h"
#include "photos/raster.h"
#include "photos/tiff.h"
#include "photos/webp.h"

namespace fettle::photos {
namespace {

// How each format is read; those not named here through stb_image.
struct Way {
    const char* format;
    Result<Size> (*size)(std::span<const std::byte>);
    Result<Picture> (*pixels)(std::span<const std::byte>);
    bool has_exif;
    bool is_turned_by_exif; // else whoever writes it turns the pixels, or the decoder does
};

constexpr Way kWays[] = {
    {"HEIC", heif_size, decode_heif, true, false}, {"HEIF", heif_size, decode_heif, true, false},
    {"AVIF", heif_size, decode_heif, true, false}, {"WebP", webp_size, decode_webp, true, true},
    {"TIFF", tiff_size, decode_tiff, true, true},  {"PNG", raster_size, decode_raster, true, false},
};
constexpr Way kElse{"", raster_size, decode_raster, false, false};

const Way& way_for(const std::string& format) {
    for (const auto& way : kWays)
        if (format == way.format) return way;
    return kElse;
}

bool is_jpeg(const std::string& format) {
    return format == "JPEG";
}

} // namespace

Result<Recognised> recognise(std::span<const std::byte> bytes, std::string_view extension) {
    auto format = format_of(bytes, extension);
    if (!format) return format.failure();
    auto size = is_jpeg(*format) ? jpeg_size(bytes) : way_for(*format).size(bytes);
    if (!size) return size.failure();
    return Recognised{std::move(*format), *size};
}

ExifFacts exif_of(const Recognised& recognised, std::span<const std::byte> bytes) {
    if (is_jpeg(recognised.format)) return read_exif(bytes);
    const auto& way = way_for(recognised.format);
    if (!way.has_exif) return {};
    auto facts = read_exif(bytes);
    if (!way.is_turned_by_exif) facts.orientation = 1;
    return facts;
}

Result<DecodedPicture> decode(const Recognised& recognised, std::span<const std::byte> bytes,
                              Size wanted) {
    if (is_jpeg(recognised.format)) return decode_jpeg(bytes, wanted);
    auto picture = way_for(recognised.format).pixels(bytes);
    if (!picture) return picture.failure();
    return DecodedPicture{std::move(*picture), {}};
}

Size decoded_size(const std::string& format, Size stored, Size wanted) {
    return is_jpeg(format) ? decoded_size(stored, wanted) : stored;
}

} // namespace fettle::photos
