// Taking photos in: the photos room looks at the files, the shelf keeps a copy, the notebook a
// record of each. The one act that the window, the command line and the demo share.
#pragma once

#include "notebook/notebook.h"
#include "notebook/runs.h"

#include <functional>
#include <stop_token>
#include <string>
#include <vector>

namespace fettle::desk {

struct TakeInWish {
    std::vector<std::filesystem::path> paths; // files and folders
    bool in_place = false;                    // leave originals where they are
    unsigned workers = 0;                     // 0: one a core
    std::chrono::minutes pause = kUsualPause; // that ends a tag run
    Step step = {};                           // undone with others of it; none: one of its own
    std::stop_token stop;                     // heeded between files; what was taken in stays
    // done, total, name of the file just dealt with; called on the calling thread
    std::function<void(std::size_t, std::size_t, const std::string&)> progress;
};

struct NotTaken {
    std::filesystem::path file;
    std::string sentence;
};

struct TakeInReport {
    std::vector<PhotoId> taken;        // in the order of the files
    std::vector<PhotoId> already_held; // photos that were there before
    std::vector<PhotoId> came_back;    // of those: whose file was gone or altered, and is put right
    std::vector<NotTaken> damaged;     // taken in, but incomplete: why
    std::vector<NotTaken> unreadable;  // left out: why
    // Photos tied because a part's tag was read in them, and those proposed to belong to it
    // (runs.h).
    int tied_by_tag = 0;
    int proposed = 0;
    std::vector<std::string> tags_without_part; // read in this take-in, on no part
    // By sidecars that stood beside the files (sidecars.h).
    int tied_by_sidecar = 0;
    int marks_by_sidecar = 0;
    std::vector<NotTaken> sidecars_left; // those that could not be read: why
    std::vector<PhotoId> guessed;        // taken in without a time: placed by a guess
    bool no_room = false;                // the notebook's disk did not take one of the unreadable
    bool stopped = false;
};

// All photos of one take-in, with their ties by tag, are one step of undo. Any thread, one take-in
// at a time. Fails only when the notebook cannot be written at all; whatever is wrong with single
// files stands in the report.
Result<TakeInReport> take_in(Notebook& notebook, const TakeInWish& wish);

} // namespace fettle::desk
