#include "photos/jpeg.h"

#include <turbojpeg.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <memory>

namespace fettle::photos {
namespace {

constexpr int kThumbnailQuality = 85;

struct DestroyHandle {
    void operator()(void* handle) const { tjDestroy(handle); }
};
using Handle = std::unique_ptr<void, DestroyHandle>;
struct FreeMade {
    void operator()(unsigned char* made) const { tjFree(made); }
};

struct Header {
    Size size;
    bool is_cmyk = false;
    bool is_in_planes = false; // brightness and colour, or brightness alone
    int subsampling = 0;
};

const unsigned char* as_samples(std::span<const std::byte> bytes) {
    return reinterpret_cast<const unsigned char*>(bytes.data());
}

Failure undecodable(std::string rest, const Handle& handle) {
    return {FailureKind::damaged, std::move(rest), tjGetErrorStr2(handle.get())};
}

Result<Header> read_header(const Handle& handle, std::span<const std::byte> bytes) {
    Header header;
    int subsampling = 0, colorspace = 0;
    const int rc =
        tjDecompressHeader3(handle.get(), as_samples(bytes), bytes.size(), &header.size.width,
                            &header.size.height, &subsampling, &colorspace);
    // A file cut off inside its header gives rc 0 with width and height left alone.
    if (rc != 0 || header.size.width <= 0 || header.size.height <= 0)
        return undecodable("is damaged: its JPEG header holds no picture", handle);
    header.is_in_planes = colorspace == TJCS_YCbCr || colorspace == TJCS_GRAY;
    header.subsampling = subsampling;
    header.is_cmyk = colorspace == TJCS_CMYK || colorspace == TJCS_YCCK;
    return header;
}

// libjpeg-turbo has more factors than it can mix; only eighths give what they promise.
int eighths_for(Size full, Size wanted) {
    for (int eighths = 1; eighths < 8; ++eighths) {
        const tjscalingfactor factor{eighths, 8};
        if (TJSCALED(full.width, factor) >= wanted.width &&
            TJSCALED(full.height, factor) >= wanted.height)
            return eighths;
    }
    return 8;
}

// Whether anything follows the header of the first scan. Without it the decoder would answer with
// an even grey, which is no picture.
bool has_scan_data(std::span<const std::byte> bytes) {
    auto at = [&](std::size_t i) { return std::to_integer<unsigned>(bytes[i]); };
    std::size_t here = 2;
    while (here + 4 <= bytes.size()) {
        if (at(here) != 0xff || at(here + 1) == 0xff) {
            ++here;
            continue;
        }
        const unsigned marker = at(here + 1);
        if (marker == 0 || marker == 1 || (marker >= 0xd0 && marker <= 0xd8)) {
            here += 2;
            continue;
        }
        const std::size_t next = here + 2 + (at(here + 2) << 8 | at(here + 3));
        if (marker == 0xda) return next < bytes.size();
        here = next;
    }
    return false;
}

// Adobe's convention, the one in use: the four inks are stored inverted.
void inks_to_colours(std::vector<std::byte>& pixels) {
    for (std::size_t at = 0; at + 3 < pixels.size(); at += 4) {
        const auto black = std::to_integer<unsigned>(pixels[at + 3]);
        for (std::size_t channel = at; channel < at + 3; ++channel)
            pixels[channel] = static_cast<std::byte>(
                (std::to_integer<unsigned>(pixels[channel]) * black + 127) / 255);
        pixels[at + 3] = std::byte{255};
    }
}

std::string damage_in_words(const std::string& message) {
    if (message.find("Premature end") != std::string::npos)
        return "the file ends before the picture does";
    return "its data are faulty: " + message;
}

// What libjpeg-turbo says of a decoding: faulty data leave a picture as far as they go.
Done check_decoded(int rc, const Handle& handle, std::string& damage) {
    if (rc == 0) return done();
    if (tjGetErrorCode(handle.get()) != TJERR_WARNING)
        return undecodable("is damaged: no pixel of it can be decoded", handle);
    damage = damage_in_words(tjGetErrorStr2(handle.get()));
    return done();
}

Result<Header> read_header_before_pixels(const Handle& handle, std::span<const std::byte> bytes) {
    auto header = read_header(handle, bytes);
    if (header && !has_scan_data(bytes))
        return Failure{FailureKind::damaged, "is damaged: it ends before the first pixel"};
    return header;
}

bool covers(Size size, Size least) {
    return size.width >= least.width && size.height >= least.height;
}

} // namespace

Result<Size> jpeg_size(std::span<const std::byte> bytes) {
    Handle handle(tjInitDecompress());
    auto header = read_header(handle, bytes);
    if (!header) return header.failure();
    return header->size;
}

Size decoded_size(Size full, Size wanted) {
    const tjscalingfactor factor{eighths_for(full, wanted), 8};
    return {TJSCALED(full.width, factor), TJSCALED(full.height, factor)};
}

Result<DecodedPicture> decode_jpeg(std::span<const std::byte> bytes, Size wanted) {
    Handle handle(tjInitDecompress());
    auto header = read_header_before_pixels(handle, bytes);
    if (!header) return header.failure();
    const auto [width, height] = decoded_size(header->size, wanted);
    DecodedPicture decoded{{width, height, {}}, {}};
    decoded.picture.rgba.resize(std::size_t(width) * height * 4);
    const int rc = tjDecompress2(handle.get(), as_samples(bytes), bytes.size(),
                                 reinterpret_cast<unsigned char*>(decoded.picture.rgba.data()),
                                 width, width * 4, height, header->is_cmyk ? TJPF_CMYK : TJPF_RGBA,
                                 TJFLAG_LIMITSCANS);
    if (auto whole = check_decoded(rc, handle, decoded.damage); !whole) return whole.failure();
    if (header->is_cmyk) inks_to_colours(decoded.picture.rgba);
    return decoded;
}

Result<std::optional<JpegPlanes>> decode_jpeg_planes(std::span<const std::byte> bytes, int eighths,
                                                     Size least) {
    Handle handle(tjInitDecompress());
    auto header = read_header_before_pixels(handle, bytes);
    if (!header) return header.failure();
    const tjscalingfactor factor{eighths, 8};
    JpegPlanes planes;
    planes.size = {TJSCALED(header->size.width, factor), TJSCALED(header->size.height, factor)};
    if (!header->is_in_planes || !covers(planes.size, least)) return std::optional<JpegPlanes>();

    // The planes are padded to whole blocks of colour.
    unsigned char* rows[3] = {};
    const auto add = [&](int number, Grey& plane) {
        plane.width = tjPlaneWidth(number, planes.size.width, header->subsampling);
        plane.height = tjPlaneHeight(number, planes.size.height, header->subsampling);
        plane.samples.resize(std::size_t(plane.width) * plane.height);
        rows[number] = plane.samples.data();
    };
    add(0, planes.brightness);
    if (header->subsampling != TJSAMP_GRAY) {
        planes.colour.resize(2);
        for (int number : {1, 2})
            add(number, planes.colour[number - 1]);
        const int across = planes.brightness.width / planes.colour[0].width;
        const int down = planes.brightness.height / planes.colour[0].height;
        planes.colour_size = {(planes.size.width + across - 1) / across,
                              (planes.size.height + down - 1) / down};
        if (!covers(planes.colour_size, least)) return std::optional<JpegPlanes>();
    }
    const int rc =
        tjDecompressToYUVPlanes(handle.get(), as_samples(bytes), bytes.size(), rows,
                                planes.size.width, nullptr, planes.size.height, TJFLAG_LIMITSCANS);
    if (auto whole = check_decoded(rc, handle, planes.damage); !whole) return whole.failure();
    if (planes.brightness.size() != planes.size)
        planes.brightness =
            cropped(planes.brightness, {0, 0, planes.size.width, planes.size.height});
    return std::optional(std::move(planes));
}

Picture thumbnail_of(const JpegPlanes& planes, Size size) {
    const auto brightness = shrunk(planes.brightness, planes.size, size);
    Picture picture{size.width, size.height, {}};
    picture.rgba.reserve(std::size_t(size.width) * size.height * 4);
    std::vector<Grey> colour;
    for (const auto& plane : planes.colour)
        colour.push_back(shrunk(plane, planes.colour_size, size));
    for (std::size_t at = 0; at < brightness.samples.size(); ++at) {
        const double y = brightness.samples[at];
        const double blue = colour.empty() ? 0 : colour[0].samples[at] - 128.0;
        const double red = colour.empty() ? 0 : colour[1].samples[at] - 128.0;
        // ITU-T T.871, clause 7.
        for (double channel :
             {y + 1.402 * red, y - 0.344136 * blue - 0.714136 * red, y + 1.772 * blue, 255.0})
            picture.rgba.push_back(
                static_cast<std::byte>(std::lround(std::clamp(channel, 0.0, 255.0))));
    }
    return picture;
}

Result<Grey> decode_jpeg_grey(std::span<const std::byte> bytes) {
    Handle handle(tjInitDecompress());
    auto header = read_header_before_pixels(handle, bytes);
    if (!header) return header.failure();
    Grey grey{header->size.width, header->size.height, {}};
    grey.samples.resize(std::size_t(grey.width) * grey.height);
    const int rc = tjDecompress2(handle.get(), as_samples(bytes), bytes.size(), grey.samples.data(),
                                 grey.width, grey.width, grey.height, TJPF_GRAY, TJFLAG_LIMITSCANS);
    std::string damage;
    if (auto whole = check_decoded(rc, handle, damage); !whole) return whole.failure();
    return grey;
}

std::optional<std::vector<std::byte>> bare_jpeg(std::span<const std::byte> bytes, int orientation) {
    // EXIF 2.32, tag 0x0112, in its order from 1.
    constexpr int kTurnings[] = {TJXOP_NONE,      TJXOP_HFLIP, TJXOP_ROT180,     TJXOP_VFLIP,
                                 TJXOP_TRANSPOSE, TJXOP_ROT90, TJXOP_TRANSVERSE, TJXOP_ROT270};
    Handle handle(tjInitTransform());
    tjtransform turning{};
    turning.op = kTurnings[orientation - 1];
    turning.options = TJXOPT_COPYNONE | TJXOPT_PERFECT;
    unsigned char* made = nullptr;
    unsigned long size = 0;
    const int rc = tjTransform(handle.get(), as_samples(bytes), bytes.size(), 1, &made, &size,
                               &turning, TJFLAG_LIMITSCANS);
    const std::unique_ptr<unsigned char, FreeMade> held(made);
    if (rc != 0 || size == 0) return std::nullopt;
    const auto* first = reinterpret_cast<const std::byte*>(made);
    return std::vector<std::byte>(first, first + size);
}

Result<std::vector<std::byte>> encode_jpeg(const Picture& picture) {
    Handle handle(tjInitCompress());
    const auto [width, height] = picture.size();
    std::vector<std::byte> jpeg(tjBufSize(width, height, TJSAMP_420));
    auto to = reinterpret_cast<unsigned char*>(jpeg.data());
    unsigned long size = jpeg.size();
    if (tjCompress2(handle.get(), as_samples(picture.rgba), width, width * 4, height, TJPF_RGBA,
                    &to, &size, TJSAMP_420, kThumbnailQuality, TJFLAG_NOREALLOC) != 0)
        return undecodable("gives no thumbnail: it cannot be encoded", handle);
    jpeg.resize(size);
    return jpeg;
}

} // namespace fettle::photos
