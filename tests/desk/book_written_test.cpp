// Entries with marks in the three books: the Markdown as cmark reads it, the reference program of
// CommonMark 0.30; the PDF as poppler does.
#include "book_pages.h"
#include "desk/book_markdown.h"
#include "desk/book_written_out.h"
#include "random_marked_text.h"

using namespace fettle;
using namespace fettle::desk;
using fettle::test::BookDesk;
using fettle::test::output_of;
using fettle::test::quoted_path;

namespace {

namespace fs = std::filesystem;

constexpr const char* kEntry =
    "# Hanger\nPin **seized**, *not* broken: `A_12_B`.\nSoaked.\n\n"
    "12. first\n14. second\n    - nested\n+ 0.5 mm\n\n"
    "> Heat, *then* oil\n\n```\ntorque  40\n```\nUnder words\n---\n"
    "<script>alert(1)</script> [drawing](javascript:h7)\n\n```\nunclosed";

std::string without(std::string text, const std::vector<std::string>& pieces) {
    for (const auto& piece : pieces)
        for (std::size_t at = 0; (at = text.find(piece, at)) != std::string::npos;)
            text.erase(at, piece.size());
    return text;
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += by.size())
        text.replace(at, what.size(), by);
    return text;
}

// With how each stretch of text is set before it, instead of elements that can be nested either
// way.
std::string flattened(const std::string& html) {
    std::map<std::string, int> open;
    std::string flat, set;
    for (std::size_t at = 0; at < html.size(); ++at) {
        if (html[at] != '<') {
            std::string now;
            for (const auto& [name, count] : open)
                if (count > 0) now += name + ",";
            if (now != set) flat += "{" + now + "}";
            set = now;
            flat += html[at];
            continue;
        }
        const auto end = html.find('>', at);
        const bool closes = html[at + 1] == '/';
        const auto name = html.substr(at + 1 + closes, end - at - 1 - closes);
        if (name == "em" || name == "strong" || name == "code")
            open[name] += closes ? -1 : 1;
        else
            flat += html.substr(at, end + 1 - at);
        at = end;
    }
    return flat;
}

// Without what cmark and we write differently though it means the same, and without the numbers of
// items: CommonMark counts on from a list's first.
std::string comparable(std::string html) {
    for (auto at = html.find("<li value="); at != std::string::npos; at = html.find("<li value="))
        html.replace(at, html.find('>', at) + 1 - at, "<li>");
    for (auto at = html.find("<ol start="); at != std::string::npos; at = html.find("<ol start="))
        html.replace(at, html.find('>', at) + 1 - at, "<ol>");
    html = replaced(replaced(html, "<br />", "<br>"), "<hr />", "<hr>");
    html = replaced(replaced(html, "&quot;", "\""), "&#39;", "'");
    html = replaced(html, "<li><br></li>", "<li></li>");
    html = without(html, {" class=\"plus\"", " class=\"bracket\"", "<p>", "</p>", "\n", " ", "\t"});
    return flattened(html);
}

std::string by_cmark(const fs::path& file, const std::string& markdown) {
    write_file(file, markdown);
    return output_of("cmark " + quoted_path(file));
}

} // namespace

TEST_CASE("marks of an entry become elements of HTML, below the headings of the book") {
    CHECK(html_of(blocks_of(kEntry), 4) ==
          "<h4>Hanger</h4>\n"
          "<p>Pin <strong>seized</strong>, <em>not</em> broken: <code>A_12_B</code>.<br>\n"
          "Soaked.</p>\n"
          "<ol>\n<li value=\"12\">first\n</li>\n<li value=\"14\">second\n"
          "<ul>\n<li>nested\n</li>\n</ul>\n</li>\n</ol>\n"
          "<ul class=\"plus\">\n<li>0.5 mm\n</li>\n</ul>\n"
          "<blockquote>\n<p>Heat, <em>then</em> oil</p>\n</blockquote>\n"
          "<pre><code>torque  40</code></pre>\n<p>Under words</p>\n<hr>\n"
          "<p>&lt;script&gt;alert(1)&lt;/script&gt; drawing (javascript:h7)</p>\n"
          "<pre><code>unclosed</code></pre>\n");
    CHECK(html_of(blocks_of("### a\n###### b"), 4) == "<h6>a</h6>\n<h6>b</h6>\n");
}

TEST_CASE("an entry in the book's Markdown stays within it and reads as it was meant") {
    CHECK(markdown_of(blocks_of(kEntry), 4) ==
          "#### Hanger\n\nPin **seized**, _not_ broken: `A_12_B`.\\\nSoaked.\n\n"
          "12. first\n\n14. second\n\n    - nested\n\n+ 0.5 mm\n\n> Heat, _then_ oil\n\n"
          "```\ntorque  40\n```\n\nUnder words\n\n***\n\n"
          "\\<script\\>alert(1)\\</script\\> drawing (javascript:h7)\n\n```\nunclosed\n```\n");
    BookDesk desk;
    desk.entry_with("2026-03-07", kEntry, {});
    desk.entry_with("2026-03-08", "# The next day\n\n~~~~\nunclosed, too", {});
    BookWish wish;
    wish.from = must(parse_day("2026-03-01"));
    must(write_book_markdown(must(content_since(desk.book, wish)), desk.folder / "tell", {}));
    const auto html = output_of("cmark " + quoted_path(desk.folder / "tell" / kMarkdownFile));
    CHECK(holds(html, "<h3>7 Mar 2026</h3>"));
    CHECK(holds(html, "<h3>8 Mar 2026</h3>"));
    CHECK(holds(html, "<h4>The next day</h4>"));
    CHECK(html.find("<h1>") == html.rfind("<h1>")); // the book's own
    CHECK_FALSE(holds(html, "<a "));
}

TEST_CASE("whatever marks an entry has, cmark reads the book's Markdown as our HTML says it") {
    BookDesk desk;
    std::mt19937 random(20260308);
    for (int i = 0; i < 150; ++i) {
        const auto text = fettle::test::random_marked_text(random);
        const auto blocks = blocks_of(text);
        const auto markdown = markdown_of(blocks, 1);
        CAPTURE(text);
        CAPTURE(markdown);
        REQUIRE(comparable(by_cmark(desk.folder / "in.md", markdown)) ==
                comparable(html_of(blocks, 1)));
    }
}

TEST_CASE("a PDF sets marks in faces of their own and loses no word") {
    BookDesk desk;
    desk.entry_with("2026-03-07", kEntry, {});
    const auto pdf = desk.folder / "book.pdf";
    must(write_book_pdf(must(book_content(desk.book, {})), pdf, {}));
    const auto text = output_of("pdftotext -layout " + quoted_path(pdf) + " -");
    for (const char* line :
         {"Hanger", "Pin seized, not broken: A_12_B.", "12.", "first", "14.", "second", "nested",
          "0.5 mm", "Heat, then oil", "torque", "Under words",
          "<script>alert(1)</script> drawing (javascript:h7)", "unclosed"}) {
        CAPTURE(line);
        CHECK(holds(text, line));
    }
    const auto fonts = output_of("pdffonts " + quoted_path(pdf));
    for (const char* face : {"Cabin-Bold", "Cabin-Italic", "DejaVuSansMono"}) {
        CAPTURE(face);
        CHECK(holds(fonts, face));
    }
    CHECK(output_of("qpdf --qdf " + quoted_path(pdf) + " - | grep -a -c /URI || true")
              .starts_with("0")); // nothing to press
}
