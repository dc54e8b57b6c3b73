// Writing a book while the window goes on. UI thread only.
#pragma once

#include "desk/book.h"
#include "desk/book_pdf.h"
#include "ui/beside/job.h"

#include <filesystem>
#include <optional>

namespace fettle::ui {

struct BookAsk {
    desk::BookWish wish;
    std::filesystem::path out; // one that ends in .pdf: a file; else a folder of HTML
    int photo_size = desk::kUsualPhotoSize;
    bool since = false; // what was done between the wish's days, as a folder of Markdown
};

struct BookDone {
    std::filesystem::path out;
    desk::BookFileReport report;
    std::optional<Day> told_until = {}; // of what was done between two days
};

// "48 pages with 50 photos written to /home/me/book.pdf, 1 photo could not be read"
std::string summary_of(const BookDone& done);

class BookJob {
  public:
    BookJob(const Notebook& book, std::function<void()> wake)
        : book_(book), job_(std::move(wake)) {}

    // Nothing happens while one is running.
    void start(const BookAsk& ask);
    void stop() { job_.stop(); }
    bool running() const { return job_.running(); }
    std::string doing() const { return job_.words("book: drawn", "beginning the book"); }
    double share() const { return job_.share(); }
    // Once a frame. A book that was stopped is no failure to tell.
    std::optional<Result<BookDone>> take_finished() { return job_.take_finished(); }

  private:
    const Notebook& book_;
    Job<Result<BookDone>> job_;
};

} // namespace fettle::ui
