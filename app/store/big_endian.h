// Numbers as SQLite's files hold them.
#pragma once

#include <cstdint>

namespace fettle::store {

inline std::uint64_t big_endian(const unsigned char* at, int bytes) {
    std::uint64_t value = 0;
    for (int byte = 0; byte < bytes; ++byte)
        value = value << 8 | at[byte];
    return value;
}

inline std::uint32_t number_at(const unsigned char* at) {
    return static_cast<std::uint32_t>(big_endian(at, 4));
}

} // namespace fettle::store
