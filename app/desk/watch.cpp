#include "desk/watch.h"

#include "photos/folder_watch.h"

#include <thread>

namespace fettle::desk {
namespace {

constexpr std::chrono::milliseconds kPatience{1000}, kAskAgain{300};

// Asks until the notebook is free; cancelled when stopped before.
Result<Notebook> open_when_free(const WatchWish& wish) {
    for (bool is_told = false;;) {
        auto notebook = wish.open();
        if (notebook || notebook.failure().kind != FailureKind::busy) return notebook;
        if (!is_told && wish.waiting_for) wish.waiting_for(notebook.failure().sentence);
        is_told = true;
        if (wish.stop.stop_requested())
            return Failure{FailureKind::cancelled, "Stopped while the notebook was in use."};
        std::this_thread::sleep_for(kAskAgain);
    }
}

} // namespace

Done watch_folder(const std::filesystem::path& folder, std::chrono::milliseconds settle,
                  const std::stop_token& stop,
                  const std::function<Done(std::vector<std::filesystem::path>)>& found) {
    auto watched = photos::FolderWatch::open(folder, settle);
    if (!watched) return watched.failure();
    while (!stop.stop_requested()) {
        auto files = watched->next(stop, kPatience);
        if (!files) return files.failure();
        if (files->empty()) continue;
        if (auto dealt_with = found(std::move(*files)); !dealt_with) return dealt_with;
    }
    return done();
}

Done watch(const WatchWish& wish) {
    const auto take = [&](std::vector<std::filesystem::path> files) -> Done {
        auto notebook = open_when_free(wish);
        // Stopped while waiting: the next look at `stop` ends the watching.
        if (!notebook && notebook.failure().kind == FailureKind::cancelled) return done();
        if (!notebook) return notebook.failure();
        auto report = take_in(*notebook, {.paths = std::move(files),
                                          .in_place = wish.in_place,
                                          .pause = wish.pause,
                                          .stop = wish.stop});
        if (!report) return report.failure();
        if (wish.taken_in) wish.taken_in(*report);
        return done();
    };
    return watch_folder(wish.folder, wish.settle, wish.stop, take);
}

} // namespace fettle::desk
