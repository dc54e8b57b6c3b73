#include "fixture.h"
#include "notebook/measurements.h"

using namespace fettle;

namespace {

Measurement on(const Part& part, const std::string& feature, const std::string& day,
               const std::string& verdict) {
    return {.part = part.id,
            .feature = feature,
            .day = must(parse_day(day)),
            .sheet = "fit.wear",
            .plugin_version = "1.0.0",
            .answer = R"({"whole": "as given"})",
            .verdict = verdict,
            .note = "cold"};
}

} // namespace

TEST_CASE("measurements are listed by feature, the newest first, with everything they hold") {
    Desk desk;
    const Part pin = desk.part("P3", "king pin");
    must(keep_measurement(desk.book, on(pin, "pin diameter", "2026-02-01", "reuse")));
    must(keep_measurement(desk.book, on(pin, "pin diameter", "2026-03-01", "replace")));
    must(keep_measurement(desk.book, on(pin, " Length ", "2026-01-01", "repair")));
    must(keep_measurement(desk.book, on(desk.part("P4", "other"), "x", "2026-01-01", "")));
    const auto all = must(list_measurements(desk.book, pin.id));
    REQUIRE(all.size() == 3);
    CHECK(all[0].feature == "Length");
    CHECK(all[1].verdict == "replace");
    CHECK(all[2].verdict == "reuse");
    CHECK(all[2].answer == R"({"whole": "as given"})");
    CHECK(all[2].plugin_version == "1.0.0");
    CHECK(to_iso(all[2].day) == "2026-02-01");
    CHECK(all[2].note == "cold");
}

TEST_CASE("a measurement is changed, removed, and brought back by undo") {
    Desk desk;
    const Part pin = desk.part("P3", "king pin");
    auto one = on(pin, "pin diameter", "2026-02-01", "reuse");
    one.id = must(keep_measurement(desk.book, one));
    CHECK(desk.book.next_undo() == "measured pin diameter of P3");
    one.verdict = "replace";
    must(keep_measurement(desk.book, one));
    CHECK(must(list_measurements(desk.book, pin.id)).at(0).verdict == "replace");
    must(desk.book.undo());
    CHECK(must(list_measurements(desk.book, pin.id)).at(0).verdict == "reuse");
    must(remove_measurement(desk.book, one.id));
    CHECK(must(list_measurements(desk.book, pin.id)).empty());
    must(desk.book.undo());
    CHECK(must(list_measurements(desk.book, pin.id)).size() == 1);
}

TEST_CASE("a blank feature, a part or a measurement that is not there are refused") {
    Desk desk;
    const Part pin = desk.part("P3", "king pin");
    CHECK(holds(sentence(keep_measurement(desk.book, on(pin, "  ", "2026-02-01", ""))), "feature"));
    auto lost = on(pin, "bore", "2026-02-01", "");
    lost.part = PartId{77};
    CHECK(holds(sentence(keep_measurement(desk.book, lost)), "77"));
    auto gone = on(pin, "bore", "2026-02-01", "");
    gone.id = MeasurementId{88};
    CHECK(holds(sentence(keep_measurement(desk.book, gone)), "88"));
    CHECK(holds(sentence(remove_measurement(desk.book, MeasurementId{99})), "99"));
    CHECK(must(list_measurements(desk.book, pin.id)).empty());
}

TEST_CASE("limits belong to a feature of a position and are undone like any act") {
    Desk desk;
    const auto position =
        must(add_position(desk.book, {.vehicle = desk.drover, .number = "A1", .name = "king pin"}));
    must(keep_feature(desk.book, {position, "pin diameter", {{"wear_limit", "1.098 in"}}}));
    must(keep_feature(desk.book, {position, "Pin Diameter", {{"wear_limit", "27.9 mm \"new\""}}}));
    auto all = must(list_features(desk.book, position));
    REQUIRE(all.size() == 1);
    CHECK(all[0].feature == "pin diameter");
    CHECK(all[0].typed.at("wear_limit") == "27.9 mm \"new\"");
    must(desk.book.undo());
    CHECK(must(list_features(desk.book, position)).at(0).typed.at("wear_limit") == "1.098 in");
    must(remove_feature(desk.book, position, "PIN diameter"));
    CHECK(must(list_features(desk.book, position)).empty());
    must(desk.book.undo());
    CHECK(must(list_features(desk.book, position)).size() == 1);
    CHECK(holds(sentence(keep_feature(desk.book, {PositionId{55}, "bore", {}})), "55"));
    CHECK(holds(sentence(keep_feature(desk.book, {position, " ", {}})), "feature"));
    CHECK(holds(sentence(remove_feature(desk.book, position, "bore")), "bore"));
}
