#include "photos/heif.h"

#include <libheif/heif.h>

#include <algorithm>
#include <cstring>
#include <memory>

namespace fettle::photos {
namespace {

template <auto free>
struct FreeBy {
    template <class T>
    void operator()(T* held) const {
        free(held);
    }
};
using Context = std::unique_ptr<heif_context, FreeBy<heif_context_free>>;
using Handle = std::unique_ptr<heif_image_handle, FreeBy<heif_image_handle_release>>;
using Image = std::unique_ptr<heif_image, FreeBy<heif_image_release>>;
using Options = std::unique_ptr<heif_decoding_options, FreeBy<heif_decoding_options_free>>;

// Each core has a decoding worker of its own already.
constexpr int kThreads = 1;

struct Opened {
    Context context; // outlives the handle
    Handle main;
};

Failure undecodable(const char* rest, const heif_error& error) {
    return {FailureKind::damaged, rest, error.message ? error.message : ""};
}

Result<Opened> open(std::span<const std::byte> bytes) {
    Opened opened{Context(heif_context_alloc()), {}};
    heif_context_set_max_decoding_threads(opened.context.get(), kThreads);
    auto error = heif_context_read_from_memory_without_copy(opened.context.get(), bytes.data(),
                                                            bytes.size(), nullptr);
    heif_image_handle* main = nullptr;
    if (error.code == heif_error_Ok)
        error = heif_context_get_primary_image_handle(opened.context.get(), &main);
    if (error.code != heif_error_Ok)
        return undecodable("is damaged: its header holds no picture", error);
    opened.main.reset(main);
    return opened;
}

} // namespace

Result<Size> heif_size(std::span<const std::byte> bytes) {
    auto opened = open(bytes);
    if (!opened) return opened.failure();
    const Size size{heif_image_handle_get_width(opened->main.get()),
                    heif_image_handle_get_height(opened->main.get())};
    if (size.width <= 0 || size.height <= 0)
        return Failure{FailureKind::damaged, "is damaged: its header holds no picture"};
    return size;
}

Result<Picture> decode_heif(std::span<const std::byte> bytes) {
    auto opened = open(bytes);
    if (!opened) return opened.failure();
    const Options options(heif_decoding_options_alloc());
    options->convert_hdr_to_8bit = 1;
    heif_image* decoded = nullptr;
    const auto error = heif_decode_image(opened->main.get(), &decoded, heif_colorspace_RGB,
                                         heif_chroma_interleaved_RGBA, options.get());
    const Image image(decoded);
    if (error.code != heif_error_Ok)
        return undecodable("is damaged: its pixels cannot be decoded", error);
    int stride = 0;
    const auto* samples =
        heif_image_get_plane_readonly(image.get(), heif_channel_interleaved, &stride);
    Picture picture{heif_image_get_width(image.get(), heif_channel_interleaved),
                    heif_image_get_height(image.get(), heif_channel_interleaved),
                    {}};
    if (!samples || picture.width <= 0 || picture.height <= 0)
        return Failure{FailureKind::damaged, "is damaged: its pixels cannot be decoded"};
    picture.rgba.resize(std::size_t(picture.width) * picture.height * 4);
    const std::size_t row = std::size_t(picture.width) * 4;
    for (std::size_t y = 0; y < std::size_t(picture.height); ++y)
        std::memcpy(picture.rgba.data() + row * y, samples + std::size_t(stride) * y, row);
    if (heif_image_handle_has_alpha_channel(opened->main.get())) put_on_white(picture.rgba);
    return picture;
}

std::vector<std::size_t> heif_exif_starts(std::span<const std::byte> bytes) {
    std::vector<std::size_t> starts;
    auto opened = open(bytes);
    if (!opened) return starts;
    const auto* main = opened->main.get();
    std::vector<heif_item_id> ids(
        std::size_t(std::max(0, heif_image_handle_get_number_of_metadata_blocks(main, "Exif"))));
    heif_image_handle_get_list_of_metadata_block_IDs(main, "Exif", ids.data(), int(ids.size()));
    for (const auto id : ids) {
        std::vector<std::byte> block(heif_image_handle_get_metadata_size(main, id));
        if (block.size() <= 4 ||
            heif_image_handle_get_metadata(main, id, block.data()).code != heif_error_Ok)
            continue;
        const auto there = std::search(bytes.begin(), bytes.end(), block.begin(), block.end());
        if (there == bytes.end()) continue; // scattered over the file, or packed
        // ISO 23008-12, A.2.1: four bytes say how far behind them the block proper begins.
        std::size_t offset = 0;
        for (int at = 0; at < 4; ++at)
            offset = offset << 8 | std::to_integer<std::size_t>(block[std::size_t(at)]);
        starts.push_back(std::size_t(there - bytes.begin()) + 4 + offset);
    }
    return starts;
}

} // namespace fettle::photos
