// The vocabularies must read as the glossary does, since scripts and stored notebooks rely on them.
#include "fixture.h"

using namespace fettle;

TEST_CASE("every word of the glossary names a value and comes back as it was") {
    auto check = []<class E>(E, const std::vector<std::string>& expected) {
        CHECK(all_words<E>() == expected);
        for (const auto& text : expected)
            CHECK(word(must(from_word<E>(text))) == text);
    };
    check(Origin{}, {"original", "period replacement", "reproduction", "new old stock", "unknown"});
    check(Condition{},
          {"as found", "stripped", "cleaned", "repaired", "primed", "finished", "fitted", "scrap"});
    check(Decision{}, {"undecided", "reuse", "repair", "replace", "hold"});
    check(Stage{}, {"as found", "before", "during", "after", "fitted", "proof"});
}

TEST_CASE(
    "case, hyphens and underscores make no difference; other words are refused with the list") {
    CHECK(must(from_word<Condition>("As_Found")) == Condition::as_found);
    CHECK(must(from_word<Origin>("NEW-OLD-STOCK")) == Origin::new_old_stock);
    const auto refused = sentence(from_word<Decision>("maybe"));
    CHECK(holds(refused, "maybe"));
    CHECK(holds(refused, "undecided, reuse, repair, replace, hold"));
}
