// Pages of a book by the rules of setting: nothing spills over, nothing lies on something else, no
// line stands alone. The rules are common practice of typesetting, no source.
#include "desk/book_layout.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>

using namespace fettle;
using namespace fettle::desk;

namespace {

std::string words(std::mt19937& random, int count) {
    constexpr const char* kSome[] = {
        "spring", "hanger",  "Übermaß", "⅞", "of", "a", "1935", "Oberflächenbehandlungsverfahren",
        "rust",   "3.5 thou"};
    std::string text;
    for (int word = 0; word < count; ++word)
        text += (word ? " " : "") + std::string(kSome[random() % std::size(kSome)]);
    return text;
}

// Every kind of block of marked text, within each other.
std::string some_marked(std::mt19937& random) {
    constexpr const char* kBegins[] = {
        "# ",     "### ", "- ",    "  - ",  "12. ",
        "   1. ", "> ",   "> - ",  "> > ",  "**so** ",
        "",       "\n",   "---\n", "```\n", "123456789. 123456789. 123456789. 123456789. "};
    std::string text;
    for (auto line = random() % 12; line > 0; --line)
        text += kBegins[random() % std::size(kBegins)] + words(random, int(random() % 60)) + "\n";
    return text;
}

// A book of every kind of block in any order, photos of every shape.
BookContent any_book(std::mt19937& random) {
    BookContent content{.title = words(random, 3), .subject = "Build book", .period = "2026"};
    const auto upto = [&random](unsigned most) { return int(random() % most); };
    const auto shot = [&] {
        const PhotoId id{1 + upto(40)};
        content.photos[id] = {"none.jpg", "none.jpg", 100 + upto(8000), 100 + upto(8000)};
        return Shot{id, words(random, upto(12)), "Photo", {}};
    };
    for (int number = 0; number < 3; ++number) {
        Chapter chapter{"c" + std::to_string(number), words(random, 4), {}};
        for (int block = 0; block < 40; ++block) {
            switch (upto(10)) {
            case 0:
                chapter.blocks.push_back(Aside{"7 Mar 2026", {"2 h", words(random, upto(14))}});
                break;
            case 1:
                chapter.blocks.push_back(Title{2 + upto(2), words(random, 1 + upto(6))});
                break;
            case 2: {
                Shots shots;
                for (int count = 1 + upto(7); count > 0; --count)
                    shots.shots.push_back(shot());
                chapter.blocks.push_back(std::move(shots));
                break;
            }
            case 3: {
                const auto before = shot();
                chapter.blocks.push_back(BeforeAfter{before, shot()});
                break;
            }
            case 4: {
                TableOf table{"t", {"One", "Two", "Three"}, {}, {}, {}};
                for (int row = 1 + upto(60); row > 0; --row)
                    table.rows.push_back({words(random, upto(9)), "3.5 mm", words(random, 2)});
                chapter.blocks.push_back(std::move(table));
                break;
            }
            case 5:
                chapter.blocks.push_back(Notice{calc::NoteLevel::stop, words(random, upto(80))});
                break;
            case 6:
                chapter.blocks.push_back(Facts{{{"kept", words(random, upto(40))}, {"from", "x"}}});
                break;
            case 7:
                chapter.blocks.push_back(Written{blocks_of(some_marked(random))});
                break;
            default:
                chapter.blocks.push_back(Words{words(random, upto(200))});
            }
        }
        content.chapters.push_back(std::move(chapter));
    }
    return content;
}

Box box_of(const TextAt& text) {
    return {text.place.left, text.place.top, text.place.width, text.place.count * text.type.lead};
}

bool overlap(const Box& one, const Box& other) {
    constexpr double kTouch = 0.05;
    return one.left + one.width > other.left + kTouch &&
           other.left + other.width > one.left + kTouch &&
           one.top + one.height > other.top + kTouch && other.top + other.height > one.top + kTouch;
}

// What stands on a page besides its head and foot.
std::vector<std::pair<Box, const Placed*>> set_on(const BookPage& page) {
    std::vector<std::pair<Box, const Placed*>> all;
    for (const auto& placed : page.placed) {
        if (const auto* text = std::get_if<TextAt>(&placed)) {
            if (text->place.top > 20 && text->place.top < 280)
                all.emplace_back(box_of(*text), &placed);
        } else if (const auto* photo = std::get_if<PhotoAt>(&placed)) {
            all.emplace_back(photo->box, &placed);
        }
    }
    return all;
}

bool holds_day(const std::string& text) {
    return text.ends_with(" Mar 2026");
}

BookLayout laid(const BookContent& content) {
    Typesetter types;
    return lay_out(content, types);
}

// Pieces of paragraphs by their text, in the order of the pages.
std::map<const std::string*, std::vector<Typesetter::Place>> pieces_of(const BookLayout& layout) {
    std::map<const std::string*, std::vector<Typesetter::Place>> pieces;
    for (const auto& page : layout.pages)
        for (const auto& placed : page.placed)
            if (const auto* text = std::get_if<TextAt>(&placed))
                pieces[text->text.get()].push_back(text->place);
    return pieces;
}

} // namespace

