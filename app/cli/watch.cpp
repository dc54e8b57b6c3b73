#include "desk/watch.h"

#include "cli/interrupt.h"
#include "cli/taken.h"
#include "cli/verbs.h"

#include <ostream>

namespace fettle::cli {
namespace {

struct WatchVerbWish {
    std::string folder;
    bool in_place = false;
    int pause = int(kUsualPause.count());
};

void declare_watch(CLI::App& verb, WatchVerbWish& wish) {
    verb.add_option("FOLDER", wish.folder, "The folder to watch, with all below it")->required();
    verb.add_flag("--in-place", wish.in_place, "Leave the originals where they are; copy nothing");
    add_pause(verb, wish.pause);
    verb.footer(
        std::string("Takes in what is there, then each photo that appears, once it is written "
                    "completely, until Ctrl-C\nends it (exit code 0). What is taken in is "
                    "told on standard error as it comes.\n"
                    "JSON: {") +
        kTakenFields + "}, of all batches together; " + kTakenMeaning);
}

template <class T>
void append(std::vector<T>& all, const std::vector<T>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

void add(desk::TakeInReport& all, const desk::TakeInReport& batch) {
    append(all.taken, batch.taken);
    append(all.already_held, batch.already_held);
    append(all.came_back, batch.came_back);
    append(all.damaged, batch.damaged);
    append(all.unreadable, batch.unreadable);
    append(all.tags_without_part, batch.tags_without_part);
    append(all.guessed, batch.guessed);
    all.tied_by_tag += batch.tied_by_tag;
    all.proposed += batch.proposed;
}

Result<Report> watch(const Call& call, const WatchVerbWish& wish) {
    if (auto notebook = call.for_reading(); !notebook) return notebook.failure();
    const Interrupt interrupt;
    desk::TakeInReport all;
    auto watched = desk::watch({.folder = wish.folder,
                                .in_place = wish.in_place,
                                .pause = std::chrono::minutes(wish.pause),
                                .stop = interrupt.token(),
                                .open = [&] { return call.for_writing(); },
                                .taken_in =
                                    [&](const desk::TakeInReport& batch) {
                                        tell_left_out(call.err, batch);
                                        call.err << taken_summary(batch) << std::flush;
                                        add(all, batch);
                                    },
                                .waiting_for =
                                    [&](const std::string& sentence) {
                                        call.err << one_line(sentence) << " Waiting.\n"
                                                 << std::flush;
                                    }});
    if (!watched) return watched.failure();
    return Report{taken_summary(all), to_json(all)};
}

} // namespace

void add_watch(Line& line) {
    add_verb(line, line.app, "watch", "Take in photos as they appear in a folder, until Ctrl-C",
             declare_watch, watch);
}

} // namespace fettle::cli
