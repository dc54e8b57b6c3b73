// The book as other programs read it: poppler, qpdf, exiv2, ImageMagick.
#include "book_pages.h"
#include "desk/book_pdf.h"
#include "notebook/costs.h"

using namespace fettle;
using namespace fettle::desk;
using fettle::test::BookDesk;
using fettle::test::output_of;
using fettle::test::quoted_path;

namespace {

namespace fs = std::filesystem;

BookFileReport write(BookDesk& desk, const BookWish& wish, const fs::path& file,
                     const BookFileWish& how = {}) {
    return must(write_book_pdf(must(book_content(desk.book, wish)), file, how));
}

std::string text_of(const fs::path& pdf) {
    return output_of("pdftotext -layout " + quoted_path(pdf) + " -");
}

// Where the pixels of a render that are nearest to the colour lie: left, top, width, height in
// millimetres, by ImageMagick.
std::array<double, 4> extent_of(const fs::path& png, const std::string& colour, double dots) {
    const auto trimmed =
        output_of("convert " + quoted_path(png) + " -fuzz 12% -fill black +opaque " + colour +
                  " -trim -format '%w %h %X %Y' info:");
    std::array<double, 4> found{};
    REQUIRE(std::sscanf(trimmed.c_str(), "%lf %lf %lf %lf", &found[2], &found[3], &found[0],
                        &found[1]) == 4);
    for (double& each : found)
        each /= dots;
    return found;
}

const PhotoAt* photo_on(const BookPage& page, PhotoId id) {
    for (const auto& placed : page.placed)
        if (const auto* photo = std::get_if<PhotoAt>(&placed); photo && photo->photo == id)
            return photo;
    return nullptr;
}

} // namespace

TEST_CASE("a book reads back whole: text in any script, chapters, bookmarks, fonts, information") {
    BookDesk desk;
    const auto hanger = desk.part("H7", "Bolzen für Übermaß ⅞, Мотор Łódź");
    const auto first = desk.shot("a.jpg", "xc:red");
    desk.entry_with("2026-01-07", "Off at last.\n\n- pin at 0.754 ± 0.001 in\n- 25 N·m → 18 lbf·ft",
                    {{first, Stage::before}}, {hanger.id});
    desk.entry_with("2026-03-07", "# Fitted\nWith new pins.", {}, {hanger.id});
    const auto pdf = desk.folder / "book.pdf";
    const auto report = write(desk, {}, pdf);
    CHECK(report.photos == 1);
    CHECK(report.unreadable.empty());

    CHECK(holds(output_of("qpdf --check " + quoted_path(pdf)),
                "No syntax or stream encoding errors"));
    const auto info = output_of("pdfinfo " + quoted_path(pdf));
    CHECK(holds(info, "Drover, Build book"));
    CHECK(holds(info, "Subject:         Build book"));
    CHECK(holds(info, "Pages:           " + std::to_string(report.pages)));
    CHECK(holds(info, "(A4)"));
    const auto text = text_of(pdf);
    for (const char* said :
         {"Bolzen für Übermaß ⅞, Мотор Łódź", "0.754 ± 0.001 in", "25 N·m → 18 lbf·ft",
          "January 2026", "March 2026", "Fitted", "Open points", "page 2", "7 Jan 2026"})
        CHECK_MESSAGE(holds(text, said), said);
    // Each font: embedded, a subset, with its way back to Unicode.
    const auto fonts = output_of("pdffonts " + quoted_path(pdf) + " | tail -n +3");
    CHECK(holds(fonts, "Cabin"));
    std::size_t lines = 0, sound = 0;
    for (const auto line : split(fonts, '\n')) {
        ++lines;
        sound += line.find("yes yes yes") != line.npos;
    }
    CHECK(sound == lines);
    const auto outline = output_of("qpdf --json --json-key=outlines " + quoted_path(pdf));
    CHECK(holds(outline, "\"title\": \"January 2026\""));
    CHECK(holds(outline, "\"title\": \"Part histories\""));
    CHECK(holds(output_of("pdfinfo -dests " + quoted_path(pdf)), "\"work-january-2026-1\""));
    const auto structure = output_of("pdfinfo -struct " + quoted_path(pdf));
    for (const char* element : {"H1", "H2", "Figure", "Link"})
        CHECK_MESSAGE(holds(structure, element), element);
}

