#include "ui/beside/side_work.h"

namespace fettle::ui {

SideWork::SideWork(std::function<void()> wake)
    : wake_(std::move(wake)), thread_([this](const std::stop_token& stop) { run(stop); }) {}

SideWork::~SideWork() {
    thread_.request_stop();
    thread_.join();
}

void SideWork::push(std::function<void()> job) {
    const std::scoped_lock hold(held_);
    jobs_.push_back(std::move(job));
    asked_.notify_one();
}

void SideWork::settle() {
    std::unique_lock hold(held_);
    idle_.wait(hold, [this] { return jobs_.empty() && !busy_; });
}

void SideWork::run(const std::stop_token& stop) {
    for (;;) {
        std::function<void()> job;
        {
            std::unique_lock hold(held_);
            asked_.wait(hold, stop, [this] { return !jobs_.empty(); });
            if (stop.stop_requested()) return;
            job = std::move(jobs_.front());
            jobs_.pop_front();
            busy_ = true;
        }
        job();
        {
            const std::scoped_lock hold(held_);
            busy_ = false;
            if (jobs_.empty()) idle_.notify_all();
        }
        if (wake_) wake_();
    }
}

} // namespace fettle::ui
