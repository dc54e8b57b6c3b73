#include "photos/raster.h"

#include <stb_image.h>

#include <algorithm>
#include <climits>
#include <cstdint>
#include <memory>
#include <optional>

namespace fettle::photos {
namespace {

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

bool is_readable_tga(std::span<const std::byte> bytes) {
    int width = 0, height = 0, channels = 0;
    return stbi_info_from_memory(as_samples(bytes), static_cast<int>(bytes.size()), &width, &height,
                                 &channels) == 1;
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
    const auto samples = std::as_bytes(std::span(pixels.get(), std::size_t(width) * height * 4));
    picture.rgba.assign(samples.begin(), samples.end());
    put_on_white(picture.rgba);
    return picture;
}

} // namespace fettle::photos
