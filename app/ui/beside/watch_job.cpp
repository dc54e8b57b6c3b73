#include "ui/beside/watch_job.h"

#include "desk/watch.h"

namespace fettle::ui {

WatchJob::WatchJob(std::function<void()> wake) : wake_(std::move(wake)) {}

WatchJob::~WatchJob() {
    stop();
}

void WatchJob::start(const std::filesystem::path& folder) {
    stop();
    folder_ = folder;
    thread_ = std::jthread([this, folder](const std::stop_token& stop) {
        const auto hand_over = [this](std::vector<std::filesystem::path> files) {
            {
                const std::scoped_lock hold(held_);
                found_.insert(found_.end(), files.begin(), files.end());
            }
            if (wake_) wake_();
            return done();
        };
        const Done watched = desk::watch_folder(folder, std::chrono::seconds(1), stop, hand_over);
        if (watched) return;
        {
            const std::scoped_lock hold(held_);
            failure_ = watched.failure();
        }
        if (wake_) wake_();
    });
}

void WatchJob::stop() {
    if (!thread_.joinable()) return;
    thread_.request_stop();
    thread_.join();
    found_.clear();
    failure_.reset();
    folder_.clear();
}

std::vector<std::filesystem::path> WatchJob::take_found() {
    const std::scoped_lock hold(held_);
    return std::exchange(found_, {});
}

std::optional<Failure> WatchJob::take_failure() {
    std::optional<Failure> failure;
    {
        const std::scoped_lock hold(held_);
        failure = std::exchange(failure_, std::nullopt);
    }
    if (failure) stop();
    return failure;
}

} // namespace fettle::ui
