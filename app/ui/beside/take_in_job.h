// Taking photos in while the window goes on: what is dropped meanwhile waits its turn.
// UI thread only; destroying it stops the work between two files.
#pragma once

#include "desk/take_in.h"
#include "ui/beside/job.h"

#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace fettle::ui {

// "taken in 38, already held 2, 1 not readable; 4 tied by tag, 20 in runs to confirm"
std::string summary_of(const desk::TakeInReport& report);

class TakeInJob {
  public:
    // `wake` is called on the other thread whenever there is something new to show.
    TakeInJob(Notebook& book, std::function<void()> wake) : book_(book), job_(std::move(wake)) {}

    // `watched`: they appeared in a watched folder, nobody dropped them.
    void start(std::vector<std::filesystem::path> paths, bool watched = false);
    void stop(); // this one and those that wait

    bool running() const { return job_.running(); }
    std::string doing() const { return job_.words("taken in", "looking at what was dropped"); }
    double share() const { return job_.share(); }
    // Once a frame: the report of a take-in that has ended, and on to the next.
    std::optional<Result<desk::TakeInReport>> take_finished();
    bool was_watched() const { return was_watched_; } // of the last one taken
    // Held while photos are taken in, by whoever else does so too: one take-in at a time.
    const std::shared_ptr<std::mutex>& one_at_a_time() const { return one_at_a_time_; }

  private:
    struct Batch {
        std::vector<std::filesystem::path> paths;
        bool watched = false;
    };
    void begin(Batch batch);

    Notebook& book_;
    std::deque<Batch> waiting_;
    bool is_watched_ = false, was_watched_ = false;
    std::shared_ptr<std::mutex> one_at_a_time_ = std::make_shared<std::mutex>();
    Job<Result<desk::TakeInReport>> job_; // last: ends before the rest goes
};

} // namespace fettle::ui