TEST_CASE(
    "photos keep their pixels as coded or are scaled to the size wanted, without their place") {
    BookDesk desk;
    const auto id = desk.shot("a.jpg", "plasma:", 1600, 1200);
    const auto original = desk.folder / "book/photos/a.jpg";
    const auto before = file_text(original);
    desk.entry_with("2026-03-07", "Here.", {{id, Stage::before}});
    const auto pdf = desk.folder / "book.pdf";
    const auto taken_out = [&](const char* name) {
        const auto to = desk.folder / name;
        fs::create_directories(to);
        REQUIRE(output_of("pdfimages -all " + quoted_path(pdf) + " " + quoted_path(to / "p")) ==
                "");
        return to / "p-000.jpg";
    };
    write(desk, {}, pdf, {.photo_size = 0});
    const auto whole = taken_out("whole");
    CHECK(output_of("compare -metric AE " + quoted_path(original) + " " + quoted_path(whole) +
                    " null: 2>&1") == "0");
    CHECK(output_of("exiv2 -pa " + quoted_path(whole) + " 2>/dev/null || true") == "");
    write(desk, {}, pdf, {.photo_size = 400});
    const auto small = taken_out("small");
    CHECK(output_of("identify -format '%wx%h' " + quoted_path(small)) == "400x300");
    CHECK(output_of("exiv2 -pa " + quoted_path(small) + " 2>/dev/null || true") == "");
    // Shown on several pages, written once.
    const auto listed = output_of("pdfimages -list " + quoted_path(pdf) +
                                  " | tail -n +3 | awk '{print $11}' | sort -u | wc -l");
    CHECK(listed == "1");
    CHECK(file_text(original) == before);
}

TEST_CASE("a page stands on paper where it was laid out, and the window shows the same page") {
    BookDesk desk;
    const auto wide = desk.shot("wide.jpg", "xc:'rgb(200,0,0)'", 1600, 1200);
    const auto tall = desk.shot("tall.jpg", "xc:'rgb(0,140,0)'", 900, 1200);
    desk.entry_with("2026-03-07", "Two of them.", {{wide, Stage::before}, {tall, Stage::before}});
    const auto content = must(book_content(desk.book, {}));
    Typesetter types;
    const auto layout = lay_out(content, types);
    std::size_t number = 1;
    while (!photo_on(layout.pages[number], tall))
        ++number;
    const auto pdf = desk.folder / "book.pdf";
    must(write_book_pdf(content, pdf, {}));
    const double dots = 200 / 25.4;
    const auto page = std::to_string(number + 1);
    REQUIRE(output_of("pdftoppm -r 200 -png -singlefile -f " + page + " -l " + page + " " +
                      quoted_path(pdf) + " " + quoted_path(desk.folder / "page")) == "");
    for (const auto& [id, colour] : {std::pair(wide, "'rgb(200,0,0)'"), {tall, "'rgb(0,140,0)'"}}) {
        const auto* placed = photo_on(layout.pages[number], id);
        REQUIRE(placed);
        const auto seen = extent_of(desk.folder / "page.png", colour, dots);
        const auto& box = placed->box;
        CHECK(seen[0] == doctest::Approx(box.left).epsilon(0.01));
        CHECK(seen[1] == doctest::Approx(box.top).epsilon(0.01));
        CHECK(seen[2] == doctest::Approx(box.width).epsilon(0.01));
        CHECK(seen[3] == doctest::Approx(box.height).epsilon(0.01));
    }
    // Against poppler's drawing of the same page: apart by what letters differ at their edges.
    photos::Decoder decoder;
    const auto shown = must(picture_of_page(content, layout.pages[number], 800, types, decoder));
    std::ofstream raw(desk.folder / "shown.rgba", std::ios::binary);
    raw.write(reinterpret_cast<const char*>(shown.rgba.data()), std::ssize(shown.rgba));
    raw.close();
    const auto size = std::to_string(shown.width) + "x" + std::to_string(shown.height);
    const auto apart = output_of(
        "pdftoppm -scale-to-x " + std::to_string(shown.width) +
        " -scale-to-y 800 -png -singlefile -f " + page + " -l " + page + " " + quoted_path(pdf) +
        " " + quoted_path(desk.folder / "same") + " && compare -metric MAE -size " + size +
        " -depth 8 " + quoted_path("rgba:" + (desk.folder / "shown.rgba").string()) + " " +
        quoted_path(desk.folder / "same.png") + " null: 2>&1 | sed 's/.*(\\(.*\\))/\\1/'");
    CHECK(std::atof(apart.c_str()) < 0.01);
    CHECK(std::atof(apart.c_str()) > 0); // the command did compare
}

