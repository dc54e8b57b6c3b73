// How work beside the window ended, and what it says of that until it was seen.
#include "base/text.h"
#include "ui/widgets/overlay.h"
#include "ui/workroom.h"

#include <imgui.h>

namespace fettle::ui {
namespace {

constexpr int kMostNamed = 200; // files in a report

void draw_taken_report(Page& page, const desk::TakeInReport& report) {
    int number = 0;
    const auto list = [&](const char* what, const std::vector<desk::NotTaken>& files) {
        if (files.empty()) return;
        words(page, what);
        for (const desk::NotTaken& file : files) {
            if (number == kMostNamed) return;
            fine_print(page, safe_utf8(file.file.filename().string()), Role::ink);
            note(page, "report." + std::to_string(number++),
                 safe_utf8(file.file.filename().string()), file.sentence);
            fine_print(page, file.sentence);
        }
    };
    list("Not readable, left out", report.unreadable);
    list("Taken in, but incomplete", report.damaged);
    list("Sidecars that could not be read", report.sidecars_left);
    if (!report.tags_without_part.empty()) {
        words(page, "Tags that are on no part yet");
        const std::string tags = join(report.tags_without_part, ", ");
        fine_print(page, tags + ": add the part on Parts, then press P on Photos.", Role::ink);
        note(page, "report.tags", tags);
    }
}

} // namespace

void Workroom::tell_report(ShellShown& shown) const {
    if (report_) {
        shown.report = summary_of(*report_);
        shown.report_unfolds = !report_->unreadable.empty() || !report_->damaged.empty() ||
                               !report_->sidecars_left.empty() ||
                               !report_->tags_without_part.empty();
    } else if (given_out_) {
        shown.report = summary_of(*given_out_);
        shown.report_unfolds = !given_out_->report.left_out.empty();
    } else if (written_) {
        shown.report = summary_of(*written_);
        shown.report_unfolds = !written_->report.unreadable.empty();
    } else if (carried_) {
        shown.report = carried_->words;
        shown.report_unfolds = !carried_->left_out.empty();
    } else if (!as_found_.empty()) {
        shown.report = "the log of the last acts was lost or damaged";
        shown.report_unfolds = true;
        shown.report_asks = "what";
    }
}

void Workroom::close_report() {
    if (report_)
        report_.reset();
    else if (given_out_)
        given_out_.reset();
    else if (written_)
        written_.reset();
    else if (carried_)
        carried_.reset();
    else
        as_found_.clear();
}

void Workroom::take_carried() {
    auto done = carrying_.take_finished();
    if (!done || !context_.went_well(*done)) return;
    carried_ = std::move(**done);
    report_unfolded_ = false;
    if (carried_->differences > 0) context_.go = Place{.screen = "two_machines"};
}

void Workroom::take_report() {
    take_kept(keeping_, kept_);
    take_carried();
    if (auto given = out_.take_finished(); given && context_.went_well(*given)) {
        given_out_ = std::move(**given);
        report_unfolded_ = false;
    }
    if (auto written = writing_.take_finished(); written && context_.went_well(*written)) {
        written_ = std::move(**written);
        if (written_->told_until &&
            context_.went_well(keep_told_until(book_, *written_->told_until)))
            book_pages_.told_until = written_->told_until;
        report_unfolded_ = false;
    }
    auto finished = job_.take_finished();
    if (!finished) return;
    report_unfolded_ = false;
    if (!context_.went_well(*finished)) return;
    // What lay in a watched folder already is no news.
    const desk::TakeInReport& report = **finished;
    if (job_.was_watched() && report.taken.empty() && report.unreadable.empty()) return;
    report_ = std::move(**finished);
}

void Workroom::draw_report(Page& page) {
    const bool any = report_ || given_out_ || written_ || carried_ || !as_found_.empty();
    if (!any || !report_unfolded_) return;
    const float width = page.px(640);
    const float bottom = ImGui::GetIO().DisplaySize.y - page.px(56);
    const Overlay sheet(page, "report",
                        {.x = page.px(Measure::kMargin) + width,
                         .y = bottom,
                         .width = width,
                         .most_height = bottom - page.px(96),
                         .from_below = true});
    if (report_) {
        draw_taken_report(page, *report_);
    } else if (given_out_) {
        words(page, "Left out");
        for (const auto& [photo, sentence] : given_out_->report.left_out)
            fine_print(page, sentence);
    } else if (written_) {
        words(page, "Could not be read");
        for (const auto& sentence : written_->report.unreadable)
            fine_print(page, sentence);
    } else if (!carried_) {
        words(page, "As this notebook was found");
        fine_print(page, as_found_, Role::ink);
        note(page, "report.as_found", as_found_);
    } else {
        words(page, "Left out");
        for (const auto& [name, why] : carried_->left_out)
            fine_print(page, name + ": " + why);
    }
    if (sheet.pressed_beside()) report_unfolded_ = false;
}

} // namespace fettle::ui
