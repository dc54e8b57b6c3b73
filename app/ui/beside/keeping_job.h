// Backing up, restoring, checking and giving everything out while the window goes on, one at a
// time. UI thread only.
#pragma once

#include "desk/check.h"
#include "ui/beside/job.h"

#include <filesystem>

namespace fettle::ui {

enum class Keeping { back_up, restore, check, mend, data_out };

struct KeepingAsk {
    Keeping what = Keeping::check;
    std::filesystem::path file;   // of the backup
    std::filesystem::path folder; // of the restored notebook, or for the data
    bool photos = false;          // with the data
};

struct KeepingDone {
    Keeping what = Keeping::check;
    std::string summary;               // "Backed up 57 files into /mnt/a.zip and verified them"
    std::vector<std::string> left_out; // a sentence each
    std::vector<desk::CheckFinding> findings; // of a check
};

class KeepingJob {
  public:
    KeepingJob(Notebook& book, std::function<void()> wake) : book_(book), job_(std::move(wake)) {}

    // Nothing happens while one is running.
    void start(const KeepingAsk& ask);
    void stop() { job_.stop(); }
    bool running() const { return job_.running(); }
    std::string doing() const;
    double share() const { return job_.share(); }
    // Once a frame.
    std::optional<Result<KeepingDone>> take_finished() { return job_.take_finished(); }

  private:
    Notebook& book_;
    Keeping what_ = Keeping::check;
    Job<Result<KeepingDone>> job_;
};

} // namespace fettle::ui
