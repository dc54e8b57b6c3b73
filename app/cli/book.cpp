#include "desk/book.h"

#include "base/text.h"
#include "cli/interrupt.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/book_html.h"
#include "desk/book_markdown.h"
#include "desk/book_pdf.h"

#include <charconv>

namespace fettle::cli {
namespace {

struct BookVerbWish {
    std::string out, from, to, part, consignment, vehicle;
    std::string order = "date", photo_size = std::to_string(desk::kUsualPhotoSize);
    std::vector<std::string> without;
};

void declare_book(CLI::App& verb, BookVerbWish& wish) {
    verb.add_option("OUT", wish.out,
                    "A file that ends in .pdf; or a folder, for HTML that opens from disk")
        ->required();
    verb.add_option("--from", wish.from, "The first day of the log that goes in")
        ->option_text("DATE");
    verb.add_option("--to", wish.to, "The last day")->option_text("DATE");
    auto* part = verb.add_option("--part", wish.part, "The dossier of this part instead")
                     ->option_text("TAG");
    verb.add_option("--consignment", wish.consignment, "The dossier of this consignment instead")
        ->option_text("ID")
        ->excludes(part);
    verb.add_option("--vehicle", wish.vehicle, "Only what concerns this vehicle; without it all")
        ->option_text("NAME");
    add_repeated(
        verb, "--without", wish.without,
        "Leave out: at-a-glance, photos, worked-results, working, charts, before-and-after, "
        "part-histories, marks, sent-out, costs, credits or open-points; may be repeated")
        ->option_text("WHAT");
    verb.add_option("--by", wish.order, "Chapters of the log by date or by group; without it date")
        ->option_text("ORDER");
    verb.add_option("--photo-size", wish.photo_size,
                    "Longest side of its photos in pixels, or original; without it 1000")
        ->option_text("PIXELS");
    verb.footer("Photos go in as JPEG that hold their pixels alone: no place, no camera. Those "
                "that need not be made\nsmaller keep their pixels as they are coded.\n"
                "Exit code 1 when a photo could not be read; each is named on standard error, and "
                "the book says so.\n"
                "JSON: {file, kind, chapters, pages, photos, unreadable}; pages is null for HTML.");
}

Result<int> photo_size_of(const std::string& typed) {
    if (typed == "original") return 0;
    int pixels = 0;
    const auto [end, error] = std::from_chars(typed.data(), typed.data() + typed.size(), pixels);
    if (error == std::errc() && end == typed.data() + typed.size() && pixels >= 100 &&
        pixels <= 20000)
        return pixels;
    return Failure{FailureKind::invalid,
                   "The photo size " + fettle::quoted(typed) +
                       " is not accepted: give whole pixels from 100 to 20000, or original."};
}

Result<desk::BookWish> asked_for(const Notebook& notebook, const BookVerbWish& typed) {
    desk::BookWish wish;
    wish.vehicle = typed.vehicle;
    auto from = parse_day_or_none(typed.from);
    if (!from) return from.failure();
    wish.from = *from;
    auto to = parse_day_or_none(typed.to);
    if (!to) return to.failure();
    wish.to = *to;
    auto part = part_or_none(notebook, typed.part);
    if (!part) return part.failure();
    wish.part = *part;
    if (!typed.consignment.empty()) {
        auto id = parse_id<ConsignmentId>("consignment", typed.consignment);
        if (!id) return id.failure();
        wish.consignment = *id;
    }
    if (typed.order != "date" && typed.order != "group")
        return Failure{FailureKind::invalid, "The order of chapters " +
                                                 fettle::quoted(typed.order) +
                                                 " is not accepted: give date or group."};
    wish.order = typed.order == "group" ? desk::BookOrder::by_group : desk::BookOrder::by_date;
    for (const auto& word : typed.without) {
        auto left_out = desk::book_part_called(word);
        if (!left_out) return left_out.failure();
        wish.without.insert(*left_out);
    }
    return wish;
}

// Names what could not be read; true when all could.
bool all_read(const Call& call, const desk::BookFileReport& done) {
    for (const auto& sentence : done.unreadable)
        call.err << one_line(sentence) << '\n';
    return done.unreadable.empty();
}

Report book_report(const Call& call, const desk::BookFileReport& done, const std::string& out,
                   bool pdf, std::size_t chapters) {
    const bool whole = all_read(call, done);
    std::string said = pdf ? counted(done.pages, "page") + " in " : "book of ";
    said += counted(chapters, "chapter") + " with " + counted(done.photos, "photo") +
            " written to " + one_line(out) + '\n';
    Json json{{"file", out}, {"kind", pdf ? "pdf" : "html"}, {"chapters", chapters}};
    json["pages"] = pdf ? Json(done.pages) : Json(nullptr);
    json["photos"] = done.photos;
    json["unreadable"] = done.unreadable;
    return {std::move(said), std::move(json), !whole};
}

Result<Report> write_book(const Call& call, const BookVerbWish& typed) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto size = photo_size_of(typed.photo_size);
    if (!size) return size.failure();
    auto wish = asked_for(*notebook, typed);
    if (!wish) return wish.failure();
    auto content = desk::book_content(*notebook, *wish);
    if (!content) return content.failure();
    const Interrupt interrupt;
    desk::BookFileWish file{.photo_size = *size, .stop = interrupt.token()};
    if (call.err_is_terminal) file.progress = progress_line(call.err);
    const bool pdf = lower_ascii(typed.out).ends_with(".pdf");
    auto done = pdf ? desk::write_book_pdf(*content, typed.out, file)
                    : desk::write_book_html(*content, typed.out, file);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!done) return done.failure();
    return book_report(call, *done, typed.out, pdf, content->chapters.size());
}

