#include "campaigns/picture_mutations.h"

#include "temp_folder.h"

#include <array>
#include <stdexcept>
#include <utility>

namespace picture_campaign {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kHeader = 700; // where most of what a reader goes by stands

void run(const std::string& command) {
    if (std::system(command.c_str()) != 0) throw std::runtime_error("failed: " + command);
}

// Near the start two times of three.
std::size_t place_in(const std::string& bytes, std::mt19937_64& random) {
    const bool in_header = random() % 3 != 0;
    return random() % (in_header ? std::min(bytes.size(), kHeader) : bytes.size());
}

std::string number(std::uint32_t value, std::size_t size, bool big_end_first) {
    std::string bytes;
    for (std::size_t at = 0; at < size; ++at)
        bytes += static_cast<char>(value >> (8 * (big_end_first ? size - 1 - at : at)));
    return bytes;
}

void replace_all(std::string& bytes, const std::string& from, const std::string& to) {
    for (auto at = bytes.find(from); at != std::string::npos; at = bytes.find(from, at + to.size()))
        bytes.replace(at, to.size(), to);
}

// Some number of two or four bytes becomes as large as it can be, or nearly.
void blow_up_a_length(std::string& bytes, std::mt19937_64& random) {
    constexpr std::uint32_t kLarge[] = {0xffffffff, 0x7fffffff, 0x80000000, 0xfffffff0, 0};
    const std::size_t size = random() % 2 == 0 ? 2 : 4;
    if (bytes.size() < size) return;
    const auto at = std::min(place_in(bytes, random), bytes.size() - size);
    bytes.replace(at, size, number(kLarge[random() % std::size(kLarge)], size, random() % 2 == 0));
}

// The picture says that it is of another size: far beyond what is taken, just within, or none.
void claim_another_size(std::string& bytes, std::mt19937_64& random) {
    constexpr std::pair<std::uint32_t, std::uint32_t> kSizes[] = {
        {65535, 65535}, {0x7fffffff, 0x7fffffff},
        {14000, 14000}, {65535, 1},
        {1, 65000},     {4000, 3000},
        {0, 0},         {16384, 12000},
        {76, 53},       {1, 1}};
    const auto [width, height] = kSizes[random() % std::size(kSizes)];
    for (const std::size_t size : {4, 2})
        for (const bool big_end_first : {true, false}) {
            replace_all(bytes, number(kWidth, size, big_end_first),
                        number(width, size, big_end_first));
            replace_all(bytes, number(kHeight, size, big_end_first),
                        number(height, size, big_end_first));
        }
}

} // namespace

std::vector<Original> make_originals(const fs::path& folder, int of_each) {
    constexpr std::pair<const char*, const char*> kKinds[] = {
        {".jpg", "-quality 85"},
        {".jpg", "-interlace JPEG"},
        {".png", ""},
        {".heic", ""},
        {".webp", ""},
        {".webp", "-define webp:lossless=true"},
        {".tif", "-compress LZW"},
        {".tif", "-compress none"},
        {".bmp", ""},
        {".gif", ""},
        {".tga", ""},
        {".tga", "-compress RLE"}};
    fs::create_directories(folder);
    std::vector<Original> all;
    for (const auto& [ending, how] : kKinds)
        for (int count = 0; count < of_each; ++count) {
            const auto serial = std::to_string(all.size());
            const auto file = folder / ("good-" + serial + ending);
            run("convert -seed " + serial + " -size " + std::to_string(kWidth) + "x" +
                std::to_string(kHeight) + " plasma: -colorspace sRGB " + how + " '" +
                file.string() + "'");
            const bool from_camera = std::string(ending) == ".jpg" || std::string(ending) == ".tif";
            if (from_camera && count % 2 == 0)
                run("exiv2 -M'set Exif.Photo.DateTimeOriginal 2026:03:07 19:42:05' -M'set "
                    "Exif.Image.Orientation 6' -M'set Exif.GPSInfo.GPSLatitude 54/1 2/1 30/1' '" +
                    file.string() + "'");
            all.push_back({file, ending, file_text(file)});
        }
    return all;
}

Spoilt spoil(const std::vector<Original>& originals, Spoiling how, std::mt19937_64& random) {
    const auto& original = originals[random() % originals.size()];
    std::string bytes = original.bytes;
    switch (how) {
    case Spoiling::flipped:
        for (auto count = 1 + random() % 20; count > 0; --count)
            bytes[place_in(bytes, random)] = static_cast<char>(random());
        break;
    case Spoiling::cut:
        bytes.resize(place_in(bytes, random));
        break;
    case Spoiling::doubled: {
        const auto at = place_in(bytes, random);
        bytes.insert(at, bytes.substr(at, 1 + random() % 600));
        break;
    }
    case Spoiling::spliced: { // the beginning of one, the rest of another, perhaps of another
                              // format
        const auto& other = originals[random() % originals.size()].bytes;
        bytes.resize(place_in(bytes, random));
        bytes += other.substr(place_in(other, random));
        break;
    }
    case Spoiling::lengths:
        for (auto count = 1 + random() % 4; count > 0; --count)
            blow_up_a_length(bytes, random);
        break;
    case Spoiling::dimensions:
        claim_another_size(bytes, random);
        if (random() % 4 == 0) bytes.resize(place_in(bytes, random));
        break;
    }
    return {std::move(bytes), original.ending};
}

} // namespace picture_campaign
