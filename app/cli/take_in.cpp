#include "desk/take_in.h"

#include "base/text.h"
#include "cli/interrupt.h"
#include "cli/verb.h"
#include "cli/verbs.h"

#include <algorithm>
#include <ostream>

namespace fettle::cli {
namespace {

struct TakeInVerbWish {
    std::vector<std::string> paths;
    bool in_place = false;
};

void declare_take_in(CLI::App& verb, TakeInVerbWish& wish) {
    verb.add_option("PATH", wish.paths, "Photos, and folders to be searched for photos")
        ->required();
    verb.add_flag("--in-place", wish.in_place, "Leave the originals where they are; copy nothing");
    verb.footer("Each file that cannot be read is named on standard error. Exit code 1 when a PATH "
                "named here\ncould not be read, when nothing at all could, or when Ctrl-C stopped "
                "it; what was taken in\nstays. Unreadable files inside folders alone are exit "
                "code 0.\n"
                "JSON: {taken, already_held, damaged, unreadable, stopped}; the first two list "
                "photo numbers,\nthe next two {file, sentence}.");
}

std::vector<std::int64_t> numbers(const std::vector<PhotoId>& photos) {
    std::vector<std::int64_t> plain;
    for (auto photo : photos)
        plain.push_back(photo.value);
    return plain;
}

Json left_out(const std::vector<desk::NotTaken>& files) {
    Json list = Json::array();
    for (const auto& [file, sentence] : files)
        list.push_back(Json{{"file", file.string()}, {"sentence", sentence}});
    return list;
}

std::string summary(const desk::TakeInReport& report) {
    std::string text = "taken " + std::to_string(report.taken.size()) + ", already held " +
                       std::to_string(report.already_held.size()) + ", unreadable " +
                       std::to_string(report.unreadable.size());
    if (!report.damaged.empty()) text += ", damaged " + std::to_string(report.damaged.size());
    return text + '\n';
}

bool failed(const desk::TakeInReport& report, const TakeInVerbWish& wish) {
    const bool named = std::ranges::any_of(report.unreadable, [&](const desk::NotTaken& file) {
        return std::ranges::find(wish.paths, file.file.native()) != wish.paths.end();
    });
    const bool nothing =
        !report.unreadable.empty() && report.taken.empty() && report.already_held.empty();
    return named || nothing || report.stopped;
}

Result<Report> take_in(const Call& call, const TakeInVerbWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    const Interrupt interrupt;
    desk::TakeInWish asked{.paths = {wish.paths.begin(), wish.paths.end()},
                           .in_place = wish.in_place,
                           .stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = desk::take_in(*notebook, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    for (const auto* files : {&report->damaged, &report->unreadable})
        for (const auto& [file, sentence] : *files)
            call.err << one_line(sentence) << '\n';
    if (report->stopped) call.err << "Stopped before the end; what was taken in stays.\n";
    return Report{summary(*report),
                  {{"taken", numbers(report->taken)},
                   {"already_held", numbers(report->already_held)},
                   {"damaged", left_out(report->damaged)},
                   {"unreadable", left_out(report->unreadable)},
                   {"stopped", report->stopped}},
                  failed(*report, wish)};
}

} // namespace

void add_take_in(Line& line) {
    add_verb(line, line.app, "take-in", "Take photos into the notebook, from files and folders",
             declare_take_in, take_in);
}

} // namespace fettle::cli
