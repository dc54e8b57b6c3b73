// Giving photos out while the window goes on: copies with what is known of them into a folder, or
// sidecars beside originals that were left in place. UI thread only.
#pragma once

#include "desk/sidecars.h"
#include "ui/beside/job.h"

#include <filesystem>

namespace fettle::ui {

struct OutAsk {
    std::vector<PhotoId> photos;
    std::filesystem::path folder; // for the copies; empty: sidecars beside the originals
    bool with_place = false;      // tell where they were taken
};

struct OutDone {
    std::filesystem::path folder;
    desk::OutReport report;
};

// "copied 12 photos with sidecars into /home/me/out, 1 left out"
std::string summary_of(const OutDone& done);

class OutJob {
  public:
    OutJob(const Notebook& book, std::function<void()> wake) : book_(book), job_(std::move(wake)) {}

    // Nothing happens while one is running, or without photos.
    void start(const OutAsk& ask);
    void stop() { job_.stop(); }
    bool running() const { return job_.running(); }
    std::string doing() const { return job_.words("given out", "beginning to give out"); }
    double share() const { return job_.share(); }
    // Once a frame.
    std::optional<Result<OutDone>> take_finished() { return job_.take_finished(); }

  private:
    const Notebook& book_;
    Job<Result<OutDone>> job_;
};

} // namespace fettle::ui