TEST_CASE("the rebuild at a glance stands in a book as words and drawings, unless left out") {
    BookDesk desk;
    for (const char* number : {"F7", "F8", "F9"})
        must(add_position(desk.book, {.vehicle = desk.drover,
                                      .group = "Front suspension",
                                      .number = number,
                                      .name = "hanger"}));
    auto hanger = desk.part("H7", "hanger");
    hanger.position = must(find_position(desk.book, "F7")).id;
    hanger.cost = Money{1250, "GBP"};
    hanger.condition = Condition::fitted;
    must(set_part(desk.book, hanger));
    desk.entry_with("2025-12-30", "Began.", {}, {}); // of two hours each
    desk.entry_with("2026-02-01", "Went on.", {}, {});
    desk.entry_with("2026-02-02", "Went on.", {}, {});
    const auto pdf = desk.folder / "book.pdf";
    write(desk, {}, pdf);
    const auto text = text_of(pdf);
    for (const char* said : {"The rebuild at a glance", "Positions by group", "Front suspension",
                             "1 fitted, 0 there, 2 missing", "Hours by month",
                             "Work: 6 h in all, most of it in Feb 2026: 4 h.",
                             "Spent: 12.50 GBP in all", "Dec", "100 %"})
        CHECK_MESSAGE(holds(text, said), said);
    const auto images = output_of("pdfimages -list " + quoted_path(pdf) + " | tail -n +3 | wc -l");
    CHECK(std::atoi(images.c_str()) == 0); // strokes and letters
    BookWish wish;
    wish.without.insert(must(book_part_called("at-a-glance")));
    write(desk, wish, pdf);
    CHECK_FALSE(holds(text_of(pdf), "at a glance"));
}

TEST_CASE("whatever was typed, a book holds nothing that acts by itself or leads out of it") {
    BookDesk desk;
    const std::string hostile =
        "/OpenAction << /S /JavaScript /JS (app.alert(1)) >> (\\) >> endobj "
        "uri='http://x.example/' dest='x' javascript:alert(1) "
        "file:///etc/passwd [a](http://x.example/) \" ' ]]>";
    desk.fill_with(hostile, "javascript:alert(1) URI.jpg", hostile);
    const auto pdf = desk.folder / "book.pdf";
    write(desk, {}, pdf);
    // Names of objects alone: what is typed stands in strings and drawn glyphs. ISO 32000-1, 12.6
    // and 7.11.4 (memory).
    const auto names = output_of("qpdf --json=1 --json-key=objects " + quoted_path(pdf) +
                                 " | python3 -c \"import json,sys\ndef keys(at):\n  if "
                                 "isinstance(at, dict):\n    for key, value in at.items(): "
                                 "print(key); keys(value)\n  elif isinstance(at, list):\n    for "
                                 "value in at: keys(value)\n  elif isinstance(at, str) and "
                                 "at.startswith('/'): print(at)\nkeys(json.load(sys.stdin))\" | "
                                 "sort -u");
    CHECK(holds("\n" + names + "\n", "\n/Catalog\n"));
    for (const auto* acts :
         {"/JavaScript", "/JS", "/OpenAction", "/AA", "/Launch", "/EmbeddedFile", "/EmbeddedFiles",
          "/RichMedia", "/URI", "/GoToR", "/SubmitForm", "/ImportData", "/XFA", "/AcroForm"})
        CHECK_FALSE(holds("\n" + names + "\n", "\n" + std::string(acts) + "\n"));
}

