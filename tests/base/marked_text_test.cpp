#include "base/marked_text.h"

#include <doctest/doctest.h>

using fettle::blocks_of;
using fettle::TextBlock;

namespace {

using Kind = TextBlock::Kind;

struct Case {
    const char* markdown;
    std::vector<TextBlock> blocks;
};

} // namespace

// What is a paragraph, heading, list item and emphasis follows CommonMark 0.30, from memory, except
// that lines stay as the writer ended them.
TEST_CASE("the text of an entry is set as paragraphs, headings and list items") {
    for (const Case& set : {
             Case{"", {}},
             Case{"One.\n\nTwo.", {{Kind::paragraph, "One.", ""}, {Kind::paragraph, "Two.", ""}}},
             Case{"One\ntwo", {{Kind::paragraph, "One\ntwo", ""}}},
             Case{"# Springs\nDown.",
                  {{Kind::heading, "Springs", ""}, {Kind::paragraph, "Down.", ""}}},
             Case{"- a\n- b\n\n2. c",
                  {{Kind::item, "a", "•"}, {Kind::item, "b", "•"}, {Kind::item, "c", "2."}}},
             Case{"#7 bolt", {{Kind::paragraph, "#7 bolt", ""}}},
             Case{"H7 is **cracked**, *not* sound",
                  {{Kind::paragraph, "H7 is cracked, not sound", ""}}},
             Case{"3 * 4 * 5 and a_b_c", {{Kind::paragraph, "3 * 4 * 5 and a_b_c", ""}}},
             Case{"**", {{Kind::paragraph, "**", ""}}},
         }) {
        CAPTURE(set.markdown);
        CHECK(blocks_of(set.markdown) == set.blocks);
    }
}
