#include "ui/beside/out_job.h"

#include "base/text.h"

namespace fettle::ui {

std::string summary_of(const OutDone& done) {
    const desk::OutReport& report = done.report;
    const std::string photos =
        report.written == 1 ? "1 photo" : std::to_string(report.written) + " photos";
    std::string said = report.stopped ? "stopped; " : "";
    said += done.folder.empty()
                ? "sidecars written beside " + photos + " left in place"
                : "copied " + photos + " with sidecars into " + safe_utf8(done.folder.string());
    if (!report.left_out.empty())
        said += ", " + std::to_string(report.left_out.size()) + " left out";
    return said;
}

void OutJob::start(const OutAsk& ask) {
    if (running() || ask.photos.empty()) return;
    job_.begin([this, ask](const auto& stop, const auto& progress) -> Result<OutDone> {
        const desk::OutWish wish{
            .only = ask.photos, .with_place = ask.with_place, .stop = stop, .progress = progress};
        auto report = ask.folder.empty() ? desk::write_sidecars(book_, wish)
                                         : desk::export_photos(book_, ask.folder, wish);
        if (!report) return report.failure();
        return OutDone{ask.folder, std::move(*report)};
    });
}

} // namespace fettle::ui
