#include "photos/folder_watch.h"

#include "photos/file_bytes.h"
#include "photos/find_pictures.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/inotify.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <map>
#include <optional>
#include <utility>

namespace fettle::photos {
namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;
using std::chrono::milliseconds;

constexpr std::uint32_t kEvents = IN_CREATE | IN_MODIFY | IN_CLOSE_WRITE | IN_MOVED_TO |
                                  IN_MOVED_FROM | IN_DELETE | IN_DELETE_SELF | IN_MOVE_SELF;
constexpr milliseconds kLook{100}; // how often to look at the time and at `stop`

// A picture that is not known to be complete yet.
struct Pending {
    Clock::time_point since; // it was last seen changing
    std::uintmax_t bytes = 0;
    bool is_open = false; // as far as events tell
};

// Whether somebody has the file open for writing; nothing where the system cannot tell. A lease
// for reading is given only when nobody has.
std::optional<bool> is_being_written(const fs::path& file) {
    const int descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
    if (descriptor < 0) return {};
    const bool is_leased = fcntl(descriptor, F_SETLEASE, F_RDLCK) == 0;
    const int error = errno;
    if (is_leased) fcntl(descriptor, F_SETLEASE, F_UNLCK);
    ::close(descriptor);
    if (is_leased) return false;
    return error == EAGAIN ? std::optional(true) : std::nullopt;
}

} // namespace

struct FolderWatch::State {
    State(fs::path watched, milliseconds quiet, int notifier)
        : folder(std::move(watched)), settle(quiet), descriptor(notifier) {}
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State() { ::close(descriptor); }

    fs::path folder;
    milliseconds settle;
    int descriptor;
    std::map<int, fs::path> folders; // by watch
    std::map<fs::path, Pending> pending;
    bool is_gone = false;

    Done add_folder(const fs::path& path);
    void add_file(const fs::path& file, bool is_open);
    void take_event(const inotify_event& event);
    void take_events();
    std::vector<fs::path> complete();
    bool is_complete(const fs::path& file, Pending& waiting) const;
};

// Watched first and searched then, so that nothing slips through in between.
Done FolderWatch::State::add_folder(const fs::path& path) {
    const int watch = inotify_add_watch(descriptor, path.c_str(), kEvents | IN_ONLYDIR);
    if (watch < 0) return file_failure(path, "cannot be watched", errno);
    if (!folders.emplace(watch, path).second) return done(); // a link to one that is watched
    std::error_code error;
    for (fs::directory_iterator at(path, error), end; !error && at != end; at.increment(error)) {
        std::error_code ignored;
        const bool is_folder = at->is_directory(ignored);
        if (is_left_out(at->path(), is_folder)) continue;
        if (!is_folder)
            add_file(at->path(), false);
        else if (auto added = add_folder(at->path()); !added)
            return added;
    }
    return done();
}

void FolderWatch::State::add_file(const fs::path& file, bool is_open) {
    if (!is_picture_name(file) || is_left_out(file, false)) return;
    auto& waiting = pending[file];
    waiting.since = Clock::now();
    waiting.is_open = is_open;
    std::error_code error;
    waiting.bytes = fs::file_size(file, error);
}

void FolderWatch::State::take_event(const inotify_event& event) {
    const auto found = folders.find(event.wd);
    if (event.mask & IN_Q_OVERFLOW) {
        // Events were lost: look at everything again.
        folders.clear();
        (void)add_folder(folder);
        return;
    }
    if (found == folders.end()) return;
    if (event.mask & (IN_DELETE_SELF | IN_MOVE_SELF | IN_IGNORED)) {
        is_gone = is_gone || found->second == folder;
        if (event.mask & IN_MOVE_SELF) inotify_rm_watch(descriptor, event.wd);
        folders.erase(found);
        return;
    }
    if (event.len == 0) return;
    const auto path = found->second / event.name;
    if (event.mask & IN_ISDIR) {
        // One that cannot be watched is left out; its pictures can be taken in by hand.
        if ((event.mask & (IN_CREATE | IN_MOVED_TO)) && !is_left_out(path, true))
            (void)add_folder(path);
    } else if (event.mask & (IN_DELETE | IN_MOVED_FROM)) {
        pending.erase(path);
    } else {
        add_file(path, (event.mask & (IN_CREATE | IN_MODIFY)) != 0);
    }
}

void FolderWatch::State::take_events() {
    alignas(inotify_event) std::array<char, 65536> room;
    for (;;) {
        const auto got = ::read(descriptor, room.data(), room.size());
        if (got <= 0) return;
        for (std::size_t at = 0; at < std::size_t(got);) {
            const auto* event = reinterpret_cast<const inotify_event*>(room.data() + at);
            take_event(*event);
            at += sizeof(inotify_event) + event->len;
        }
    }
}

bool FolderWatch::State::is_complete(const fs::path& file, Pending& waiting) const {
    const auto now = Clock::now();
    if (now - waiting.since < settle) return false;
    std::error_code error;
    const auto bytes = fs::file_size(file, error);
    if (!error && bytes != waiting.bytes) { // over a network no event may tell of it
        waiting.bytes = bytes;
        waiting.since = now;
        return false;
    }
    return !is_being_written(file).value_or(waiting.is_open);
}

std::vector<fs::path> FolderWatch::State::complete() {
    std::vector<fs::path> files; // a map's order is sorted
    for (auto at = pending.begin(); at != pending.end();) {
        auto& [file, waiting] = *at;
        std::error_code error;
        const bool is_there = fs::exists(file, error);
        const bool is_done = is_there && is_complete(file, waiting);
        if (is_done) files.push_back(file);
        at = is_done || !is_there ? pending.erase(at) : std::next(at);
    }
    return files;
}

FolderWatch::FolderWatch(std::unique_ptr<State> state) : state_(std::move(state)) {}
FolderWatch::FolderWatch(FolderWatch&&) noexcept = default;
FolderWatch& FolderWatch::operator=(FolderWatch&&) noexcept = default;
FolderWatch::~FolderWatch() = default;

Result<FolderWatch> FolderWatch::open(const fs::path& folder, milliseconds settle) {
    std::error_code error;
    if (!fs::exists(folder, error))
        return Failure{FailureKind::not_found, "There is no folder " + spoken_name(folder) + "."};
    if (!fs::is_directory(folder, error))
        return Failure{FailureKind::invalid,
                       spoken_name(folder) + " is no folder: a folder can be watched."};
    const int descriptor = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
    if (descriptor < 0) return file_failure(folder, "cannot be watched", errno);
    auto state = std::make_unique<State>(folder, settle, descriptor);
    if (auto added = state->add_folder(folder); !added) return added.failure();
    return FolderWatch(std::move(state));
}

Result<std::vector<fs::path>> FolderWatch::next(const std::stop_token& stop,
                                                milliseconds patience) {
    const auto until = Clock::now() + patience;
    for (;;) {
        state_->take_events();
        if (state_->is_gone)
            return Failure{FailureKind::not_found, "The folder " + spoken_name(state_->folder) +
                                                       " is gone: it is watched no more."};
        auto files = state_->complete();
        if (!files.empty() || stop.stop_requested() || Clock::now() >= until) return files;
        pollfd waiting{state_->descriptor, POLLIN, 0};
        const auto left = std::chrono::duration_cast<milliseconds>(until - Clock::now());
        ::poll(&waiting, 1, static_cast<int>(std::clamp(left, milliseconds(1), kLook).count()));
    }
}

} // namespace fettle::photos
