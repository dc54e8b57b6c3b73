// Carrying the notebook to the other machine, and meeting what came from there, while the window
// goes on. UI thread only.
#pragma once

#include "desk/two_machines.h"
#include "ui/beside/job.h"

#include <filesystem>

namespace fettle::ui {

struct CarryAsk {
    std::filesystem::path file;
    bool meet = false; // bring it in; else write it
};

struct CarryDone {
    std::string words;
    std::vector<desk::PhotoLeftOut> left_out;
    int differences = 0; // new ones
};

class CarryJob {
  public:
    CarryJob(Notebook& book, std::function<void()> wake) : book_(book), job_(std::move(wake)) {}

    // Nothing happens while one is running.
    void start(const CarryAsk& ask);
    void stop() { job_.stop(); }
    bool running() const { return job_.running(); }
    std::string doing() const;
    double share() const { return job_.share(); }
    // Once a frame.
    std::optional<Result<CarryDone>> take_finished() { return job_.take_finished(); }

  private:
    Notebook& book_;
    Job<Result<CarryDone>> job_;
    bool meeting_ = false;
};

} // namespace fettle::ui
