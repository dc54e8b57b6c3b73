// The book as a folder of HTML, by tidy and by a browser; what was done between two days, as
// Markdown.
#include "book_pages.h"
#include "desk/book_html.h"
#include "desk/book_markdown.h"

#include <cstdlib>

using namespace fettle;
using namespace fettle::desk;
using fettle::test::BookDesk;
using fettle::test::output_of;
using fettle::test::quoted_path;

namespace {

namespace fs = std::filesystem;

constexpr const char* kHostile = "<script>document.title='taken over'</script>\"'><img src=x "
                                 "onerror=alert(1)>&amp; javascript:alert(1) "
                                 "]]></style></title><svg onload=alert(1)> {}*{color:red}";

// Opened from disk in a frame as wide as a phone, by a page beside it that looks into the frame and
// says what it finds; a browser without a window prints that page.
std::string looked_at(const fs::path& folder, const std::string& look, int width = 360) {
    const auto harness = folder.parent_path() / "harness.html";
    write_file(harness,
               "<!DOCTYPE html><title>t</title><iframe id=f width=" + std::to_string(width) +
                   " height=800 style='border:0' src='" + folder.filename().string() +
                   "/index.html'></iframe><pre id=p></pre><script>onload=()=>{const d="
                   "document.getElementById('f').contentDocument;document.getElementById("
                   "'p').textContent='FOUND['+(" +
                   look + ")+']';}</script>");
    const auto printed =
        output_of("HOME=" + quoted_path(folder.parent_path()) +
                  " chromium --headless --no-sandbox --disable-gpu --allow-file-access-from-files "
                  "--virtual-time-budget=8000 --enable-logging=stderr --dump-dom " +
                  quoted_path(harness) + " 2>" + quoted_path(folder.parent_path() / "log"));
    const auto from = printed.find("FOUND[");
    return from == printed.npos ? printed
                                : printed.substr(from + 6, printed.find(']', from) - from - 6);
}

BookFileReport write_hostile(BookDesk& desk, const fs::path& folder) {
    desk.fill_with(kHostile, "a.jpg",
                   std::string(kHostile) + "\n\n- " + kHostile +
                       "\n\n[a link](javascript:alert(1))\n\n" + std::string(300, 'w'));
    return must(write_book_html(must(book_content(desk.book, {})), folder, {}));
}

} // namespace

TEST_CASE("what was typed stays text: no element, no script, no link comes of it") {
    BookDesk desk;
    const auto folder = desk.folder / "out";
    CHECK(write_hostile(desk, folder).photos == 2);
    const auto html = file_text(folder / "index.html");
    CHECK_FALSE(holds(html, "<script"));
    CHECK_FALSE(holds(html, "<img src=x"));
    CHECK_FALSE(holds(html, "<svg onload"));
    CHECK(html.find("</style>") == html.rfind("</style>"));
    CHECK(holds(html, "Content-Security-Policy"));
    CHECK_FALSE(holds(html, "href=\"javascript"));
    CHECK(holds(html, "&lt;script&gt;"));
    // tidy ends with 0 when it has neither errors nor warnings.
    CHECK(output_of("tidy -q -e " + quoted_path(folder / "index.html") + " 2>&1") == "");
    CHECK(escaped_html("a<b & \"c\" 'd'\x01\xff") ==
          "a&lt;b &amp; &quot;c&quot; &#39;d&#39; \xEF\xBF\xBD");
    // Photos hold their pixels alone.
    CHECK(output_of("cat " + quoted_path(folder / "photos") +
                    "/*.jpg | grep -c -a -E 'Exif|Wharnscope' || true") == "0");
}

TEST_CASE("a browser opens it from disk: no console error, photos shown, links lead, phone width") {
    BookDesk desk;
    const auto folder = desk.folder / "out";
    write_hostile(desk, folder);
    const auto found = looked_at(
        folder,
        "[[...d.images].every(i=>i.complete&&i.naturalWidth>0&&i.alt.length>0),d.images.length,"
        "[...d.querySelectorAll('a')].every(a=>d.getElementById(a.getAttribute('href').slice(1)))"
        ",d.querySelectorAll('a').length>=4,d.documentElement.scrollWidth<=360,"
        "d.title].join(' ')");
    CHECK(found == "true 3 true true true Drover, Build book");
    CHECK_FALSE(holds(file_text(desk.folder / "log"), "CONSOLE"));
    CHECK_FALSE(holds(file_text(desk.folder / "log"), "net::ERR"));
    // Both lights, and paper.
    const auto html = file_text(folder / "index.html");
    CHECK(holds(html, "prefers-color-scheme: dark"));
    CHECK(holds(html, "@media print"));
    CHECK_FALSE(holds(html, "http://"));
    CHECK_FALSE(holds(html, "https://"));
}

TEST_CASE("an earlier book is written over, anything else is left alone") {
    BookDesk desk;
    const auto folder = desk.folder / "out";
    write_hostile(desk, folder);
    CHECK(fs::exists(folder / "photos/photo-1.jpg"));
    const auto content = must(book_content(desk.book, {.without = {BookPart::photos}}));
    must(write_book_html(content, folder, {}));
    CHECK_FALSE(fs::exists(folder / "photos/photo-1.jpg"));
    const auto mine = desk.folder / "mine";
    fs::create_directory(mine);
    write_file(mine / "index.html", "my own page");
    CHECK(holds(sentence(write_book_html(content, mine, {})), "holds something else"));
    CHECK(file_text(mine / "index.html") == "my own page");
}

TEST_CASE("what was done between two days goes out as Markdown with its photos beside it") {
    BookDesk desk;
    const auto part = desk.part("H7", "spring hanger");
    const auto old = desk.shot("old.jpg", "xc:red"), fresh = desk.shot("new.jpg", "xc:blue");
    desk.entry_with("2026-01-07", "Long ago.", {{old, Stage::before}}, {part.id});
    desk.entry_with("2026-03-07", "Blasted *and* [primed](http://x) <b>.", {{fresh, Stage::after}},
                    {part.id});
    BookWish wish;
    wish.from = must(parse_day("2026-03-01"));
    const auto folder = desk.folder / "tell";
    const auto report = must(write_book_markdown(must(content_since(desk.book, wish)), folder, {}));
    CHECK(report.photos == 1);
    const auto text = file_text(folder / kMarkdownFile);
    CHECK(holds(text, "# Drover"));
    CHECK(holds(text, "since 1 Mar 2026"));
    CHECK(holds(text, "### 7 Mar 2026"));
    CHECK_FALSE(holds(text, "Long ago"));
    CHECK(holds(text, "](photos/photo-" + std::to_string(fresh.value) + ".jpg)"));
    CHECK(fs::exists(folder / ("photos/photo-" + std::to_string(fresh.value) + ".jpg")));
    CHECK(output_of("exiv2 -pa " +
                    quoted_path(folder / ("photos/photo-" + std::to_string(fresh.value) + ".jpg")) +
                    " 2>/dev/null || true") == "");
    CHECK(holds(text, "Blasted _and_ primed (http://x) \\<b\\>."));
    // CommonMark 0.30, 2.4 (memory): a backslash takes the meaning off a sign.
    CHECK(escaped_markdown("- a_b *c* 1. x") == "\\- a\\_b \\*c\\* 1. x");
    CHECK(escaped_markdown("1. x") == "1\\. x");
    CHECK(escaped_markdown("3.5 h") == "3.5 h");
}
