// Long work on a thread of its own while the window goes on: how far it is, a stop, and what came
// of it. UI thread only; destroying it asks the work to stop and waits for it.
#pragma once

#include <functional>
#include <mutex>
#include <optional>
#include <stop_token>
#include <string>
#include <thread>
#include <utility>

namespace fettle::ui {

template <class Outcome>
class Job {
  public:
    // done, total, name; as the rooms below tell it
    using Progress = std::function<void(std::size_t, std::size_t, const std::string&)>;
    using Work = std::function<Outcome(const std::stop_token&, const Progress&)>;

    // `wake` is called on the other thread whenever there is something new to show.
    explicit Job(std::function<void()> wake) : wake_(std::move(wake)) {}
    ~Job() { thread_.request_stop(); }

    // Only while none is running.
    void begin(Work work) {
        {
            const std::scoped_lock hold(held_);
            counted_ = {};
        }
        thread_ = std::jthread([this, work = std::move(work)](const std::stop_token& stop) {
            auto outcome = work(stop, [this](std::size_t done, std::size_t total, auto&) {
                {
                    const std::scoped_lock hold(held_);
                    counted_ = {done, total};
                }
                if (wake_) wake_();
            });
            {
                const std::scoped_lock hold(held_);
                finished_ = std::move(outcome);
            }
            if (wake_) wake_();
        });
    }
    void stop() { thread_.request_stop(); }
    bool running() const { return thread_.joinable(); }

    // Done and total; both 0 before anything has been counted.
    std::pair<std::size_t, std::size_t> counted() const {
        const std::scoped_lock hold(held_);
        return counted_;
    }
    double share() const {
        const auto [done, total] = counted();
        return total == 0 ? 0 : static_cast<double>(done) / static_cast<double>(total);
    }
    // "taken in 38 of 60"; `before` while nothing has been counted.
    std::string words(const std::string& what, const std::string& before) const {
        const auto [done, total] = counted();
        if (total == 0) return before;
        return what + ' ' + std::to_string(done) + " of " + std::to_string(total);
    }
    // Once a frame: what came of work that has ended.
    std::optional<Outcome> take_finished() {
        std::optional<Outcome> outcome;
        {
            const std::scoped_lock hold(held_);
            outcome = std::exchange(finished_, std::nullopt);
        }
        if (outcome) thread_.join();
        return outcome;
    }

  private:
    std::function<void()> wake_;
    mutable std::mutex held_; // of the two below, shared with the thread
    std::pair<std::size_t, std::size_t> counted_{};
    std::optional<Outcome> finished_;
    std::jthread thread_; // last: ends before the rest goes
};

} // namespace fettle::ui
