#include "base/date.h"
#include "command.h"

#include <doctest/doctest.h>
#include <time.h>

#include <cstdlib>
#include <string>

using namespace fettle;
using namespace std::chrono_literals;

namespace {

// The clock of this process in another zone, put back at the end.
class InZone {
  public:
    explicit InZone(const char* zone) {
        if (const char* before = std::getenv("TZ")) before_ = before;
        setenv("TZ", zone, 1);
        tzset();
    }
    ~InZone() {
        before_ ? setenv("TZ", before_->c_str(), 1) : unsetenv("TZ");
        tzset();
    }
    InZone(const InZone&) = delete;
    InZone& operator=(const InZone&) = delete;

  private:
    std::optional<std::string> before_;
};

} // namespace

TEST_CASE("days are read in ISO 8601 and as people write them") {
    const Day march{std::chrono::year{2026}, std::chrono::March, std::chrono::day{7}};
    for (const char* text : {"2026-03-07", " 2026-03-07 ", "7 Mar 2026", "07 Mar 2026",
                             "7 March 2026", "7 MARCH 2026", "7 mar. 2026"}) {
        CAPTURE(text);
        const auto day = parse_day(text);
        REQUIRE(day.ok());
        CHECK(*day == march);
    }
    CHECK(to_iso(march) == "2026-03-07");
    CHECK(to_words(march) == "7 Mar 2026");
}

// Leap years by the Gregorian rule: 2000 and 2024 are, 1900 and 2026 are not.
TEST_CASE("days the calendar does not have are refused, and the sentence says why") {
    struct Case {
        const char* text;
        const char* said;
    };
    CHECK(parse_day("2024-02-29").ok());
    CHECK(parse_day("2000-02-29").ok());
    for (const auto& [text, said] : {
             Case{"2026-02-30", "\"2026-02-30\" is no date: February 2026 has 28 days"},
             Case{"1900-02-29", "February 1900 has 28 days"},
             Case{"31 April 2026", "April 2026 has 30 days"},
             Case{"2026-00-10", "accepted are 01 to 12"},
             Case{"2026-13-01", "accepted are 01 to 12"},
             Case{"2026-01-00", "January 2026 has 31 days"},
             Case{"0000-01-01", "0001 to 9999"},
             Case{"", "accepted are dates such as 2026-03-07"},
             Case{"abc", "accepted are dates such as"},
             Case{"07/03/2026", "accepted are dates such as"}, // March or July
             Case{"2026-3-7", "accepted are dates such as"},
             Case{"2026-03-07x", "accepted are dates such as"},
             Case{"20260307", "accepted are dates such as"},
             Case{"7 Foo 2026", "accepted are dates such as"},
             Case{"123 Mar 2026", "accepted are dates such as"},
             Case{"7 Mar 26", "accepted are dates such as"},
         }) {
        CAPTURE(text);
        const auto day = parse_day(text);
        REQUIRE_FALSE(day.ok());
        CHECK(day.failure().kind == FailureKind::invalid);
        CHECK(day.failure().sentence.find(said) != std::string::npos);
    }
}

TEST_CASE("every day of two centuries reads back from both of its texts") {
    using std::chrono::sys_days;
    const auto first =
        sys_days{Day{std::chrono::year{1900}, std::chrono::January, std::chrono::day{1}}};
    for (int i = 0; i < 73'049; i += 7) { // 1 Jan 1900 to 31 Dec 2099
        const Day day{first + std::chrono::days{i}};
        REQUIRE(*parse_day(to_iso(day)) == day);
        REQUIRE(*parse_day(to_words(day)) == day);
    }
}

TEST_CASE("today is the local day, as the date command has it, on both sides of the date line") {
    for (const char* zone : {"UTC", "EAST-14", "WEST12", "HALF-5:30"}) {
        CAPTURE(zone);
        const InZone here(zone);
        const std::string before = test::output_of("date +%F");
        const std::string ours = to_iso(today());
        const std::string after = test::output_of("date +%F"); // midnight may fall between
        CHECK((ours == before || ours == after));
        CHECK(*parse_day("today") ==
              Day{std::chrono::sys_days{*parse_day("yesterday")} + std::chrono::days{1}});
    }
}

