#include "photos/jpeg.h"

#include <turbojpeg.h>

#include <algorithm>
#include <cstdint>
#include <memory>

namespace fettle::photos {
namespace {

constexpr int kThumbnailQuality = 85;

struct DestroyHandle {
    void operator()(void* handle) const { tjDestroy(handle); }
};
using Handle = std::unique_ptr<void, DestroyHandle>;

struct Header {
    Size size;
    bool is_cmyk = false;
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
    auto header = read_header(handle, bytes);
    if (!header) return header.failure();
    if (!has_scan_data(bytes))
        return Failure{FailureKind::damaged, "is damaged: it ends before the first pixel"};

    const auto [width, height] = decoded_size(header->size, wanted);
    DecodedPicture decoded{{width, height, {}}, {}};
    decoded.picture.rgba.resize(std::size_t(width) * height * 4);
    const int rc = tjDecompress2(handle.get(), as_samples(bytes), bytes.size(),
                                 reinterpret_cast<unsigned char*>(decoded.picture.rgba.data()),
                                 width, width * 4, height, header->is_cmyk ? TJPF_CMYK : TJPF_RGBA,
                                 TJFLAG_LIMITSCANS);
    if (rc != 0) {
        if (tjGetErrorCode(handle.get()) != TJERR_WARNING)
            return undecodable("is damaged: no pixel of it can be decoded", handle);
        decoded.damage = damage_in_words(tjGetErrorStr2(handle.get()));
    }
    if (header->is_cmyk) inks_to_colours(decoded.picture.rgba);
    return decoded;
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
