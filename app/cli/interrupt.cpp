#include "cli/interrupt.h"

#include <ctime>

namespace fettle::cli {
namespace {

bool is_ignored(int signal) {
    struct sigaction action {};
    return sigaction(signal, nullptr, &action) == 0 && action.sa_handler == SIG_IGN;
}

} // namespace

Interrupt::Interrupt() {
    sigset_t stopping;
    sigemptyset(&stopping);
    for (int signal : {SIGINT, SIGTERM})
        if (!is_ignored(signal)) sigaddset(&stopping, signal); // nohup is to be respected
    pthread_sigmask(SIG_BLOCK, &stopping, &before_);
    watch_ = std::jthread([this, stopping](const std::stop_token& over) {
        const timespec patience{0, 50'000'000};
        while (!over.stop_requested())
            if (sigtimedwait(&stopping, nullptr, &patience) > 0) wish_.request_stop();
    });
}

Interrupt::~Interrupt() {
    watch_.request_stop();
    watch_.join();
    pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

} // namespace fettle::cli
