#include "relief/work.h"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace fettle::relief {
namespace {

constexpr int kBand = 16;

} // namespace

Failure stopped() {
    return {FailureKind::cancelled, "The torch set was stopped before it was worked out."};
}

Done in_pieces(int pieces, const Work& work, const std::string& what,
               const std::function<void(int)>& act) {
    std::atomic<int> next = 0, finished = 0;
    const auto take = [&](bool tells) {
        for (int piece = next++; piece < pieces; piece = next++) {
            if (work.stop.stop_requested()) return;
            act(piece);
            const int done = ++finished;
            if (tells && work.progress) work.progress(std::size_t(done), std::size_t(pieces), what);
        }
    };
    const unsigned cores = std::max(1U, std::thread::hardware_concurrency());
    const unsigned threads =
        std::min(work.threads == 0 ? cores : work.threads, unsigned(std::max(1, pieces)));
    {
        std::vector<std::jthread> others;
        for (unsigned other = 1; other < threads; ++other)
            others.emplace_back([&] { take(false); });
        take(true);
    }
    if (finished < pieces) return stopped();
    if (work.progress) work.progress(std::size_t(pieces), std::size_t(pieces), what);
    return done();
}

Done in_bands(int rows, const Work& work, const std::string& what,
              const std::function<void(int, int)>& act) {
    return in_pieces((rows + kBand - 1) / kBand, work, what,
                     [&](int band) { act(band * kBand, std::min(rows, (band + 1) * kBand)); });
}

} // namespace fettle::relief
