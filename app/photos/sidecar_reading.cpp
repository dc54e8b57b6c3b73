#include "photos/sidecar_reading.h"

#include "base/text.h"
#include "photos/decoder.h"
#include "photos/file_bytes.h"
#include "photos/formats.h"
#include "photos/placeless.h"
#include "photos/xmp.h"

#include <span>

namespace fettle::photos {
namespace {

using Path = std::filesystem::path;
using Bytes = std::vector<std::byte>;

constexpr std::uint64_t kMostSidecarBytes = 16ull << 20;

// `failure` holds the rest of a sentence that begins with the file's name.
Failure about(const Path& file, Failure failure) {
    failure.sentence = spoken_name(file) + " " + failure.sentence + ".";
    return failure;
}

Result<Bytes> bytes_of(const Path& file, std::uint64_t most) {
    auto open = OpenFile::open(file);
    if (!open) return open.failure();
    if (open->stamp().bytes > most)
        return about(file, {FailureKind::refused,
                            "has " + std::to_string(open->stamp().bytes >> 20) + " MiB; at most " +
                                std::to_string(most >> 20) + " MiB are read"});
    return open->read_all();
}

std::string text_of(const Bytes& bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

} // namespace

Result<Sidecar> sidecar_in_file(const Path& file, const Lie& lie) {
    const auto bytes = bytes_of(file, kMostSidecarBytes);
    if (!bytes) return bytes.failure();
    auto sidecar = read_xmp(text_of(*bytes), lie);
    if (!sidecar) return about(file, sidecar.failure());
    return sidecar;
}

Result<Bytes> packet_for(const Path& file, const SidecarWish& wish) {
    std::string before;
    std::error_code error;
    if (std::filesystem::exists(file, error)) {
        const auto bytes = bytes_of(file, kMostSidecarBytes);
        if (!bytes) return bytes.failure();
        before = text_of(*bytes);
    }
    const auto packet = with_sidecar(before, wish.sidecar, wish.lie);
    if (!packet) return about(file, packet.failure());
    const auto made = std::as_bytes(std::span(*packet));
    return Bytes(made.begin(), made.end());
}

Result<Bytes> copy_without_place(const Path& picture) {
    auto bytes = bytes_of(picture, kMostFileBytes);
    if (!bytes) return bytes.failure();
    const auto format = format_of(*bytes, lower_ascii(picture.extension().native()));
    if (!format) return about(picture, format.failure());
    auto copy = without_place(std::move(*bytes), *format);
    if (!copy) return about(picture, copy.failure());
    return copy;
}

} // namespace fettle::photos
