// Taking in what appears in a watched folder, batch by batch. The notebook is opened for each batch
// only, so that other work on it goes on in between.
#pragma once

#include "desk/take_in.h"

#include <vector>

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

// Watches until stopped, giving each batch of complete pictures to `found`, whose failure ends it.
// Fails when the folder cannot be watched or is gone.
Done watch_folder(const std::filesystem::path& folder, std::chrono::milliseconds settle,
                  const std::stop_token& stop,
                  const std::function<Done(std::vector<std::filesystem::path>)>& found);

// The same, taking each batch in. Fails when the folder cannot be watched, is gone, or a batch
// fails as a whole.
Done watch(const WatchWish& wish);

} // namespace fettle::desk
