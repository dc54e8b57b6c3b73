#include "fixture.h"

using namespace fettle;

TEST_CASE("amounts are read in minor units with their currency and shown again") {
    CHECK(must(parse_money("12.50 GBP")) == Money{1250, "GBP"});
    CHECK(must(parse_money("3 gbp")) == Money{300, "GBP"});
    CHECK(must(parse_money("0.5 EUR")) == Money{50, "EUR"});
    CHECK(to_words(Money{1205, "GBP"}) == "12.05 GBP");
    for (const char* text : {"", "12", "GBP", "12.345 GBP", "1,5 GBP", "-3 GBP", "12 POUNDS",
                             "1e3 GBP", "999999999999999 GBP", ". GBP"}) {
        CAPTURE(text);
        CHECK(holds(sentence(parse_money(text)), "amount of money"));
    }
}
