#include "ui/beside/carry_job.h"

#include "base/text.h"

namespace fettle::ui {
namespace {

Result<CarryDone> carried(Notebook& book, const desk::CarryWish& wish) {
    const auto file = safe_utf8(wish.file.string());
    auto report = desk::carry(book, wish);
    if (!report) return report.failure();
    auto words = desk::in_words(*report) + ", to " + file;
    if (!report->left_out.empty())
        words += "; " + std::to_string(report->left_out.size()) + " left out";
    return CarryDone{std::move(words), std::move(report->left_out), 0};
}

Result<CarryDone> met(Notebook& book, const desk::MeetWish& wish) {
    auto report = desk::meet(book, wish);
    if (!report) return report.failure();
    return CarryDone{desk::in_words(*report), {}, report->met.differences};
}

} // namespace

void CarryJob::start(const CarryAsk& ask) {
    if (running()) return;
    meeting_ = ask.meet;
    job_.begin([this, ask](const auto& stop, const auto& progress) -> Result<CarryDone> {
        if (ask.meet) return met(book_, {.file = ask.file, .progress = progress, .stop = stop});
        return carried(book_, {.file = ask.file, .progress = progress, .stop = stop});
    });
}

std::string CarryJob::doing() const {
    return meeting_ ? job_.words("photos brought in", "meeting the other machine")
                    : job_.words("photos carried", "finding what has changed");
}

} // namespace fettle::ui
