// How long the window's thread works for the frames that a test draws: told at the end of the
// program where FETTLEBOOK_FRAME_TIMES is set, checked nowhere.
#pragma once

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <vector>

namespace fettle::ui::testing {

class FrameTimes {
  public:
    static FrameTimes& all() {
        static FrameTimes times;
        return times;
    }
    template <class Draw>
    auto of(Draw draw) {
        const double from = worked_ms();
        const auto result = draw();
        if (wanted_) ms_.push_back(worked_ms() - from);
        return result;
    }

    FrameTimes(const FrameTimes&) = delete;
    FrameTimes& operator=(const FrameTimes&) = delete;

  private:
    FrameTimes() = default;
    ~FrameTimes() {
        if (ms_.empty()) return;
        std::ranges::sort(ms_);
        const auto at = [this](std::size_t hundredths) {
            return ms_[std::min(ms_.size() - 1, ms_.size() * hundredths / 100)];
        };
        std::printf("%zu frames: median %.2f ms, 99 of 100 %.2f ms, the most %.2f ms\n", ms_.size(),
                    at(50), at(99), ms_.back());
    }
    static double worked_ms() {
        timespec time{};
        clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
        return double(time.tv_sec) * 1e3 + double(time.tv_nsec) / 1e6;
    }

    const bool wanted_ = std::getenv("FETTLEBOOK_FRAME_TIMES") != nullptr;
    std::vector<double> ms_;
};

} // namespace fettle::ui::testing
