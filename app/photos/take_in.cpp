#include "photos/take_in.h"

#include "base/process.h"
#include "photos/decoder.h"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <unordered_map>
#include <utility>
#include <variant>

namespace fettle::photos {
namespace {

namespace fs = std::filesystem;

struct AlreadyHeld {
    std::string hash;
};
using Outcome = std::variant<Look, AlreadyHeld, Failure>;

// How far the workers may run ahead of the caller, in files for each worker: enough to bridge a
// slow keep(), little enough to hold few thumbnails.
constexpr std::size_t kLead = 16;

// The list between the workers, who draw the next file from it, and the caller, who draws the
// outcomes in the order of the list.
class Queue {
  public:
    Queue(const std::vector<fs::path>& files, std::size_t lead) : files_(files), lead_(lead) {}

    // The place of the next file to look at; nothing when none is left or the run is to end.
    std::optional<std::size_t> next_file(const std::stop_token& stop) {
        std::unique_lock lock(mutex_);
        const bool may_go = room_.wait(
            lock, stop, [&] { return next_ == files_.size() || next_ < delivered_ + lead_; });
        if (!may_go || stop.stop_requested() || next_ == files_.size()) return {};
        return next_++;
    }

    void put(std::size_t place, Outcome outcome) {
        {
            std::lock_guard lock(mutex_);
            outcomes_.emplace(place, std::move(outcome));
        }
        arrived_.notify_one();
    }

    // The outcome of the file at `place`; nothing when the run is to end before.
    std::optional<Outcome> await(std::size_t place, const std::stop_token& stop) {
        std::unique_lock lock(mutex_);
        const bool is_there = arrived_.wait(lock, stop, [&] { return outcomes_.contains(place); });
        if (!is_there || stop.stop_requested()) return {};
        auto outcome = std::move(outcomes_.extract(place).mapped());
        delivered_ = place + 1;
        lock.unlock();
        room_.notify_all();
        return outcome;
    }

  private:
    const std::vector<fs::path>& files_;
    const std::size_t lead_;
    std::mutex mutex_;
    std::condition_variable_any room_, arrived_;
    std::size_t next_ = 0, delivered_ = 0;
    std::unordered_map<std::size_t, Outcome> outcomes_;
};

Outcome look_at(Decoder& decoder, const fs::path& file,
                const std::unordered_set<std::string>& held) {
    if (!held.empty()) {
        auto hash = decoder.hash(file);
        if (!hash) return hash.failure();
        if (held.contains(*hash)) return AlreadyHeld{std::move(*hash)};
    }
    auto look = decoder.look(file);
    if (!look) return look.failure();
    return std::move(*look);
}

void work(Queue& queue, const std::vector<fs::path>& files,
          const std::unordered_set<std::string>& held, const fs::path& decode_program,
          const std::stop_token& stop) {
    Decoder decoder(decode_program);
    while (const auto place = queue.next_file(stop)) {
        try {
            queue.put(*place, look_at(decoder, files[*place], held));
        } catch (const std::exception& error) { // out of memory, most likely
            queue.put(*place, Failure{FailureKind::io,
                                      "There was no memory left to take in " +
                                          files[*place].filename().string() + ".",
                                      error.what()});
        }
    }
}

// The caller's side of one run: acts on outcomes and counts them.
class Account {
  public:
    explicit Account(const TakeInHooks& hooks) : hooks_(hooks) {}

    void settle(const fs::path& file, Outcome outcome) {
        if (auto* look = std::get_if<Look>(&outcome))
            keep(file, *look);
        else if (auto* held = std::get_if<AlreadyHeld>(&outcome))
            already_held(file, held->hash);
        else
            unreadable(file, std::get<Failure>(outcome));
    }

    TakeInCounts counts;

  private:
    void keep(const fs::path& file, const Look& look) {
        if (kept_.contains(look.hash)) return already_held(file, look.hash);
        if (auto kept = hooks_.keep(look, file); !kept) {
            if (kept.failure().kind != FailureKind::cancelled)
                return unreadable(file, kept.failure());
            counts.stopped = true;
            return;
        }
        kept_.insert(look.hash);
        ++counts.taken;
        if (look.damaged) ++counts.damaged;
    }
    void already_held(const fs::path& file, const std::string& hash) {
        ++counts.already_held;
        if (hooks_.already_held) hooks_.already_held(file, hash);
    }
    void unreadable(const fs::path& file, const Failure& why) {
        ++counts.unreadable;
        if (hooks_.unreadable) hooks_.unreadable(file, why);
    }

    const TakeInHooks& hooks_;
    std::unordered_set<std::string> kept_;
};

// Ends the workers' waiting however this scope is left.
struct StopAtEnd {
    std::stop_source& source;
    ~StopAtEnd() { source.request_stop(); }
};

} // namespace

TakeInCounts take_in(const std::vector<fs::path>& files, const TakeInHooks& hooks, unsigned workers,
                     const std::stop_token& stop, const fs::path& decode_program) {
    if (workers == 0) workers = std::max(1u, std::thread::hardware_concurrency());
    workers = static_cast<unsigned>(std::min<std::size_t>(workers, files.size()));

    std::stop_source halt;
    const std::stop_callback forward(stop, [&] { halt.request_stop(); });
    const auto halted = halt.get_token();
    Queue queue(files, kLead * workers);
    Account account(hooks);
    std::vector<std::jthread> threads;
    const StopAtEnd stop_at_end{halt};
    for (unsigned at = 0; at < workers; ++at)
        threads.emplace_back([&] { work(queue, files, hooks.held, decode_program, halted); });

    for (std::size_t place = 0; place < files.size(); ++place) {
        auto outcome = queue.await(place, halted);
        if (!outcome) {
            account.counts.stopped = true;
            break;
        }
        account.settle(files[place], std::move(*outcome));
        if (account.counts.stopped) break;
        if (hooks.progress) hooks.progress(place + 1, files.size(), files[place]);
    }
    return account.counts;
}

TakeInCounts take_in(const std::vector<fs::path>& files, const TakeInHooks& hooks, unsigned workers,
                     const std::stop_token& stop) {
    return take_in(files, hooks, workers, stop, helper_program("fettlebook-decode"));
}

} // namespace fettle::photos
