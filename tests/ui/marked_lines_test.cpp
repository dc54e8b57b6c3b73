// Lines of marked text by what is drawn: corners in the list, and names by where they can be
// pressed.
#include "ui/frame/headless.h"
#include "ui/widgets/marked_lines.h"

#include <doctest/doctest.h>
#include <imgui.h>

using namespace fettle;
using namespace fettle::ui;

namespace {

struct Name {
    std::string leads_to;
    Rect rect;
};

struct Drawn {
    std::vector<ImVec2> corners; // four a letter: upper left, upper right, lower right, lower left
    std::vector<Name> names;     // from the left
};

Drawn drawn(const TextBlock& block) {
    Headless stage(Theme{}, 800, 600);
    Drawn result;
    stage.frame([&](Page& page) {
        ImDrawList* list = ImGui::GetWindowDrawList();
        const int before = list->VtxBuffer.Size;
        MarkedLines lines(page, list, 20, 20, 500);
        lines.set(block);
        for (int i = before; i < list->VtxBuffer.Size; ++i)
            result.corners.push_back(list->VtxBuffer[i].pos);
        for (const NameInLine& name : lines.names())
            result.names.push_back({name.run->leads_to, name.rect});
    });
    return result;
}

} // namespace

// Cabin has no Hebrew, so nothing is set in a heavier or slanted face: it is made so.
TEST_CASE("strong words and emphasis are seen in letters that their faces lack") {
    const Drawn plain = drawn({.runs = {{.text = "פין"}}});
    REQUIRE(plain.corners.size() == 12);
    for (std::size_t letter = 0; letter < 12; letter += 4)
        CHECK(plain.corners[letter].x == plain.corners[letter + 3].x); // upright
    const Drawn strong = drawn({.runs = {{.text = "פין", .strong = true}}});
    REQUIRE(strong.corners.size() == 24);
    CHECK(strong.corners[12].x > plain.corners[0].x);
    CHECK(strong.corners[12].x < plain.corners[0].x + 2);
    const Drawn slanted = drawn({.runs = {{.text = "פין", .emphasis = true}}});
    REQUIRE(slanted.corners.size() == 12);
    for (std::size_t letter = 0; letter < 12; letter += 4)
        CHECK(slanted.corners[letter].x > slanted.corners[letter + 3].x + 1);
    const Drawn both = drawn({.runs = {{.text = "פין", .strong = true, .emphasis = true}}});
    REQUIRE(both.corners.size() == 24);
    CHECK(both.corners[12].x > both.corners[15].x + 1);
    // Latin letters have a face of their own, once.
    CHECK(drawn({.runs = {{.text = "pin", .strong = true}}}).corners.size() == 12);
}

// UAX 9: in a line that begins from the right what comes first stands on the right; in one that
// begins from the left, two words from the right that follow each other change places.
TEST_CASE("names in a line from the right stand where they are read") {
    const auto names_in = [](const TextBlock& block) {
        const Drawn result = drawn(block);
        REQUIRE(result.names.size() == 2);
        for (const Name& name : result.names)
            CHECK(name.rect.width() > 5);
        return result.names;
    };
    const TextRun first{.text = "פין", .leads_to = "part:1"};
    const TextRun other{.text = "קפיץ", .leads_to = "part:2"};
    auto names = names_in({.runs = {first, {.text = " "}, other}});
    CHECK(names[0].leads_to == "part:2");
    CHECK(names[1].leads_to == "part:1");
    CHECK(names[1].rect.left > names[0].rect.right);
    names = names_in({.runs = {{.text = "took "}, first, {.text = " and "}, other}});
    CHECK(names[0].leads_to == "part:1"); // parted by a word from the left
    CHECK(names[1].rect.left > names[0].rect.right);
    names = names_in({.runs = {{.text = "took "}, first, {.text = " "}, other}});
    CHECK(names[0].leads_to == "part:2");
}
