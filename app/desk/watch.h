// Taking in what appears in a watched folder, batch by batch. The notebook is opened for each batch
// only, so that other work on it goes on in between.
#pragma once

#include "desk/take_in.h"

namespace fettle::desk {

struct WatchWish {
    std::filesystem::path folder;
    bool in_place = false;
    std::chrono::minutes pause = kUsualPause; // that ends a tag run
    std::stop_token stop;
    std::chrono::milliseconds settle = std::chrono::seconds(1); // see photos::FolderWatch
    std::function<Result<Notebook>()> open;            // for writing; asked again while it is busy
    std::function<void(const TakeInReport&)> taken_in; // after each batch
    std::function<void(const std::string&)> waiting_for; // the sentence, when the notebook is busy
};

// Watches until stopped. Fails when the folder cannot be watched, is gone, or a batch fails as a
// whole.
Done watch(const WatchWish& wish);

} // namespace fettle::desk
