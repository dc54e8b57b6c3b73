#include "photos/formats.h"

#include "photos/raster.h"

#include <algorithm>
#include <initializer_list>

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
    {8, "WEBP"sv, "WebP", true},
    {8, "CR"sv, "a raw picture", false}, // behind a TIFF mark
    {0, "II*\0"sv, "TIFF", true},
    {0, "MM\0*"sv, "TIFF", true},
    {0, "II+\0"sv, "TIFF", true}, // with 64-bit offsets
    {0, "MM\0+"sv, "TIFF", true},
    {0, "FUJIFILMCCD-RAW"sv, "a raw picture", false},
    {0, "%PDF-"sv, "a PDF document", false},
    {0, "PK\x03\x04"sv, "a ZIP archive", false},
};

constexpr const char* kReadable =
    "JPEG, HEIC, HEIF, AVIF, PNG, WebP, TIFF, BMP, GIF and TGA can be read";

std::string_view as_text(std::span<const std::byte> bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

Failure unreadable(std::string_view what) {
    return {FailureKind::invalid, "is " + std::string(what) + "; " + kReadable};
}

bool starts_with_text(std::string_view bytes) {
    const auto start = bytes.substr(0, 512);
    return std::none_of(start.begin(), start.end(), [](unsigned char c) {
        return (c < 0x20 && c != '\t' && c != '\n' && c != '\r' && c != '\f') || c == 0x7f;
    });
}

// ISO 14496-12, 4.3: the file type box lists the brands a file keeps to, the chief one first.
Result<std::string> format_of_brands(std::string_view text) {
    std::size_t end = 0;
    for (const char length : text.substr(0, 4))
        end = end << 8 | static_cast<unsigned char>(length);
    const auto brands = text.substr(8, std::min<std::size_t>(end, 256) - 8);
    const auto has_any = [&](std::initializer_list<std::string_view> wanted) {
        for (std::size_t at = 0; at + 4 <= brands.size(); at += 4)
            if (at != 4 && std::ranges::find(wanted, brands.substr(at, 4)) != wanted.end())
                return true; // at 4 stands a version number
        return false;
    };
    if (brands.starts_with("crx ")) return unreadable("a raw picture");
    if (has_any({"heic", "heix", "heim", "heis", "hevc", "hevx"})) return std::string("HEIC");
    if (has_any({"avif", "avis"})) return std::string("AVIF");
    if (has_any({"mif1", "msf1", "mif2", "miaf"})) return std::string("HEIF");
    return unreadable("a film");
}

} // namespace

Result<std::string> format_of(std::span<const std::byte> bytes, std::string_view extension) {
    const auto text = as_text(bytes);
    if (text.size() >= 12 && text.substr(4, 4) == "ftyp") return format_of_brands(text);
    for (const auto& mark : kMarks) {
        if (bytes.size() < mark.at || text.substr(mark.at, mark.bytes.size()) != mark.bytes)
            continue;
        if (mark.bytes == "CR" && !text.starts_with("II*"sv)) continue;
        if (mark.is_readable) return std::string(mark.name);
        return unreadable(mark.name);
    }
    if (starts_with_text(text))
        return Failure{FailureKind::invalid, "is not a picture: it starts with text"};
    if (extension == ".tga" && is_readable_tga(bytes)) return std::string("TGA");
    return Failure{FailureKind::invalid,
                   "is not a picture of a kind that is known; " + std::string(kReadable)};
}

} // namespace fettle::photos
