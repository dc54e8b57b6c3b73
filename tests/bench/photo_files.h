// What benchmarks of photos share: generated JPEGs, and what the program holds of memory.
#pragma once

#include "base/result.h"
#include "photos/jpeg.h"

#include <filesystem>
#include <fstream>
#include <stdexcept>

namespace fettle::benchmarks {

template <class T>
T must(Result<T> result) {
    if (!result) throw std::runtime_error(result.failure().sentence);
    return std::move(*result);
}

// Rust by numbers: slow waves with grain on them, another grain for every seed.
inline void write_photo(const std::filesystem::path& file, int width, int height,
                        std::uint32_t seed = 1) {
    photos::Picture picture{width, height, std::vector<std::byte>(std::size_t(width) * height * 4)};
    std::uint32_t grain = seed;
    std::byte* at = picture.rgba.data();
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            grain = grain * 1664525 + 1013904223;
            const unsigned wave = unsigned((x / 37 + y / 53) & 63) + (grain >> 28);
            *at++ = std::byte(110 + wave);
            *at++ = std::byte(60 + wave / 2);
            *at++ = std::byte(40 + wave / 3);
            *at++ = std::byte(255);
        }
    const auto bytes = must(photos::encode_jpeg(picture));
    std::ofstream(file, std::ios::binary)
        .write(reinterpret_cast<const char*>(bytes.data()), std::streamsize(bytes.size()));
}

// What this program holds by proc(5)'s status, in MiB.
inline double status_mib(const std::string& field) {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;)
        if (word == field) {
            double kib = 0;
            status >> kib;
            return kib / 1024;
        }
    return 0;
}
inline double resident_mib() {
    return status_mib("VmRSS:");
}
inline double most_resident_mib() {
    return status_mib("VmHWM:");
}

} // namespace fettle::benchmarks
