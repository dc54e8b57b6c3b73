// Names in marked text. What CommonMark says of links and of signs behind a backslash: 0.30, 6.3
// and 2.4, read by md4c; what our marks mean is ours.
#include "base/names_in_text.h"
#include "random_marked_text.h"

#include <doctest/doctest.h>

#include <random>

using namespace fettle;
using Kind = NameInText::Kind;

namespace {

void add_leading(const std::vector<TextBlock>& blocks, std::vector<TextRun>& leading) {
    for (const auto& block : blocks) {
        for (const auto& run : block.runs)
            if (!run.leads_to.empty()) leading.push_back(run);
        add_leading(block.inside, leading);
    }
}

// The run that leads somewhere, which must be the only one.
TextRun only_name(const std::string& text) {
    std::vector<TextRun> leading;
    add_leading(blocks_of(text), leading);
    REQUIRE(leading.size() == 1);
    return leading.front();
}

Renaming without(const NameInText& gone) {
    return [gone](const NameInText& name) {
        return name == gone ? std::nullopt : std::optional(name);
    };
}

} // namespace

TEST_CASE("what a name leads to is written in one way and read back") {
    const std::pair<NameInText, const char*> kAll[] = {
        {{Kind::part, 12}, "part:12"},
        {{Kind::task, 3}, "task:3"},
        {{Kind::photo, 9007199254740993}, "photo:9007199254740993"},
        {{Kind::sheet, 1, "shim.stack"}, "sheet:shim.stack"},
        {{Kind::sheet, 2, "spring.pack_two"}, "sheet:spring.pack_two:2"}};
    for (const auto& [name, target] : kAll) {
        CAPTURE(target);
        CHECK(target_of(name) == target);
        CHECK(name_of_target(target) == name);
    }
    for (const char* other : {"",
                              "part:",
                              "part:0",
                              "part:012",
                              "part:-1",
                              "part:1x",
                              "part:1 ",
                              "PART:1",
                              "parts:1",
                              "part:99999999999999999999",
                              "sheet:",
                              "sheet:shim stack",
                              "sheet:x:1",
                              "sheet:x:02",
                              "sheet:x:",
                              "sheet:x:2:3",
                              "sheet:../x",
                              "javascript:1",
                              "http://part:1",
                              "mailto:task:1"}) {
        CAPTURE(other);
        CHECK_FALSE(name_of_target(other));
    }
}

TEST_CASE("a name is told by its words alone and leads to its record") {
    CHECK(words_of_marked("Off: [H7 spring hanger](part:12), at last.") ==
          "Off: H7 spring hanger, at last.");
    CHECK(only_name("Off: [H7 spring hanger](part:12).").leads_to == "part:12");
    CHECK(only_name("Off: **[H7](part:12)**.").strong);
    CHECK(words_of_marked("[drawing](a/b.pdf) [x](part:1x) ![y](photo:3) [z](part:1 \"t\")") ==
          "drawing (a/b.pdf) x (part:1x) y (photo:3) z (part:1) (t)");
    CHECK(words_of_marked("a [](part:1) b") == "a (part:1) b"); // nothing would tell of it
    CHECK(words_of_marked("`[H7](part:1)`") == "[H7](part:1)"); // code is as it was typed
    CHECK(
        names_in("[a](part:1) [b](task:2) [c](part:1)\n\n- > [d](sheet:shim.stack:2)") ==
        std::vector<NameInText>{{Kind::part, 1}, {Kind::task, 2}, {Kind::sheet, 2, "shim.stack"}});
}

