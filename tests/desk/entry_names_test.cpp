// Names in entries on their way through draft, notebook and books; the PDF by qpdf and poppler.
#include "base/names_in_text.h"
#include "book_pages.h"
#include "desk/book_html.h"
#include "desk/book_markdown.h"
#include "desk/book_pdf.h"
#include "desk/drafting.h"
#include "desk/places.h"
#include "desk/worked.h"

#include <nlohmann/json.hpp>

using namespace fettle;
using namespace fettle::desk;
using fettle::test::BookDesk;
using fettle::test::output_of;
using fettle::test::quoted_path;

namespace {

using Kind = NameInText::Kind;

struct NamedDesk : BookDesk {
    calc::Catalogue sheets{calc_program(), {FETTLEBOOK_PLUGIN_DIR}};

    Entry written(const EntryDraft& draft) {
        return must(entry_by_id(book, must(write_draft(book, sheets, draft))));
    }
};

DraftSheet stack_of(const std::string& target) {
    return {"shim.stack", {{"target", target}, {"tin", "20 8 3.5 thou"}}};
}

const NameInText kFirst{Kind::sheet, 1, "shim.stack"}, kSecond{Kind::sheet, 2, "shim.stack"};

// What was typed as the target of the sheet that the text names after the word.
std::string target_after(const Entry& entry, const std::string& word) {
    const auto from = entry.text.find("(sheet:", entry.text.find(word)) + 1;
    const auto name = name_of_target(entry.text.substr(from, entry.text.find(')', from) - from));
    REQUIRE(name.has_value());
    std::int64_t number = 0;
    for (const auto& result : entry.results)
        if (result.sheet == name->sheet && ++number == name->number)
            return calc::typed_inputs(must(answer_of(result))).at("target");
    return "none";
}

// In this order in the text, each behind the one before.
void check_order(const std::string& text, const std::vector<std::string>& pieces) {
    std::size_t at = 0;
    for (const auto& piece : pieces) {
        CAPTURE(piece);
        at = text.find(piece, at);
        REQUIRE(at != std::string::npos);
        at += piece.size();
    }
}

// A part with an odd name, a photo, and an entry that names both and a sheet between paragraphs.
struct NamedBook : NamedDesk {
    const std::string odd = "[x](javascript:alert(1)) 板ばね <script>";
    PartId part_id = part("H7", odd).id;
    PhotoId photo = shot("a.jpg", "xc:red");
    NamedBook() {
        written({.day = "7 Mar 2026",
                 .text = "Off came " + mark_of({Kind::part, part_id.value}, "H7 " + odd) +
                         ", see " + mark_of({Kind::photo, photo.value}, "photo 1") + " and " +
                         mark_of({Kind::part, 999}, "a part that is gone") + ".\n\n" +
                         mark_of(kFirst, "Shim stack from the tin") + "\n\nAnd so to bed.\n\n" +
                         "[press](javascript:alert(1)) [here](part:1\" onclick=\"x)",
                 .parts = {part_id},
                 .photos = {{photo}},
                 .sheets = {stack_of("31.5 thou"), stack_of("28 thou")}});
    }
};

} // namespace

TEST_CASE("a text goes on naming the sheets it named when one of them is worked anew") {
    NamedDesk desk;
    auto entry = desk.written({.day = "7 Mar 2026",
                               .text = "Left " + mark_of(kFirst, "a") + "\n\nright " +
                                       mark_of(kSecond, "b") + "\n\nodd [c](sheet:shim.stack:3)",
                               .sheets = {stack_of("31.5 thou"), stack_of("28 thou")}});
    CHECK(target_after(entry, "Left") == "31.5 thou");
    CHECK(target_after(entry, "right") == "28 thou");
    auto draft = must(draft_of(desk.book, entry.id));
    CHECK(draft.text == entry.text);
    must(keep_draft(desk.book, draft));
    CHECK(must(kept_draft(desk.book)).text == entry.text);
    CHECK(must(kept_draft(desk.book)).sheets == draft.sheets);
    draft.sheets[0].inputs["target"] = "23.5 thou"; // so the other one is kept before it
    entry = desk.written(draft);
    CHECK(target_after(entry, "Left") == "23.5 thou");
    CHECK(target_after(entry, "right") == "28 thou");
    CHECK(target_after(entry, "odd") == "none");
    must(desk.book.undo());
    entry = must(entry_by_id(desk.book, entry.id));
    CHECK(target_after(entry, "Left") == "31.5 thou");
    CHECK(target_after(entry, "right") == "28 thou");
}