TEST_CASE("whatever is in a book, nothing leaves its page and nothing lies on anything else") {
    for (unsigned seed = 1; seed <= 12; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const auto content = any_book(random);
        const auto layout = laid(content);
        for (std::size_t number = 1; number < layout.pages.size(); ++number) {
            CAPTURE(number);
            const auto all = set_on(layout.pages[number]);
            for (std::size_t one = 0; one < all.size(); ++one) {
                const auto& box = all[one].first;
                REQUIRE(box.left >= grid::kLeft - 0.01);
                REQUIRE(box.left + box.width <= grid::kLeft + grid::kWidth + 0.01);
                REQUIRE(box.top >= grid::kTop - 0.01);
                REQUIRE(box.top + box.height <= grid::kFoot + 0.05);
                for (std::size_t other = one + 1; other < all.size(); ++other)
                    REQUIRE_FALSE(overlap(box, all[other].first));
            }
        }
    }
}

TEST_CASE("a paragraph that goes over a page's end leaves two lines or more on either side") {
    int broken = 0;
    for (unsigned seed = 1; seed <= 12; ++seed) {
        std::mt19937 random(seed);
        const auto layout = laid(any_book(random));
        for (const auto& [text, pieces] : pieces_of(layout)) {
            if (pieces.back().first == 0) continue; // whole, or a head that is repeated
            ++broken;
            for (const auto& piece : pieces)
                REQUIRE(piece.count >= 2);
        }
    }
    CHECK(broken > 20); // there was something to see
}

TEST_CASE("a heading is never the last thing on a page") {
    for (unsigned seed = 1; seed <= 12; ++seed) {
        std::mt19937 random(seed);
        auto content = any_book(random);
        for (auto& chapter : content.chapters) // nothing can follow the last one
            chapter.blocks.push_back(Words{"end"});
        const auto layout = laid(content);
        for (const auto& page : layout.pages) {
            const auto all = set_on(page);
            if (all.empty()) continue;
            const auto lowest = std::ranges::max_element(
                all, {}, [](const auto& each) { return each.first.top + each.first.height; });
            if (const auto* text = std::get_if<TextAt>(lowest->second))
                REQUIRE_FALSE(text->tag.starts_with("H"));
        }
    }
}

