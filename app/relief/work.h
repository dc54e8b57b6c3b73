// Long work of this room: in bands of rows, by several threads, telling how far it is, and stopped
// when wished.
#pragma once

#include "base/result.h"

#include <functional>
#include <stop_token>
#include <string>

namespace fettle::relief {

struct Work {
    std::stop_token stop = {}; // heeded after each band; then nothing is given
    // done, total, what; called on the calling thread
    std::function<void(std::size_t, std::size_t, const std::string&)> progress = {};
    unsigned threads = 0; // 0: one a core
};

// Calls `act` for each piece 0 to pieces - 1, several at a time. Fails with cancelled when it was
// stopped. `act` may not throw.
Done in_pieces(int pieces, const Work& work, const std::string& what,
               const std::function<void(int piece)>& act);
// The same for bands of rows, from `first` up to but without `last`.
Done in_bands(int rows, const Work& work, const std::string& what,
              const std::function<void(int first, int last)>& act);

Failure stopped();

} // namespace fettle::relief