TEST_CASE("in the HTML names lead to part and photo, and a sheet stands between its paragraphs") {
    NamedBook desk;
    const auto folder = desk.folder / "out";
    must(write_book_html(must(book_content(desk.book, {})), folder, {}));
    const auto html = file_text(folder / "index.html");
    check_order(html, {"Off came <a href=\"#part-",
                       "\">H7 [x](javascript:alert(1)) 板ばね "
                       "&lt;script&gt;</a>",
                       "<a href=\"#photo-1\">photo 1</a> and a part that is gone.</p>",
                       "<h4>Shim stack from the tin</h4>", "31.5 thou", "<p>And so to bed.</p>",
                       "id=\"photo-1\"", "<h4>Shim stack from the tin</h4>", "28 thou"});
    CHECK(html.find("<h4>Shim stack from the tin</h4>") > html.find("a part that is gone."));
    CHECK(holds(html, "id=\"part-" + std::to_string(desk.part_id.value) + "\""));
    CHECK_FALSE(holds(html, "<p>Shim stack from the tin</p>")); // the sheet says it
    CHECK_FALSE(holds(html, "href=\"javascript"));
    CHECK_FALSE(holds(html, "<script"));
    CHECK_FALSE(holds(html, " onclick=\"x"));
    CHECK(output_of("tidy -q -e " + quoted_path(folder / "index.html") + " 2>&1") == "");
    // Without photos and histories there is nothing to lead to; without results no sheet.
    const auto bare = desk.folder / "bare";
    const BookWish wish{.without = {BookPart::photos, BookPart::parts, BookPart::worked}};
    must(write_book_html(must(book_content(desk.book, wish)), bare, {}));
    const auto words = file_text(bare / "index.html");
    check_order(words, {"Off came H7 [x]", ", see photo 1 and", "<p>Shim stack from the tin</p>"});
    CHECK_FALSE(holds(words, "#part-"));
}

TEST_CASE("in the Markdown that is told to others names are words and a sheet has its place") {
    NamedBook desk;
    BookWish wish;
    wish.from = must(parse_day("2026-03-01"));
    must(write_book_markdown(must(content_since(desk.book, wish)), desk.folder / "tell", {}));
    const auto file = desk.folder / "tell" / kMarkdownFile;
    check_order(file_text(file),
                {"Off came H7", "photo 1", "#### Shim stack from the tin", "31.5 thou",
                 "And so to bed.", "photos/photo-1.jpg", "#### Shim stack from the tin"});
    const auto html = output_of("cmark " + quoted_path(file));
    CHECK(holds(html, "H7 [x](javascript:alert(1)) 板ばね &lt;script&gt;"));
    CHECK_FALSE(holds(html, "<a "));
    // The text as it is kept is Markdown as well: cmark finds the same words and targets.
    write_file(desk.folder / "kept.md", must(list_entries(desk.book)).front().text);
    const auto kept = output_of("cmark " + quoted_path(desk.folder / "kept.md"));
    CHECK(holds(kept, "<a href=\"part:" + std::to_string(desk.part_id.value) +
                          "\">H7 [x](javascript:alert(1)) 板ばね &lt;script&gt;</a>"));
    CHECK(holds(kept, "<p><a href=\"sheet:shim.stack\">Shim stack from the tin</a></p>"));
}

TEST_CASE("in the PDF names lead to where part and photo stand, from where their words are") {
    NamedBook desk;
    const auto pdf = desk.folder / "book.pdf";
    must(write_book_pdf(must(book_content(desk.book, {})), pdf, {}));
    check_order(
        output_of("pdftotext -layout " + quoted_path(pdf) + " -"),
        {"Off came H7", "Shim stack from the tin", "31.5 thou", "And so to bed.", "28 thou"});
    // Rectangles of links, in points from the foot of the page (ISO 32000-1, 12.5.2, from memory).
    const auto rects = output_of(
        "qpdf --json=1 --json-key=objects " + quoted_path(pdf) +
        " | python3 -c \"import json,sys\nfor o in json.load(sys.stdin)['objects'].values():\n  if "
        "isinstance(o,dict) and o.get('/Subtype')=='/Link': "
        "print(*o['/Rect'], '/URI' in str(o))\"");
    // Words of the page with their boxes, in points from its head; A4 is 842 of them high.
    const auto of_word = [&](const std::string& word) {
        return output_of(
            "pdftotext -bbox " + quoted_path(pdf) +
            " - | python3 -c \"import re,sys\n"
            "t=sys.stdin.read()\nt=t[t.index('>came<'):]\n"
            "m=re.search('xMin=.([0-9.]+). yMin=.([0-9.]+). xMax=.([0-9.]+). yMax=.([0-9.]+).>" +
            word + "<',t)\nprint(m.group(1), 842-(float(m.group(2))+float(m.group(4)))/2)\"");
    };
    CAPTURE(rects);
    const auto leads_from = [&](const std::string& word) {
        double left = 0, middle = 0;
        REQUIRE(std::sscanf(of_word(word).c_str(), "%lf %lf", &left, &middle) == 2);
        CAPTURE(word);
        CAPTURE(left);
        CAPTURE(middle);
        bool found = false;
        for (const auto line : split(rects, '\n')) {
            double box[4] = {};
            if (std::sscanf(std::string(line).c_str(), "%lf %lf %lf %lf", box, box + 1, box + 2,
                            box + 3) != 4)
                continue;
            found = found || (std::abs(box[0] - left) < 2 && box[1] <= middle && middle <= box[3]);
        }
        CHECK(found);
    };
    leads_from("H"); // figures have a face of their own
    leads_from("photo");
    CHECK_FALSE(holds(rects, "True")); // no address
}
