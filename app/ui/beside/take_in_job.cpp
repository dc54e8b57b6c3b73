#include "ui/beside/take_in_job.h"

namespace fettle::ui {

std::string summary_of(const desk::TakeInReport& report) {
    std::string said = report.stopped ? "stopped; taken in " : "taken in ";
    said += std::to_string(report.taken.size());
    if (!report.already_held.empty())
        said += ", already held " + std::to_string(report.already_held.size());
    if (!report.came_back.empty()) said += ", come back " + std::to_string(report.came_back.size());
    if (!report.damaged.empty())
        said += ", " + std::to_string(report.damaged.size()) + " incomplete";
    if (!report.unreadable.empty())
        said += ", " + std::to_string(report.unreadable.size()) + " not readable";
    std::string seen;
    const auto say = [&seen](std::size_t count, const std::string& words) {
        if (count > 0) seen += (seen.empty() ? "; " : ", ") + std::to_string(count) + words;
    };
    say(std::size_t(report.tied_by_tag), " tied by tag");
    say(std::size_t(report.proposed), " in runs to confirm");
    say(report.tags_without_part.size(),
        report.tags_without_part.size() == 1 ? " tag on no part" : " tags on no part");
    say(std::size_t(report.tied_by_sidecar), " ties from sidecars");
    say(std::size_t(report.marks_by_sidecar), " marks from sidecars");
    say(report.guessed.size(), report.guessed.size() == 1 ? " time guessed" : " times guessed");
    return said + seen;
}

void TakeInJob::start(std::vector<std::filesystem::path> paths, bool watched) {
    if (paths.empty()) return;
    if (running())
        waiting_.push_back({std::move(paths), watched});
    else
        begin({std::move(paths), watched});
}

void TakeInJob::begin(Batch batch) {
    is_watched_ = batch.watched;
    job_.begin([this, paths = std::move(batch.paths)](const auto& stop, const auto& progress) {
        const std::scoped_lock one_at_a_time(*one_at_a_time_);
        return desk::take_in(book_, {.paths = paths, .stop = stop, .progress = progress});
    });
}

void TakeInJob::stop() {
    waiting_.clear();
    job_.stop();
}

std::optional<Result<desk::TakeInReport>> TakeInJob::take_finished() {
    auto report = job_.take_finished();
    if (!report) return report;
    was_watched_ = is_watched_;
    if (!waiting_.empty()) {
        auto next = std::move(waiting_.front());
        waiting_.pop_front();
        begin(std::move(next));
    }
    return report;
}

} // namespace fettle::ui
