// Where else a mark was seen, and parts whose marks belong on another vehicle, as typed.
#include "run.h"

using namespace cli_tests;

TEST_CASE("a stamp is found again, and a part with somebody else's is held for their vehicle") {
    Bench bench;
    CHECK(bench({"part", "add", "hanger", "--tag", "H7"}).code == 0);
    CHECK(bench({"part", "add", "pin", "--tag", "P9"}).code == 0);
    const auto photo = bench.photo("a.jpg", 1);
    const auto mark = [&](const std::string& reading, const std::string& maker,
                          const std::string& part) {
        CHECK(bench({"mark", photo, "--region", "1,1,20,20", "--reading", reading, "--maker", maker,
                     "--part", part})
                  .code == 0);
    };
    mark("OV 36", "Orrinvale Forge", "H7");
    mark("ov36", "Orrinvale Forge", "P9");
    mark("OV 3?", "", "P9");
    const json like = bench.answer({"mark", "--like", "1"});
    REQUIRE(like.size() == 2);
    CHECK(like[0].at("mark") == 2);
    CHECK(like[0].at("how") == "reading and maker");
    CHECK(like[1].at("mark") == 3);
    CHECK(like[1].at("how") == "near reading");
    CHECK(bench({"mark", "--like", "99"}).one_sentence());
    CHECK(bench({"mark", "--wrong"}).out == "no part with a mark of another vehicle's makers\n");

    CHECK(bench({"part", "set", "H7", "vehicle=Quernmore Drover"}).code == 0);
    CHECK(bench({"makers", "Quernmore Motor Works", "--sign", "QM in a diamond", "--on",
                 "Quernmore Drover"})
              .code == 0);
    const json wrong = bench.answer({"mark", "--wrong"});
    REQUIRE(wrong.size() == 1);
    CHECK(wrong[0].at("part") == "H7");
    CHECK(wrong[0].at("fits") == json::array());
    CHECK(holds(wrong[0].at("sentence"), "Orrinvale Forge"));
    const json makers = bench.answer({"makers", "Orrinvale Forge", "--on", "Quernmore Drover"});
    CHECK(makers[0].at("maker") == "Orrinvale Forge");
    CHECK(makers[0].at("marks") == 2);
    CHECK(makers[0].at("on") == json::array({"Quernmore Drover"}));
    CHECK(makers[1].at("sign") == "QM in a diamond");
    CHECK(bench.answer({"mark", "--wrong"}).empty());
    const Ran nowhere = bench({"makers", "Orrinvale Forge", "--not-on", "Hay cart"});
    CHECK(nowhere.code == 1);
    CHECK(nowhere.one_sentence());
}