TEST_CASE("every block of every chapter stands on some page, and contents give the right page") {
    BookContent content{.title = "T", .subject = "Build book"};
    for (int number = 0; number < 5; ++number) {
        Chapter chapter{"c" + std::to_string(number), "Chapter " + std::to_string(number), {}};
        for (int block = 0; block < 30; ++block)
            chapter.blocks.push_back(Words{"block " + std::to_string(number * 30 + block) +
                                           std::string(std::size_t(block % 7) * 80, 'm')});
        content.chapters.push_back(std::move(chapter));
    }
    const auto layout = laid(content);
    std::map<std::string, std::size_t> page_of;
    std::map<std::string, std::string> contents;
    for (std::size_t number = 0; number < layout.pages.size(); ++number) {
        const TextAt* above = nullptr;
        for (const auto& placed : layout.pages[number].placed)
            if (const auto* text = std::get_if<TextAt>(&placed)) {
                page_of.emplace(*text->text, number + 1);
                if (above && above->leads_to) contents[*above->text] = *text->text;
                above = text;
            }
    }
    for (int block = 0; block < 150; ++block)
        CHECK(page_of.contains("block " + std::to_string(block) +
                               std::string(std::size_t(block % 30 % 7) * 80, 'm')));
    REQUIRE(contents.size() == 5);
    REQUIRE(layout.bookmarks.size() == 5);
    for (const auto& mark : layout.bookmarks)
        CHECK(contents.at(mark.title) == std::to_string(mark.page + 1));
    for (std::size_t number = 1; number < layout.pages.size(); ++number)
        CHECK(page_of.contains("page " + std::to_string(number + 1)));
}

TEST_CASE("a day of which nothing is told still stands there, and so does the one after it") {
    const auto layout = laid({.title = "T",
                              .chapters = {{"c",
                                            "C",
                                            {Aside{"6 Mar 2026", {"2 h"}}, Aside{"7 Mar 2026", {}},
                                             Title{2, "Next"}, Aside{"8 Mar 2026", {}}}}}});
    std::vector<std::pair<std::string, double>> days;
    for (const auto& placed : layout.pages.back().placed)
        if (const auto* text = std::get_if<TextAt>(&placed); text && holds_day(*text->text))
            days.emplace_back(*text->text, text->place.top);
    REQUIRE(days.size() == 3);
    CHECK(days[0].first == "6 Mar 2026");
    CHECK(days[0].second + 8 < days[1].second); // its hours stand below it
    CHECK(days[1].second < days[2].second);
}

TEST_CASE("a table's headings stand above its rows on every page it reaches") {
    TableOf table{"", {"Needle", "Size"}, {}, {}, {}};
    for (int row = 0; row < 120; ++row)
        table.rows.push_back({"row " + std::to_string(row), "3 mm"});
    const auto layout = laid({.title = "T", .chapters = {{"c", "C", {std::move(table)}}}});
    int pages = 0;
    for (const auto& page : layout.pages) {
        double head = 0, first = 1000;
        for (const auto& placed : page.placed)
            if (const auto* text = std::get_if<TextAt>(&placed)) {
                if (*text->text == "Needle") head = text->place.top;
                if (text->text->starts_with("row ")) first = std::min(first, text->place.top);
            }
        if (first > 999) continue;
        ++pages;
        CHECK(head > 0);
        CHECK(head < first);
    }
    CHECK(pages == 3); // 120 rows of 4.8 mm on pages of 247
}

TEST_CASE("a word that is longer than its column is broken, and odd bytes are set as they can be") {
    Typesetter types;
    CHECK(types.lines(std::string(400, 'm'), {}, 100) >= 8);
    CHECK(types.lines("a\nb\nc", {}, 100) == 3);
    CHECK(types.width("", {}) == 0);
    CHECK(types.width("\xff\xfe\x01", {}) > 0);
    // Figures stand below each other whatever they are.
    CHECK(types.width("1111", {}) == doctest::Approx(types.width("8080", {})).epsilon(1e-3));
}

TEST_CASE("chapters that are emptied as they are laid out stand on the same pages") {
    std::mt19937 random(20261127);
    BookContent content = any_book(random);
    Typesetter types;
    const BookLayout whole = lay_out(content, types);
    const BookLayout emptied = lay_out_and_empty(content, types);
    for (const Chapter& chapter : content.chapters)
        CHECK(chapter.blocks.empty());
    REQUIRE(emptied.pages.size() == whole.pages.size());
    for (std::size_t at = 0; at < whole.pages.size(); ++at)
        CHECK(emptied.pages[at].placed.size() == whole.pages[at].placed.size());
    CHECK(emptied.bookmarks.size() == whole.bookmarks.size());
}
