#include "ui/beside/keeping_job.h"

#include "base/text.h"
#include "desk/backup.h"
#include "desk/data_out.h"

namespace fettle::ui {
namespace {

std::string counted(std::size_t count, const std::string& noun) {
    return std::to_string(count) + ' ' + noun + (count == 1 ? "" : "s");
}

std::string named(const std::filesystem::path& path) {
    return safe_utf8(path.native());
}

Result<KeepingDone> back_up(const Notebook& book, const KeepingAsk& ask,
                            const desk::BackupWish& wish) {
    auto report = desk::back_up(book.folder(), ask.file, wish);
    if (!report) return report.failure();
    return KeepingDone{ask.what,
                       "Backed up " + counted(report->files, "file") + " into " +
                           named(report->file) + ", read through again and found whole",
                       std::move(report->left_out),
                       {}};
}

Result<KeepingDone> restore(const KeepingAsk& ask, const desk::BackupWish& wish) {
    auto report = desk::restore(ask.file, ask.folder, wish);
    if (!report) return report.failure();
    KeepingDone restored{ask.what,
                         "Restored " + counted(report->files, "file") + " into " +
                             named(report->notebook) + "; open it with: fettlebook " +
                             named(report->notebook),
                         {},
                         {}};
    if (report->moved_in > 0)
        restored.left_out.push_back(counted(report->moved_in, "photo") +
                                    " that stood elsewhere came into photos/outside.");
    return restored;
}

Result<KeepingDone> check(Notebook& book, const KeepingAsk& ask, const desk::CheckWish& wish) {
    auto report = ask.what == Keeping::mend ? desk::check_and_mend(book, wish)
                                            : desk::check(book.folder(), wish);
    if (!report) return report.failure();
    const auto wrong = report->wrong();
    return KeepingDone{ask.what,
                       "Looked at the database and " + counted(report->photos, "photo") + ": " +
                           (wrong == 0 ? "nothing is wrong" : counted(wrong, "thing") + " wrong"),
                       {},
                       std::move(report->findings)};
}

Result<KeepingDone> data_out(const Notebook& book, const KeepingAsk& ask,
                             const desk::DataOutWish& wish) {
    auto report = desk::data_out(book.folder(), ask.folder, wish);
    if (!report) return report.failure();
    KeepingDone written{ask.what,
                        "Wrote " + counted(report->rows, "row") + " of " +
                            counted(report->tables, "table") +
                            (ask.photos ? " and " + counted(report->photos.written, "photo") : "") +
                            " into " + named(report->folder),
                        {},
                        {}};
    for (const auto& [photo, sentence] : report->photos.left_out)
        written.left_out.push_back(sentence);
    return written;
}

} // namespace

void KeepingJob::start(const KeepingAsk& ask) {
    if (running()) return;
    what_ = ask.what;
    job_.begin([this, ask](const auto& stop, const auto& progress) -> Result<KeepingDone> {
        switch (ask.what) {
        case Keeping::back_up:
            return back_up(book_, ask, {stop, progress});
        case Keeping::restore:
            return restore(ask, {stop, progress});
        case Keeping::data_out:
            return data_out(book_, ask, {ask.photos, stop, progress});
        case Keeping::check:
        case Keeping::mend:
            break;
        }
        return check(book_, ask, {stop, progress});
    });
}

std::string KeepingJob::doing() const {
    switch (what_) {
    case Keeping::back_up:
        return job_.words("backed up or verified", "copying the database");
    case Keeping::restore:
        return job_.words("restored", "reading the backup");
    case Keeping::data_out:
        return job_.words("written out", "beginning to write");
    case Keeping::check:
    case Keeping::mend:
        break;
    }
    return job_.words("looked at", "checking the database");
}

} // namespace fettle::ui
