#include "ui/beside/book_job.h"

#include "base/text.h"
#include "desk/book_html.h"
#include "desk/book_markdown.h"

namespace fettle::ui {

std::string summary_of(const BookDone& done) {
    const auto& report = done.report;
    const auto counted = [](std::size_t count, const char* noun) {
        return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
    };
    std::string said = report.pages > 0  ? counted(report.pages, "page")
                       : done.told_until ? "what was done"
                                         : "the book";
    said +=
        " with " + counted(report.photos, "photo") + " written to " + safe_utf8(done.out.string());
    if (!report.unreadable.empty())
        said += ", " + counted(report.unreadable.size(), "photo") + " could not be read";
    return said;
}

void BookJob::start(const BookAsk& ask) {
    if (running()) return;
    job_.begin([this, ask](const auto& stop, const auto& progress) -> Result<BookDone> {
        auto content =
            ask.since ? desk::content_since(book_, ask.wish) : desk::book_content(book_, ask.wish);
        if (!content) return content.failure();
        const desk::BookFileWish wish{
            .photo_size = ask.photo_size, .stop = stop, .progress = progress};
        if (ask.since) {
            auto report = desk::write_book_markdown(*content, ask.out, wish);
            if (!report) return report.failure();
            return BookDone{ask.out / desk::kMarkdownFile, std::move(*report), ask.wish.to};
        }
        const bool pdf = lower_ascii(ask.out.extension().string()) == ".pdf";
        std::error_code error;
        if (pdf) std::filesystem::create_directories(ask.out.parent_path(), error);
        auto report = pdf ? desk::write_book_pdf(*content, ask.out, wish)
                          : desk::write_book_html(*content, ask.out, wish);
        if (!report) return report.failure();
        return BookDone{ask.out, std::move(*report)};
    });
}

} // namespace fettle::ui