struct SinceWish {
    std::string from, folder, to, vehicle;
    std::string photo_size = std::to_string(desk::kUsualPhotoSize);
};

void declare_since(CLI::App& verb, SinceWish& wish) {
    verb.add_option("DATE", wish.from, "The first day, such as 2026-03-07")->required();
    verb.add_option("DIR", wish.folder, "The folder for it; made when it is missing")->required();
    verb.add_option("--to", wish.to, "The last day; without it today")->option_text("DATE");
    verb.add_option("--vehicle", wish.vehicle, "Only what concerns this vehicle")
        ->option_text("NAME");
    verb.add_option("--photo-size", wish.photo_size,
                    "Longest side of the photos in pixels, or original; without it 1000")
        ->option_text("PIXELS");
    verb.footer("Writes since.md, Markdown for telling others, and the photos beside it as JPEG "
                "that hold their pixels\nalone: no place, no camera.\n"
                "Exit code 1 when a photo could not be read; each is named on standard error.\n"
                "JSON: {folder, file, from, to, chapters, photos, unreadable}.");
}

Result<Report> write_since(const Call& call, const SinceWish& typed) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto size = photo_size_of(typed.photo_size);
    if (!size) return size.failure();
    auto from = parse_day(typed.from);
    if (!from) return from.failure();
    auto to = parse_day_or_today(typed.to);
    if (!to) return to.failure();
    auto content =
        desk::content_since(*notebook, {.from = *from, .to = *to, .vehicle = typed.vehicle});
    if (!content) return content.failure();
    const Interrupt interrupt;
    desk::BookFileWish file{.photo_size = *size, .stop = interrupt.token()};
    if (call.err_is_terminal) file.progress = progress_line(call.err);
    auto done = desk::write_book_markdown(*content, typed.folder, file);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!done) return done.failure();
    const std::string name = (std::filesystem::path(typed.folder) / desk::kMarkdownFile).string();
    return Report{one_line(name) + " with " + counted(done->photos, "photo") + '\n',
                  {{"folder", typed.folder},
                   {"file", name},
                   {"from", to_iso(*from)},
                   {"to", to_iso(*to)},
                   {"chapters", content->chapters.size()},
                   {"photos", done->photos},
                   {"unreadable", done->unreadable}},
                  !all_read(call, *done)};
}

} // namespace

void add_book(Line& line) {
    add_verb(line, line.app, "since", "Tell what was done between two days, as Markdown",
             declare_since, write_since);
    add_verb(line, line.app, "book", "Write the build book, or a dossier, as PDF or HTML",
             declare_book, write_book);
}

} // namespace fettle::cli
