// Safe keeping: when the last backup was made and where, backing up and restoring, checking the
// notebook with what is found and what to do, and everything out as files that other programs read.
#pragma once

#include "desk/backup.h"
#include "ui/beside/keeping_job.h"
#include "ui/context.h"
#include "ui/frame/page.h"

#include <optional>
#include <string>

namespace fettle::ui {

// What a person is in the middle of.
struct KeepingState {
    std::string file, file_error;     // of the next backup
    std::string from, from_error;     // of the backup to restore
    std::string to, to_error;         // the folder to restore into
    std::string folder, folder_error; // for the data
    bool photos = false;
    bool proposed = false; // the fields were filled in
    int last_frame = -1;
    std::optional<desk::LastBackup> last;
    bool done_anew = false;          // since the last frame
    std::optional<KeepingDone> done; // what ended last
    std::string trouble;             // or why it did not
    Keeping troubled = Keeping::check;
};

void draw_keeping(Page& page, Context& context, KeepingJob& job, KeepingState& state);

// Takes what has ended, once a frame, whatever screen is shown.
void take_kept(KeepingJob& job, KeepingState& state);

// "no backup has been made yet", "the last backup is 34 days old"; empty when it is young enough.
std::string backup_wanted(const Notebook& book);

} // namespace fettle::ui
