#include "photos/tiff.h"

#include <tiffio.h>

#include <algorithm>
#include <climits>
#include <cstring>
#include <memory>

namespace fettle::photos {
namespace {

struct CloseFile {
    void operator()(TIFF* tiff) const { TIFFClose(tiff); }
};
using File = std::unique_ptr<TIFF, CloseFile>;

// libtiff reads through these as if from a file.
struct Source {
    std::span<const std::byte> bytes;
    std::size_t at = 0;
};

tmsize_t read_from(thandle_t handle, void* room, tmsize_t wanted) {
    auto& source = *static_cast<Source*>(handle);
    const auto left = source.bytes.size() - std::min(source.at, source.bytes.size());
    const auto count = std::min<std::size_t>(left, wanted < 0 ? 0 : std::size_t(wanted));
    if (count > 0) std::memcpy(room, source.bytes.data() + source.at, count);
    source.at += count;
    return static_cast<tmsize_t>(count);
}

tmsize_t write_nothing(thandle_t, void*, tmsize_t) {
    return 0;
}

toff_t seek_in(thandle_t handle, toff_t offset, int from) {
    auto& source = *static_cast<Source*>(handle);
    const std::size_t start = from == SEEK_CUR   ? source.at
                              : from == SEEK_END ? source.bytes.size()
                                                 : 0;
    source.at = start + static_cast<std::size_t>(offset);
    return source.at;
}

int keep_open(thandle_t) {
    return 0;
}

toff_t size_of(thandle_t handle) {
    return static_cast<Source*>(handle)->bytes.size();
}

File open(Source& source) {
    TIFFSetErrorHandler(nullptr);
    TIFFSetWarningHandler(nullptr);
    return File(TIFFClientOpen("picture", "rm", &source, read_from, write_nothing, seek_in,
                               keep_open, size_of, nullptr, nullptr));
}

Failure no_picture() {
    return {FailureKind::damaged, "is damaged: its header holds no picture"};
}

// Raw pictures keep a small preview in front and the sensor's samples behind it, or show the
// samples themselves as a mosaic.
bool is_raw(TIFF* tiff) {
    std::uint32_t kind = 0;
    std::uint16_t photometric = 0, count = 0;
    toff_t* below = nullptr;
    TIFFGetField(tiff, TIFFTAG_SUBFILETYPE, &kind);
    TIFFGetField(tiff, TIFFTAG_PHOTOMETRIC, &photometric);
    const bool has_more = TIFFGetField(tiff, TIFFTAG_SUBIFD, &count, &below) == 1 && count > 0;
    return photometric == PHOTOMETRIC_CFA || photometric == 34892 /* linear raw */ ||
           ((kind & FILETYPE_REDUCEDIMAGE) != 0 && has_more);
}

} // namespace

Result<Size> tiff_size(std::span<const std::byte> bytes) {
    Source source{bytes};
    const auto tiff = open(source);
    if (!tiff) return no_picture();
    if (is_raw(tiff.get()))
        return Failure{FailureKind::invalid,
                       "is a raw picture; take in the JPEG or TIFF made from it"};
    std::uint32_t width = 0, height = 0;
    if (TIFFGetField(tiff.get(), TIFFTAG_IMAGEWIDTH, &width) != 1 ||
        TIFFGetField(tiff.get(), TIFFTAG_IMAGELENGTH, &height) != 1 || width == 0 || height == 0)
        return no_picture();
    char why[1024] = {};
    std::uint16_t bits = 8, photometric = 0;
    TIFFGetField(tiff.get(), TIFFTAG_BITSPERSAMPLE, &bits);
    TIFFGetField(tiff.get(), TIFFTAG_PHOTOMETRIC, &photometric);
    // libtiff says yes to deep inks, and then cannot.
    const bool has_deep_inks = photometric == PHOTOMETRIC_SEPARATED && bits != 8;
    if (has_deep_inks || TIFFRGBAImageOK(tiff.get(), why) != 1)
        return Failure{FailureKind::invalid, "is a TIFF picture of a kind that cannot be shown",
                       why};
    return Size{static_cast<int>(std::min<std::uint32_t>(width, INT_MAX)),
                static_cast<int>(std::min<std::uint32_t>(height, INT_MAX))};
}

Result<Picture> decode_tiff(std::span<const std::byte> bytes) {
    auto size = tiff_size(bytes);
    if (!size) return size.failure();
    Source source{bytes};
    const auto tiff = open(source);
    if (!tiff) return no_picture();
    // As stored: turning is for the caller, who knows all eight orientations.
    TIFFSetField(tiff.get(), TIFFTAG_ORIENTATION, ORIENTATION_TOPLEFT);
    Picture picture{size->width, size->height, {}};
    std::vector<std::uint32_t> raster(std::size_t(size->width) * size->height);
    if (TIFFReadRGBAImageOriented(tiff.get(), std::uint32_t(size->width),
                                  std::uint32_t(size->height), raster.data(), ORIENTATION_TOPLEFT,
                                  1) != 1)
        return Failure{FailureKind::damaged, "is damaged: its pixels cannot be decoded"};
    picture.rgba.resize(raster.size() * 4);
    std::byte* to = picture.rgba.data();
    for (const std::uint32_t pixel : raster) {
        // What is transparent comes multiplied with its alpha already.
        const unsigned white = 255 - TIFFGetA(pixel);
        *to++ = static_cast<std::byte>(std::min(255u, TIFFGetR(pixel) + white));
        *to++ = static_cast<std::byte>(std::min(255u, TIFFGetG(pixel) + white));
        *to++ = static_cast<std::byte>(std::min(255u, TIFFGetB(pixel) + white));
        *to++ = std::byte{255};
    }
    return picture;
}

} // namespace fettle::photos
