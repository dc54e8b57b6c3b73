#include "ui/driver.h"
#include "ui/widgets/find_as_you_type.h"

#include <doctest/doctest.h>

#include <random>

using namespace fettle::ui;

namespace {

const std::vector<Candidate> kParts = {{1, "B1", "Brake drum, front near side", ""},
                                       {2, "H17", "Horn bracket", ""},
                                       {3, "H1", "Spring hanger, rear off side", ""},
                                       {4, "", "Ream the shackle bush", "task"}};

std::vector<std::int64_t> found(const char* typed, std::size_t most = 10) {
    std::vector<std::int64_t> ids;
    for (const std::size_t i : matching(kParts, typed, most))
        ids.push_back(kParts[i].id);
    return ids;
}

} // namespace

TEST_CASE("a few letters find by the beginning of the tag and of any word of the name") {
    using Ids = std::vector<std::int64_t>;
    CHECK(found("") == Ids{1, 2, 3, 4});
    CHECK(found("", 2) == Ids{1, 2});
    CHECK(found("h1") == Ids{3, 2}); // the tag typed in full comes before one it begins
    CHECK(found("HANG rear") == Ids{3});
    CHECK(found("b") == Ids{1, 2, 4}); // the tag B1 before the words bracket and bush
    CHECK(found("rake") == Ids{});     // the middle of a word is no beginning
    CHECK(found("shack") == Ids{4});
}

TEST_CASE("the arrows choose among the matches and Enter takes one") {
    Headless stage;
    FindLine line;
    line.begin();
    std::optional<std::int64_t> taken;
    bool given_up = false, blank_takes = false;
    testing::Driver driver(stage, [&](Page& page) {
        const auto answer =
            find_as_you_type(page, "find", line, kParts, {.blank_takes = blank_takes});
        if (answer.taken) taken = answer.taken;
        given_up = given_up || answer.given_up;
    });
    SUBCASE("the first with nothing else pressed") {
        driver.type("h1");
        CHECK(driver.expect_visible("find.match.0").label == "H1   Spring hanger, rear off side");
        driver.press(Key::enter);
        CHECK(taken == 3);
    }
    SUBCASE("the one below with an arrow") {
        driver.type("h1");
        driver.press(Key::down);
        driver.press(Key::enter);
        CHECK(taken == 2);
    }
    SUBCASE("the one pressed with the pointer") {
        driver.type("b");
        driver.click("find.match.2");
        CHECK(taken == 4);
    }
    SUBCASE("the first of a blank line, where that is wanted") {
        driver.press(Key::enter);
        CHECK_FALSE(taken.has_value());
        line.begin();
        blank_takes = true;
        driver.settle();
        driver.press(Key::enter);
        CHECK(taken == 1);
    }
    SUBCASE("none with Esc") {
        driver.type("h1");
        driver.press(Key::escape);
        CHECK(given_up);
        CHECK_FALSE(taken.has_value());
        CHECK_FALSE(driver.shows("find.match.0"));
    }
}

TEST_CASE("what is found is the same whether the beginnings of words were noted or not") {
    std::mt19937 dice(20261127);
    const auto letters = [&dice](int most) {
        std::string word;
        for (int left = std::uniform_int_distribution(1, most)(dice); left > 0; --left)
            word += "abcAB7"[std::uniform_int_distribution(0, 5)(dice)];
        return word;
    };
    std::vector<Candidate> plain, noted;
    for (int i = 0; i < 300; ++i) {
        Candidate candidate{.id = i, .tag = i % 3 == 0 ? "" : letters(3)};
        for (int words = i % 4; words > 0; --words)
            candidate.name += letters(4) + (words > 1 ? " " : "");
        plain.push_back(candidate);
        note_beginnings(candidate);
        noted.push_back(candidate);
    }
    std::size_t found = 0;
    for (int i = 0; i < 300; ++i) {
        const std::string typed = i % 2 == 0 ? letters(3) : letters(2) + " " + letters(2);
        CAPTURE(typed);
        const auto matches = matching(plain, typed, 40);
        found += matches.size();
        CHECK(matching(noted, typed, 40) == matches);
    }
    CHECK(found > 1000);
}