TEST_CASE("now carries the local offset, as the date command has it") {
    struct Case {
        const char* zone;
        int minutes;
    };
    for (const auto& [zone, minutes] : {Case{"UTC", 0}, Case{"EAST-14", 840}, Case{"WEST12", -720},
                                        Case{"HALF-5:30", 330}, Case{"ROCK3:30", -210}}) {
        CAPTURE(zone);
        const InZone here(zone);
        const std::string before = test::output_of("date +%FT%T");
        const Moment moment = now();
        const std::string after = test::output_of("date +%FT%T");
        REQUIRE(moment.offset.has_value());
        CHECK(moment.offset->count() == minutes);
        const std::string ours = to_iso(moment).substr(0, 19);
        CHECK(ours >= before);
        CHECK(ours <= after);
        CHECK(*parse_moment(to_iso(moment)) == moment);
    }
}

TEST_CASE("moments keep what is known of sub-second and offset, and nothing more") {
    struct Case {
        const char* text;
        const char* iso;
    };
    for (const auto& [text, iso] : {
             Case{"2026-03-07T19:42:05.250+01:00", "2026-03-07T19:42:05.250+01:00"},
             Case{"2026-03-07T19:42:05", "2026-03-07T19:42:05"},
             Case{"2026-03-07 19:42", "2026-03-07T19:42:00"},
             Case{"2026-03-07T19:42:05.2", "2026-03-07T19:42:05.200"},
             Case{"2026-03-07T19:42:05,25", "2026-03-07T19:42:05.250"},
             Case{"2026-03-07T19:42:05.123999999", "2026-03-07T19:42:05.123"},
             Case{"2026-03-07T19:42:05.000", "2026-03-07T19:42:05.000"},
             Case{"2026-03-07T19:42:05Z", "2026-03-07T19:42:05+00:00"},
             Case{"2026-03-07T19:42:05-0330", "2026-03-07T19:42:05-03:30"},
             Case{"2026-03-07T19:42:05+14", "2026-03-07T19:42:05+14:00"},
             Case{"1936-01-01T00:00:00.001", "1936-01-01T00:00:00.001"},
         }) {
        CAPTURE(text);
        const auto moment = parse_moment(text);
        REQUIRE(moment.ok());
        CHECK(to_iso(*moment) == iso);
    }
    const auto moment = parse_moment("2026-03-07T19:42:05.250+01:00");
    CHECK(to_words(*moment) == "7 Mar 2026, 19:42");
    CHECK(to_iso(moment->day()) == "2026-03-07");
    CHECK(*moment->offset == 60min);
    CHECK(moment->has_subsecond);
}

TEST_CASE("moments that no clock shows are refused") {
    for (const char* text :
         {"", "abc", "2026-03-07", "2026-03-07T", "2026-03-07T19", "2026-03-07T24:00",
          "2026-03-07T19:60", "2026-03-07T19:42:60", "2026-03-07T19:42:05.", "2026-03-07T19:42:05+",
          "2026-03-07T19:42:05+15:00", "2026-03-07T19:42:05-12:30", "2026-03-07T19:42:05+01:60",
          "2026-03-07T19:42:05 and so on", "19:42", "2026:03:07 19:42:05"}) {
        CAPTURE(text);
        const auto moment = parse_moment(text);
        REQUIRE_FALSE(moment.ok());
        CHECK(moment.failure().kind == FailureKind::invalid);
        CHECK(moment.failure().sentence.find("accepted are") != std::string::npos);
    }
    CHECK(parse_moment("2026-02-30T12:00").failure().sentence.find("February 2026 has 28 days") !=
          std::string::npos);
}
