// Ctrl-C as a wish to stop: while an Interrupt lives, SIGINT and SIGTERM stop the work under way
// between two files instead of ending the program in the middle of one. Worker threads and
// processes started meanwhile do not see the signals. One at a time, on the main thread.
#pragma once

#include <csignal>
#include <stop_token>
#include <thread>

namespace fettle::cli {

class Interrupt {
  public:
    Interrupt();
    Interrupt(const Interrupt&) = delete;
    Interrupt& operator=(const Interrupt&) = delete;
    ~Interrupt();

    std::stop_token token() const { return wish_.get_token(); }

  private:
    sigset_t before_{};
    std::stop_source wish_;
    std::jthread watch_;
};

} // namespace fettle::cli