TEST_CASE("a photo that is lost leaves its frame, and the report names it") {
    BookDesk desk;
    const auto id = desk.photo("gone.jpg", "2026-03-07T10:00:00");
    desk.entry_with("2026-03-07", "It was here.", {{id, Stage::before}});
    const auto pdf = desk.folder / "book.pdf";
    const auto report = write(desk, {}, pdf);
    REQUIRE(report.unreadable.size() == 1);
    CHECK(holds(report.unreadable[0], "gone.jpg"));
    CHECK(holds(text_of(pdf), "photo 1 cannot be read"));
}

TEST_CASE("a book that is stopped or cannot be written leaves what was there") {
    BookDesk desk;
    const auto id = desk.shot("a.jpg", "xc:red");
    desk.entry_with("2026-03-07", "Here.", {{id, Stage::before}});
    const auto content = must(book_content(desk.book, {}));
    const auto pdf = desk.folder / "book.pdf";
    write_file(pdf, "the one before");
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = write_book_pdf(content, pdf, {.stop = stop.get_token()});
    REQUIRE_FALSE(stopped.ok());
    CHECK(stopped.failure().kind == FailureKind::cancelled);
    CHECK(file_text(pdf) == "the one before");
    for (const auto& entry : fs::directory_iterator(desk.folder.path()))
        CHECK_FALSE(entry.path().native().ends_with(".half"));
    CHECK(holds(sentence(write_book_pdf(content, desk.folder / "none/book.pdf", {})),
                "none/book.pdf cannot be written"));
}

TEST_CASE(
    "by group, of a part, of a consignment, between days, without: each holds what it names") {
    BookDesk desk;
    const auto axle = must(add_position(
        desk.book,
        {.vehicle = desk.drover, .group = "Front axle", .number = "12", .name = "king pin"}));
    auto pin = desk.part("K1", "king pin");
    pin.position = axle;
    must(set_part(desk.book, pin));
    const auto lamp = desk.part("L1", "head lamp");
    desk.entry_with("2026-01-07", "The pin came out.", {}, {pin.id});
    desk.entry_with("2026-02-07", "The lamp is dented.", {}, {lamp.id});
    const auto titles = [&](const BookWish& wish) {
        std::string all;
        for (const auto& chapter : must(book_content(desk.book, wish)).chapters)
            all += chapter.title + "|";
        return all;
    };
    CHECK(titles({.order = BookOrder::by_group})
              .starts_with("The rebuild at a glance|Front axle|Other work|"));
    CHECK(titles({}).starts_with("The rebuild at a glance|January 2026|February 2026|"));
    CHECK(titles({.without = {BookPart::parts, BookPart::open_points}}) ==
          "The rebuild at a glance|January 2026|February 2026|");
    BookWish february{.without = {BookPart::parts, BookPart::open_points}};
    february.from = must(parse_day("2026-02-01"));
    CHECK(titles(february) == "The rebuild at a glance|February 2026|");
    february.to = must(parse_day("2026-01-31"));
    CHECK(holds(sentence(book_content(desk.book, february)), "first day"));

    must(keep_cost(desk.book, {.on = must(parse_day("2026-02-07")),
                               .amount = Money{3200, "GBP"},
                               .what = "reaming",
                               .part = pin.id,
                               .paid_to = "Hebble Lane Machine Shop"}));
    CHECK(holds(titles({}), "|Costs|Credits|"));
    CHECK_FALSE(holds(titles({.without = {BookPart::costs}}), "Costs"));
    const auto money = desk.folder / "money.pdf";
    write(desk, {}, money);
    for (const char* said : {"32.00 GBP", "Front axle", "Hebble Lane Machine Shop"})
        CHECK_MESSAGE(holds(text_of(money), said), said);

    const auto dossier = desk.folder / "K1.pdf";
    write(desk, {.part = pin.id}, dossier);
    CHECK(holds(text_of(dossier), "Part dossier"));
    CHECK(holds(text_of(dossier), "The pin came out."));
    CHECK_FALSE(holds(text_of(dossier), "dented"));
    CHECK(holds(sentence(book_content(desk.book, {.vehicle = "Nobody"})), "Nobody"));
    CHECK(holds(sentence(book_part_called("jokes")), "open points"));
}
