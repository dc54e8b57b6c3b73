// The content hash of a photo, piece by piece: XXH3-128, written as `xxhsum -H2` writes it.
// Tells files apart and finds damage; it is no protection against a forger.
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <string>
#include <string_view>

struct XXH3_state_s;

namespace fettle::photos {

class Hashing {
  public:
    Hashing();
    void add(std::span<const std::byte> bytes);
    std::string digits() const; // 32 hex digits, lower case

  private:
    struct FreeState {
        void operator()(XXH3_state_s* state) const;
    };
    std::unique_ptr<XXH3_state_s, FreeState> state_;
};

bool is_hash(std::string_view text);

} // namespace fettle::photos
