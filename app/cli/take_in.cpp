#include "desk/take_in.h"

#include "cli/interrupt.h"
#include "cli/taken.h"
#include "cli/verb.h"
#include "cli/verbs.h"

#include <algorithm>
#include <ostream>

namespace fettle::cli {
namespace {

struct TakeInVerbWish {
    std::vector<std::string> paths;
    bool in_place = false;
    int pause = int(kUsualPause.count());
};

void declare_take_in(CLI::App& verb, TakeInVerbWish& wish) {
    verb.add_option("PATH", wish.paths, "Photos, and folders to be searched for photos")
        ->required();
    verb.add_flag("--in-place", wish.in_place, "Leave the originals where they are; copy nothing");
    add_pause(verb, wish.pause);
    verb.footer(
        std::string(
            "Each file that cannot be read is named on standard error. Exit code 1 when a PATH "
            "named here\ncould not be read, when nothing at all could, when the notebook's disk is "
            "full, or when Ctrl-C\nstopped it; what was taken in stays. Unreadable files inside "
            "folders alone are exit code 0.\n"
            "A photo that shows a part's tag is tied to it; those after it are proposed to belong "
            "to "
            "it, until\nthe next tag or a pause: `runs list` shows them.\n"
            "JSON: {") +
        kTakenFields + ", stopped}; " + kTakenMeaning);
}

bool failed(const desk::TakeInReport& report, const TakeInVerbWish& wish) {
    const bool named = std::ranges::any_of(report.unreadable, [&](const desk::NotTaken& file) {
        return std::ranges::find(wish.paths, file.file.native()) != wish.paths.end();
    });
    const bool nothing =
        !report.unreadable.empty() && report.taken.empty() && report.already_held.empty();
    return named || nothing || report.no_room || report.stopped;
}

Result<Report> take_in(const Call& call, const TakeInVerbWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    const Interrupt interrupt;
    desk::TakeInWish asked{.paths = {wish.paths.begin(), wish.paths.end()},
                           .in_place = wish.in_place,
                           .pause = std::chrono::minutes(wish.pause),
                           .stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = desk::take_in(*notebook, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    tell_left_out(call.err, *report);
    if (report->stopped) call.err << "Stopped before the end; what was taken in stays.\n";
    Json json = to_json(*report);
    json["stopped"] = report->stopped;
    return Report{taken_summary(*report), std::move(json), failed(*report, wish)};
}

} // namespace

void add_take_in(Line& line) {
    add_verb(line, line.app, "take-in", "Take photos into the notebook, from files and folders",
             declare_take_in, take_in);
}

} // namespace fettle::cli
