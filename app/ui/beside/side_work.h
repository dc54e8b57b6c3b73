// Work beside the window: one thread that does jobs in the order they were asked for, and slots
// through which their answers come back. The window never waits for it; of several jobs asked for
// through one slot only the last one counts, and those not begun are left out.
// SideWork and Coming are used on the UI thread; only the jobs run on the other.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace fettle::ui {

// What a job will bring. Shared with the job, which may outlive whoever asked.
template <class T>
class Coming {
  public:
    // The answer to the last job asked for, once.
    std::optional<T> take() {
        const std::scoped_lock hold(held_);
        return std::exchange(come_, std::nullopt);
    }
    // Waits a little for what is mostly quick, so that it shows in the same frame.
    std::optional<T> take_within(std::chrono::milliseconds patience) {
        std::unique_lock hold(held_);
        arrived_.wait_for(hold, patience, [this] { return come_.has_value(); });
        return std::exchange(come_, std::nullopt);
    }
    bool awaited() const {
        const std::scoped_lock hold(held_);
        return answered_ != asked_ || come_.has_value();
    }

  private:
    friend class SideWork;
    std::uint64_t ask() {
        const std::scoped_lock hold(held_);
        come_.reset();
        return ++asked_;
    }
    bool wanted(std::uint64_t number) const {
        const std::scoped_lock hold(held_);
        return number == asked_;
    }
    void put(std::uint64_t number, T value) {
        const std::scoped_lock hold(held_);
        if (number != asked_) return;
        answered_ = number;
        come_ = std::move(value);
        arrived_.notify_all();
    }

    mutable std::mutex held_;
    std::condition_variable arrived_;
    std::uint64_t asked_ = 0, answered_ = 0;
    std::optional<T> come_;
};

class SideWork {
  public:
    // `wake` is called on the other thread after each job that was done.
    explicit SideWork(std::function<void()> wake);
    ~SideWork(); // lets the job under way end, leaves the others out

    template <class T>
    void ask(const std::shared_ptr<Coming<T>>& slot, std::function<T()> job) {
        const std::uint64_t number = slot->ask();
        push([slot, number, job = std::move(job)] {
            if (!slot->wanted(number)) return;
            slot->put(number, job());
        });
    }

    void settle(); // waits until everything asked for is done

  private:
    void push(std::function<void()> job);
    void run(const std::stop_token& stop);

    std::function<void()> wake_;
    std::mutex held_;
    std::condition_variable_any asked_;
    std::condition_variable idle_;
    std::deque<std::function<void()>> jobs_;
    bool busy_ = false;
    std::jthread thread_; // last: ends before the rest goes
};

} // namespace fettle::ui
