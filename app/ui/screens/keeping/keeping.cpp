#include "ui/screens/keeping/keeping.h"

#include "base/date.h"
#include "base/text.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/screens/photos/photo_intake.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/listed.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <chrono>

namespace fettle::ui {
namespace {

namespace fs = std::filesystem;

constexpr float kField = 520;
constexpr int kMostDays = 30;
constexpr Chord kBackUp{'B'}, kCheck{'C'}, kMend{'M'}, kDataOut{'D'}, kRestore{'R'};

fs::path typed_path(const std::string& typed) {
    return fs::absolute(path_of(std::string(trim(typed))));
}

// Whether the field holds something; else the sentence beside it.
bool filled(const std::string& typed, std::string& error, const char* accepted) {
    error = trim(typed).empty() ? accepted : "";
    return error.empty();
}

// Whenever the screen is come to, as another program may have made a backup.
void look_again(const Notebook& book, KeepingState& state) {
    state.last = desk::last_backup(book.folder());
    if (std::exchange(state.proposed, true)) return;
    state.file = safe_utf8(desk::proposed_backup(book.folder()).native());
    if (state.last) state.from = safe_utf8(state.last->file.native());
}

void start(KeepingJob& job, KeepingState& state, const KeepingAsk& ask) {
    if (job.running()) return;
    state.done.reset();
    state.trouble.clear();
    state.troubled = ask.what;
    job.start(ask);
}

bool asked(Page& page, const KeepingJob& job, std::string_view key, std::string_view label,
           const Chord& chord, Weight weight = Weight::plain) {
    const std::string hint = words_of(chord);
    const bool free = !job.running();
    return button(page, key, label, {.weight = weight, .key_hint = hint, .enabled = free}) ||
           (free && pressed(chord));
}

// What came of it, below its own act.
void outcome(Page& page, const KeepingState& state, Keeping what) {
    const bool of_check = what == Keeping::check;
    const auto is_mine = [&](Keeping which) {
        return which == what || (of_check && which == Keeping::mend);
    };
    if (!state.trouble.empty() && is_mine(state.troubled)) {
        gap(page);
        notice(page, "keeping.trouble", Tell::stop, state.trouble);
    }
    if (!state.done || !is_mine(state.done->what)) return;
    const bool is_well = state.done->left_out.empty() &&
                         std::ranges::none_of(state.done->findings, [](const auto& finding) {
                             return finding.is_wrong();
                         });
    gap(page);
    notice(page, "keeping.done", is_well ? Tell::ready : Tell::caution, state.done->summary + ".");
    for (std::size_t i = 0; i < state.done->left_out.size(); ++i)
        notice(page, "keeping.left_out." + std::to_string(i), Tell::caution,
               state.done->left_out[i]);
}

void draw_backup(Page& page, KeepingJob& job, KeepingState& state) {
    words(page, "Backup");
    rule(page);
    std::string said = "No backup has been made yet. A backup is one file with everything: the "
                       "database, all photos, whatever else lies in the notebook's folder. It is "
                       "safest on another disk, away from the workshop.";
    if (state.last) {
        const auto made = parse_moment(state.last->made);
        said = "The last one was made on " + to_words(*made) + ", " +
               std::to_string(state.last->files) + " files in " +
               safe_utf8(state.last->file.native()) + ".";
    }
    body(page, said, Role::pencil);
    note(page, "keeping.last", said);
    const FieldChange field = text_field(page, "keeping.file", state.file,
                                         {.label = "back up to the file",
                                          .hint = "/media/stick/rebuild.zip",
                                          .error = state.file_error,
                                          .width = kField});
    if (field.edited) state.file_error.clear();
    const bool wanted = asked(page, job, "keeping.back_up", "back up now", kBackUp, Weight::next);
    if ((wanted || field.entered) &&
        filled(state.file, state.file_error, "Type a file, such as /media/stick/rebuild.zip."))
        start(job, state, {.what = Keeping::back_up, .file = typed_path(state.file)});
    outcome(page, state, Keeping::back_up);
}

void draw_findings(Page& page, const KeepingState& state) {
    if (!state.done) return;
    for (std::size_t i = 0; i < state.done->findings.size(); ++i) {
        const auto& finding = state.done->findings[i];
        listed(page, "keeping.finding." + std::to_string(i),
               {.title = finding.sentence,
                .aside = finding.mended ? "mended" : desk::word(finding.kind),
                .lines = {{finding.advice}}});
    }
}

void draw_check(Page& page, KeepingJob& job, KeepingState& state) {
    words(page, "Check");
    rule(page);
    body(page,
         "Reads the database and every photo, and says what is missing, altered, moved or left "
         "over, and what to do about it.",
         Role::pencil);
    if (asked(page, job, "keeping.check", "check now", kCheck))
        start(job, state, {.what = Keeping::check});
    const bool has_findings =
        state.done && state.done->what == Keeping::check && !state.done->findings.empty();
    if (has_findings) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        if (asked(page, job, "keeping.mend", "mend what can be", kMend))
            start(job, state, {.what = Keeping::mend});
    }
    outcome(page, state, Keeping::check);
    draw_findings(page, state);
}

void draw_data(Page& page, KeepingJob& job, KeepingState& state) {
    words(page, "Everything as files");
    rule(page);
    body(page,
         "Each table as JSON Lines and as CSV, for other programs and other years, with its schema "
         "in words; fettlebook data in makes a notebook of them again.",
         Role::pencil);
    const FieldChange field = text_field(page, "keeping.folder", state.folder,
                                         {.label = "into a new or empty folder",
                                          .hint = "~/rebuild-data",
                                          .error = state.folder_error,
                                          .width = kField});
    if (field.edited) state.folder_error.clear();
    check(page, "keeping.photos", "the photos, too, with where they were taken", state.photos);
    const bool wanted = asked(page, job, "keeping.data_out", "write them", kDataOut);
    if ((wanted || field.entered) && filled(state.folder, state.folder_error,
                                            "Type a new or empty folder, such as ~/rebuild-data."))
        start(job, state,
              {.what = Keeping::data_out,
               .folder = typed_path(state.folder),
               .photos = state.photos});
    outcome(page, state, Keeping::data_out);
}

void draw_restore(Page& page, KeepingJob& job, KeepingState& state) {
    words(page, "Restore");
    rule(page);
    body(page,
         "Makes a notebook of a backup in a folder of its own, verified file by file. This "
         "notebook stays as it is.",
         Role::pencil);
    const FieldChange from = text_field(page, "keeping.from", state.from,
                                        {.label = "the backup",
                                         .hint = "/media/stick/rebuild.zip",
                                         .error = state.from_error,
                                         .width = kField});
    if (from.edited) state.from_error.clear();
    const FieldChange to = text_field(page, "keeping.to", state.to,
                                      {.label = "into a new or empty folder",
                                       .hint = "~/rebuild-restored",
                                       .error = state.to_error,
                                       .width = kField});
    if (to.edited) state.to_error.clear();
    const bool wanted = asked(page, job, "keeping.restore", "restore", kRestore);
    if (wanted || to.entered) {
        const bool has_from = filled(state.from, state.from_error, "Type the file of a backup.");
        const bool has_to = filled(state.to, state.to_error,
                                   "Type a new or empty folder, such as ~/rebuild-restored.");
        if (has_from && has_to)
            start(job, state,
                  {.what = Keeping::restore,
                   .file = typed_path(state.from),
                   .folder = typed_path(state.to)});
    }
    outcome(page, state, Keeping::restore);
}

} // namespace

void draw_keeping(Page& page, Context& context, KeepingJob& job, KeepingState& state) {
    if (just_came_in(state.last_frame) || state.done_anew) look_again(context.book, state);
    state.done_anew = false;
    heading(page, "Safe keeping");
    gap(page);
    draw_backup(page, job, state);
    gap(page, Measure::kMargin);
    draw_check(page, job, state);
    gap(page, Measure::kMargin);
    draw_data(page, job, state);
    gap(page, Measure::kMargin);
    draw_restore(page, job, state);
    gap(page, Measure::kMargin);
}

void take_kept(KeepingJob& job, KeepingState& state) {
    auto finished = job.take_finished();
    if (!finished) return;
    state.done_anew = true;
    if (*finished)
        state.done = std::move(**finished);
    else
        state.trouble = finished->failure().sentence;
}

std::string backup_wanted(const Notebook& book) {
    const auto last = desk::last_backup(book.folder());
    if (!last) return "no backup has been made yet";
    const auto made = parse_moment(last->made);
    const auto days = std::chrono::sys_days(today()) - std::chrono::sys_days(made->day());
    if (days.count() <= kMostDays) return {};
    return "the last backup is " + std::to_string(days.count()) + " days old";
}

} // namespace fettle::ui
