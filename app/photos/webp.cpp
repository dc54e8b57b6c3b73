#include "photos/webp.h"

#include <webp/decode.h>
#include <webp/demux.h>

#include <cstdint>
#include <memory>

namespace fettle::photos {
namespace {

struct FreeAnimation {
    void operator()(WebPAnimDecoder* decoder) const { WebPAnimDecoderDelete(decoder); }
};

const std::uint8_t* as_samples(std::span<const std::byte> bytes) {
    return reinterpret_cast<const std::uint8_t*>(bytes.data());
}

Failure undecodable() {
    return {FailureKind::damaged, "is damaged: its pixels cannot be decoded"};
}

Result<WebPBitstreamFeatures> features_of(std::span<const std::byte> bytes) {
    WebPBitstreamFeatures features;
    if (WebPGetFeatures(as_samples(bytes), bytes.size(), &features) != VP8_STATUS_OK ||
        features.width <= 0 || features.height <= 0)
        return Failure{FailureKind::damaged, "is damaged: its header holds no picture"};
    return features;
}

// The first picture of several, four samples a pixel.
Done decode_first(std::span<const std::byte> bytes, Picture& picture) {
    const WebPData data{as_samples(bytes), bytes.size()};
    const std::unique_ptr<WebPAnimDecoder, FreeAnimation> decoder(
        WebPAnimDecoderNew(&data, nullptr));
    std::uint8_t* frame = nullptr;
    int when = 0;
    if (!decoder || !WebPAnimDecoderGetNext(decoder.get(), &frame, &when)) return undecodable();
    const auto samples = std::as_bytes(std::span(frame, picture.rgba.size()));
    picture.rgba.assign(samples.begin(), samples.end());
    return done();
}

} // namespace

Result<Size> webp_size(std::span<const std::byte> bytes) {
    auto features = features_of(bytes);
    if (!features) return features.failure();
    return Size{features->width, features->height};
}

Result<Picture> decode_webp(std::span<const std::byte> bytes) {
    auto features = features_of(bytes);
    if (!features) return features.failure();
    Picture picture{features->width, features->height, {}};
    picture.rgba.resize(std::size_t(picture.width) * picture.height * 4);
    if (features->has_animation) {
        if (auto decoded = decode_first(bytes, picture); !decoded) return decoded.failure();
    } else if (!WebPDecodeRGBAInto(as_samples(bytes), bytes.size(),
                                   reinterpret_cast<std::uint8_t*>(picture.rgba.data()),
                                   picture.rgba.size(), picture.width * 4)) {
        return undecodable();
    }
    if (features->has_alpha) put_on_white(picture.rgba);
    return picture;
}

} // namespace fettle::photos
