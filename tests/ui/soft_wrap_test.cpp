#include "ui/frame/soft_wrap.h"

#include <doctest/doctest.h>

using namespace fettle::ui;

namespace {
// A face in which every byte is one wide, so a width of 10 means ten bytes a line.
float one_each(std::string_view piece) {
    return static_cast<float>(piece.size());
}
} // namespace

TEST_CASE("long lines break between words, and the text keeps its blanks") {
    struct Row {
        const char* text;
        const char* shown;
    };
    static constexpr Row kRows[] = {
        {"", ""},
        {"one two", "one two"},
        {"one two three four", "one two\nthree four"},
        {"one\ntwo three four", "one\ntwo three\nfour"},
        {"a-very-long-word b c", "a-very-long-word\nb c"},
        {"ends with a blank ", "ends with\na blank "},
    };
    for (const Row& row : kRows) {
        SoftWrap wrap;
        wrap.set(row.text, 10, one_each);
        CHECK(wrap.field() == row.shown);
        CHECK(wrap.text() == row.text);
    }
}

TEST_CASE("an edit breaks the paragraph anew and leaves the writer's own line ends") {
    SoftWrap wrap;
    wrap.set("one two three four\nfive", 10, one_each);
    REQUIRE(wrap.field() == "one two\nthree four\nfive");
    // The writer puts "and " before "two".
    CHECK(wrap.edit("one and two\nthree four\nfive", one_each) == "one and\ntwo three\nfour\nfive");
    CHECK(wrap.text() == "one and two three four\nfive");
}

TEST_CASE("a line end typed by the writer stays one") {
    SoftWrap wrap;
    wrap.set("one two", 10, one_each);
    wrap.edit("one\n two", one_each);
    CHECK(wrap.text() == "one\n two");
}

TEST_CASE("deleting a soft line end joins the two words") {
    SoftWrap wrap;
    wrap.set("one two three four", 10, one_each);
    wrap.edit("one twothree four", one_each);
    CHECK(wrap.text() == "one twothree four");
}
