#include "photos/raster.h"

#include <stb_image.h>

#include <algorithm>
#include <climits>
#include <cstdint>
#include <memory>
#include <optional>

namespace fettle::photos {
namespace {

using namespace std::string_view_literals;

struct Mark {
    std::size_t at;
    std::string_view bytes;
    const char* name;
    bool is_readable;
};

constexpr Mark kMarks[] = {
    {0, "\xff\xd8\xff"sv, "JPEG", true},
    {0, "\x89PNG\r\n\x1a\n"sv, "PNG", true},
    {0, "GIF87a"sv, "GIF", true},
    {0, "GIF89a"sv, "GIF", true},
    {0, "BM"sv, "BMP", true},
    {4, "ftypheic"sv, "a HEIC picture", false},
    {4, "ftypheix"sv, "a HEIC picture", false},
    {4, "ftypmif1"sv, "a HEIF picture", false},
    {4, "ftypavif"sv, "an AVIF picture", false},
    {4, "ftyp"sv, "a film", false},
    {8, "WEBP"sv, "a WebP picture", false},
    {0, "II*\0"sv, "a TIFF or raw picture", false},
    {0, "MM\0*"sv, "a TIFF or raw picture", false},
    {0, "%PDF-"sv, "a PDF document", false},
    {0, "PK\x03\x04"sv, "a ZIP archive", false},
};

constexpr const char* kReadable = "JPEG, PNG, BMP, GIF and TGA can be read";

bool starts_with_text(std::string_view bytes) {
    const auto start = bytes.substr(0, 512);
    return std::none_of(start.begin(), start.end(), [](unsigned char c) {
        return (c < 0x20 && c != '\t' && c != '\n' && c != '\r' && c != '\f') || c == 0x7f;
    });
}

std::string_view as_text(std::span<const std::byte> bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

const stbi_uc* as_samples(std::span<const std::byte> bytes) {
    return reinterpret_cast<const stbi_uc*>(bytes.data());
}

struct FreePixels {
    void operator()(stbi_uc* pixels) const { stbi_image_free(pixels); }
};

Failure undecodable(const char* rest) {
    const char* reason = stbi_failure_reason();
    return {FailureKind::damaged, rest, reason ? reason : ""};
}

void put_on_white(const stbi_uc* from, std::vector<std::byte>& pixels) {
    for (std::size_t at = 0; at < pixels.size(); at += 4, from += 4) {
        const unsigned alpha = from[3];
        for (int channel = 0; channel < 3; ++channel)
            pixels[at + channel] =
                static_cast<std::byte>((from[channel] * alpha + 255 * (255 - alpha) + 127) / 255);
        pixels[at + 3] = std::byte{255};
    }
}

// A PNG's own word on its size: stb_image does not tell the size of one that is too large for it.
std::optional<Size> png_size(std::span<const std::byte> bytes) {
    const auto text = as_text(bytes);
    if (text.size() < 24 || text.substr(1, 3) != "PNG" || text.substr(12, 4) != "IHDR") return {};
    auto side = [&](std::size_t at) {
        std::uint32_t value = 0;
        for (std::size_t i = at; i < at + 4; ++i)
            value = value << 8 | std::to_integer<std::uint32_t>(bytes[i]);
        return static_cast<int>(std::min<std::uint32_t>(value, INT_MAX));
    };
    return Size{side(16), side(20)};
}

} // namespace

Result<std::string> format_of(std::span<const std::byte> bytes, std::string_view extension) {
    const auto text = as_text(bytes);
    for (const auto& mark : kMarks) {
        if (bytes.size() < mark.at || text.substr(mark.at, mark.bytes.size()) != mark.bytes)
            continue;
        if (mark.is_readable) return std::string(mark.name);
        return Failure{FailureKind::invalid, "is " + std::string(mark.name) + "; " + kReadable};
    }
    if (starts_with_text(text))
        return Failure{FailureKind::invalid, "is not a picture: it starts with text"};
    int width = 0, height = 0, channels = 0;
    if (extension == ".tga" &&
        stbi_info_from_memory(as_samples(bytes), static_cast<int>(bytes.size()), &width, &height,
                              &channels) == 1)
        return std::string("TGA");
    return Failure{FailureKind::invalid,
                   "is not a picture of a kind that is known; " + std::string(kReadable)};
}

Result<Size> raster_size(std::span<const std::byte> bytes) {
    if (const auto png = png_size(bytes); png && png->width > 0 && png->height > 0) return *png;
    Size size;
    int channels = 0;
    if (stbi_info_from_memory(as_samples(bytes), static_cast<int>(bytes.size()), &size.width,
                              &size.height, &channels) != 1 ||
        size.width <= 0 || size.height <= 0)
        return undecodable("is damaged: its header holds no picture");
    return size;
}

Result<Picture> decode_raster(std::span<const std::byte> bytes) {
    int width = 0, height = 0, channels = 0;
    std::unique_ptr<stbi_uc, FreePixels> pixels(stbi_load_from_memory(
        as_samples(bytes), static_cast<int>(bytes.size()), &width, &height, &channels, 4));
    if (!pixels) return undecodable("is damaged: its pixels cannot be decoded");
    Picture picture{width, height, {}};
    picture.rgba.resize(std::size_t(width) * height * 4);
    put_on_white(pixels.get(), picture.rgba);
    return picture;
}

} // namespace fettle::photos