TEST_CASE("whatever a thing is called, its name keeps every sign of it") {
    const std::string kNames[] = {"H7 spring hanger",
                                  "A_12_B 20*30",
                                  "[x](y) [",
                                  "]( a ]: b",
                                  "\\",
                                  "back\\[slash\\",
                                  "*so* _and_ **so** __it__",
                                  "<b>H7</b> <http://a.b>",
                                  "&amp; &lt; & co",
                                  "板ばねの吊り金具（後）",
                                  "ØÄß ½ “so”",
                                  "# 1. - > ~~~ | ! ![",
                                  "9-Q-4471-0038-A/7 REV.C (1936) #00042-LH",
                                  std::string(40, '_'),
                                  std::string(40, '*')};
    for (const std::string& name : kNames) {
        CAPTURE(name);
        const std::string mark = mark_of({Kind::part, 7}, name);
        CAPTURE(mark);
        for (const std::string& text :
             {mark, "Off: " + mark + ", at last.", "- " + mark, "> # " + mark, "**so** " + mark}) {
            CAPTURE(text);
            const TextRun run = only_name(text);
            CHECK(run.text == name);
            CHECK(run.leads_to == "part:7");
        }
        CHECK(renamed("a " + mark + " b", without({Kind::task, 7})) == "a " + mark + " b");
        CHECK(words_of_marked(renamed("a " + mark + " b", without({Kind::part, 7}))) ==
              "a " + name + " b");
    }
    CHECK(mark_of({Kind::part, 7}, "H7 A_12_B hanger") == "[H7 A_12_B hanger](part:7)"); // readable
    CHECK(mark_of({Kind::photo, 7}, " \n ") == "[photo:7](photo:7)");
    CHECK(only_name("`" + mark_of({Kind::part, 7}, "two\nlines`\xff")).text == "two lines'\uFFFD");
}

TEST_CASE("what is taken out leaves its words, a sheet alone in its line leaves nothing") {
    const NameInText shim{Kind::sheet, 1, "shim.stack"};
    const std::string mark = mark_of(shim, "Shim stack");
    CHECK(renamed("a\n\n" + mark + "\n\nb", without(shim)) == "a\n\nb");
    CHECK(renamed("a\n\n" + mark + "\n\n", without(shim)) == "a");
    CHECK(renamed(mark + "\n\nb", without(shim)) == "b");
    CHECK(renamed(mark, without(shim)).empty());
    CHECK(renamed("by " + mark + " it", without(shim)) == "by Shim stack it");
    CHECK(renamed(mark + "\n" + mark, without(shim)).empty());
    CHECK(renamed("[[H7](part:1)](part:2) \\[x](part:3)", without({Kind::part, 1})) ==
          "[H7](part:2) \\[x](part:3)");
    CHECK(renamed("[a](sheet:x) [b](sheet:x:2)", [](NameInText name) {
              ++name.number;
              return std::optional(name);
          }) == "[a](sheet:x:2) [b](sheet:x:3)");
}

TEST_CASE("a text is cut below the block that names a sheet first") {
    const std::vector<SheetNamed> sheets = {{"shim.stack", "Shim stack"},
                                            {"torque.tighten", "Tightening"},
                                            {"shim.stack", "Shim stack"}};
    const auto told = [&](const std::string& text) {
        std::string all;
        const auto cut = cut_at_sheets(blocks_of(text), sheets);
        for (const auto& piece : cut.pieces) {
            for (const auto& block : piece.blocks)
                all += "(" + words_of_runs(block.runs) + ")";
            for (const auto sheet : piece.sheets)
                all += std::to_string(sheet);
        }
        for (const auto sheet : cut.unplaced)
            all += " " + std::to_string(sheet);
        return all;
    };
    CHECK(told("a\n\nb") == "(a)(b) 0 1 2");
    CHECK(told("a\n\n[Shim stack](sheet:shim.stack)\n\nb") == "(a)0(b) 1 2");
    CHECK(told("a\n\n[the stack](sheet:shim.stack:2)\n\nb\n\nc") == "(a)(the stack)2(b)(c) 0 1");
    CHECK(told("by [it](sheet:torque.tighten) and [it](sheet:shim.stack)\n\n[Tightening](sheet:"
               "torque.tighten)") == "(by it and it)10(Tightening) 2");
    CHECK(told("[x](sheet:shim.stack:3) [y](sheet:gone)") == "(x y) 0 1 2");
    CHECK(told("") == " 0 1 2");
}

TEST_CASE("any text is cut and renamed without loss") {
    std::mt19937 random(20260309);
    const std::vector<std::string> kMarks = {"[H7](part:1)", "[S](sheet:a.b)", "[x](task:2",
                                             "](photo:3)"};
    for (int i = 0; i < 2000; ++i) {
        const std::string text = fettle::test::random_marked_text(random) +
                                 kMarks[random() % kMarks.size()] +
                                 fettle::test::random_marked_text(random);
        CAPTURE(text);
        REQUIRE(renamed(text, [](const NameInText& name) { return std::optional(name); }) == text);
        std::size_t kept = 0;
        for (const auto& piece : cut_at_sheets(blocks_of(text), {{"a.b", ""}}).pieces)
            kept += piece.blocks.size();
        REQUIRE(kept == blocks_of(text).size());
    }
}
