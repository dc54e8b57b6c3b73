// Thread designations as people write them, against the series of the standards.
#include "plugins/published.h"
#include "screw_threads/series.h"

#include <doctest/doctest.h>

#include <random>
#include <sstream>
#include <string>

using namespace fettle::test;
using namespace fettle::screw;
using fettle::plugin::Refusal;

namespace {

constexpr double kInch = 0.0254;

std::string refusal(const char* designation) {
    const auto outcome = read_thread(designation);
    REQUIRE_MESSAGE(std::holds_alternative<Refusal>(outcome), designation);
    CHECK(std::get<Refusal>(outcome).field == "thread");
    return std::get<Refusal>(outcome).sentence;
}

bool mentions(const std::string& sentence, const char* words) {
    return sentence.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("one thread written in many ways is read as the same") {
    struct Row {
        const char* typed;
        const char* name;
    };
    const Row rows[] = {{"5/16-24 UNF", "5/16-24 UNF"},
                        {"5/16-24", "5/16-24 UNF"},
                        {"5/16-24UNF-2A", "5/16-24 UNF"},
                        {" 5/16 unf ", "5/16-24 UNF"},
                        {"0.3125-24 UNF", "5/16-24 UNF"},
                        {"5/16 x 24 unf", "5/16-24 UNF"},
                        {"1/4-20 UNC", "1/4-20 UNC"},
                        {"1/4-20 BSW", "1/4-20 BSW"},
                        {"3/8-20 BSF", "3/8-20 BSF"},
                        {"3/8 BSF", "3/8-20 BSF"},
                        {"1/2-12 BSW", "1/2-12 BSW"},
                        {"1/2-13", "1/2-13 UNC"},
                        {"#10-32", "#10-32 UNF"},
                        {"No.10-32 UNF", "#10-32 UNF"},
                        {"No 10-24 UNC", "#10-24 UNC"},
                        {"1 1/8-7 UNC", "1 1/8-7 UNC"},
                        {"1-1/8-7 UNC", "1 1/8-7 UNC"},
                        {"1-14 UNS", "1-14 UNS"},
                        {"5/16\" 18 TPI UNC", "5/16-18 UNC"},
                        {"1/2 in-20 UNF", "1/2-20 UNF"},
                        {"M10x1.5", "M10x1.5"},
                        {"M10\u00d71.5", "M10x1.5"},
                        {"m10 x 1,5", "M10x1.5"},
                        {"M10", "M10x1.5"},
                        {"M10-1.25", "M10x1.25"},
                        {"M8-6g", "M8x1.25"},
                        {"M8x1-6g", "M8x1"},
                        {"M6", "M6x1"},
                        {"2BA", "2BA"},
                        {"2 BA", "2BA"},
                        {"BA 2", "2BA"},
                        {"2 B.A.", "2BA"},
                        {"1 1/8-8 UN", "1 1/8-8 UN"},
                        {"1 1/8 8-UN", "1 1/8-8 UN"},
                        {"1 1/4-8", "1 1/4-8 UN"},
                        {"1 1/2-8UN-2A", "1 1/2-8 UN"},
                        {"2-4.5 UNC", "2-4.5 UNC"},
                        {"3/8-26 CEI", "3/8-26 BSC"},
                        {"1/4 BSC", "1/4-26 BSC"},
                        {"1/2-20 BSC", "1/2-20 BSC"},
                        {".25-28", "1/4-28 UNF"},
                        {"M3.5", "M3.5x0.6"},
                        {"M10*1,25 - 6H", "M10x1.25"}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.typed));
        CHECK(thread(row.typed).name == row.name);
    }
}

TEST_CASE("a designation that fits two forms is asked back with both names") {
    const std::string quarter = refusal("1/4-20");
    CHECK(mentions(quarter, "1/4-20 UNC"));
    CHECK(mentions(quarter, "1/4-20 BSW"));
    CHECK(mentions(refusal("3/8"), "3/8-20 BSF"));
    CHECK(mentions(refusal("1/4-26"), "1/4-26 BSF")); // 55° and 60°: only the form tells
    CHECK(mentions(refusal("1/4-26"), "1/4-26 BSC"));
    CHECK(mentions(refusal("1 1/2-8"), "1 1/2-8 UN"));
    CHECK(mentions(refusal("1 1/2-8"), "1 1/2-8 BSF"));
    CHECK(mentions(refusal("5/8-11"), "5/8-11 BSW"));
}

TEST_CASE("a pitch that a series does not have is refused with the one it has") {
    CHECK(mentions(refusal("5/16-24 UNC"), "18 threads to the inch"));
    CHECK(mentions(refusal("1/2-13 BSW"), "12 threads to the inch"));
    CHECK(mentions(refusal("9/32 UNF"), "UNF"));
    CHECK(mentions(refusal("M9"), "M9x1.25"));
    CHECK(mentions(refusal("13BA"), "12BA"));
    CHECK(mentions(refusal("M10x9"), "third"));
    CHECK(mentions(refusal("5/16-25"), "UNS"));
}

TEST_CASE("what is no thread is refused with examples of what is") {
    for (const char* typed :
         {"",           "banana",    "M",
          "5/0-20 UNF", "/16-24",    "-",
          "10",         "M-5",       "5/16-24 UNF and a very long tail of words",
          "\xff\xfe",   "99BA9",     "1/",
          "1 1/8/2",    "M10x",      "M10x1.5x",
          "#",          "NO.",       "1/4-20 BSWX",
          "3/8-",       "1/4--20",   "M8-6Q",
          "BA",         "0/4-20 UNC"}) {
        CAPTURE(std::string(typed));
        CHECK(!refusal(typed).empty());
    }
}

TEST_CASE("British Association sizes follow their own rule") {
    // BS 93: pitch 0.9^k mm, diameter 6 p^1.2 mm, both to two significant figures.
    const auto two_figures = [](double value) {
        const double grain = value >= 1 ? 0.1 : 0.01;
        return std::round(value / grain) * grain;
    };
    for (int k = 0; k <= 12; ++k) {
        CAPTURE(k);
        const double pitch = two_figures(std::pow(0.9, k));
        const Thread read = thread((std::to_string(k) + "BA").c_str());
        CHECK(read.pitch * 1e3 == doctest::Approx(pitch));
        CHECK(read.diameter * 1e3 == doctest::Approx(two_figures(6 * std::pow(pitch, 1.2))));
    }
}

TEST_CASE("British Standard Fine has its published threads to the inch") {
    struct Row {
        const char* size;
        int tpi;
    };
    // BS 84 (seen in workshop tables).
    for (const Row& row : {Row{"3/16", 32}, Row{"7/32", 28}, Row{"1/4", 26}, Row{"5/16", 22},
                           Row{"3/8", 20}, Row{"7/16", 18}, Row{"1/2", 16}, Row{"9/16", 16},
                           Row{"5/8", 14}, Row{"3/4", 12}, Row{"7/8", 11}, Row{"1", 10}}) {
        CAPTURE(std::string(row.size));
        const Thread read = thread((std::string(row.size) + " BSF").c_str());
        CHECK(kInch / read.pitch == doctest::Approx(row.tpi));
    }
}

TEST_CASE("a Whitworth stress area is that of the mean of effective and core diameter") {
    struct Row {
        const char* thread;
        double effective, core; // in
    };
    // BS 84, basic sizes (memory).
    for (const Row& row : {Row{"1/4 BSW", 0.2180, 0.1860}, Row{"1/2 BSW", 0.4466, 0.3933},
                           Row{"3/8 BSF", 0.3430, 0.3110}}) {
        CAPTURE(std::string(row.thread));
        const Thread read = thread(row.thread);
        CHECK(std::abs(pitch_diameter(read) / kInch - row.effective) < 0.00006);
        const double mean = (row.effective + row.core) / 2 * kInch;
        CHECK(within(stress_area(read), std::acos(-1.0) / 4 * mean * mean, 0.0005));
    }
}

TEST_CASE("every standard thread is read back from its own proper name") {
    int read = 0;
    for (const InchSize& size : inch_sizes()) {
        for (const Series& series : inch_series()) {
            if (size.*series.tpi == 0) continue;
            const Thread first = thread((std::string(size.size) + " " + series.name).c_str());
            const Thread again = thread(first.name.c_str());
            CHECK(again.name == first.name);
            CHECK(again.pitch == first.pitch);
            CHECK(again.form == series.form);
            CHECK(again.standard);
            ++read;
        }
    }
    for (const MetricSize& size : fine_pitches()) {
        std::ostringstream name;
        name << "M" << size.diameter << "x" << size.pitch;
        CHECK(thread(name.str().c_str()).name == name.str());
        CHECK(thread(name.str().c_str()).standard);
        ++read;
    }
    CHECK(read > 150);
    CHECK_FALSE(thread("M10x1.4").standard);
    CHECK_FALSE(thread("1-14 UNS").standard);
}

TEST_CASE("a designation cut, swollen or scrambled anywhere ends in a thread or a sentence") {
    std::mt19937 engine(7);
    const std::string pieces[] = {"5/16-24 UNF", "M10x1.5", "1 1/8-8 UN", "2BA", "#10-32", "-", "/",
                                  " ",           "x",       ".",          "9",   "\u00d7", "A"};
    for (int round = 0; round < 20000; ++round) {
        std::string text = pieces[engine() % 5];
        for (unsigned left = engine() % 4; left > 0; --left) {
            const std::string& piece = pieces[engine() % std::size(pieces)];
            const std::size_t at = engine() % (text.size() + 1);
            if (engine() % 2 == 0) {
                text.insert(at, piece);
            } else {
                text.erase(at, 1 + engine() % 2);
            }
        }
        const auto outcome = read_thread(text);
        if (const auto* found = std::get_if<Thread>(&outcome)) {
            CAPTURE(text);
            CHECK(found->diameter > 3 * found->pitch * 0.99);
            CHECK(core_diameter(*found) > 0);
        } else {
            CHECK(std::get<Refusal>(outcome).sentence.size() > 20);
        }
    }
}

TEST_CASE("the core of a thread is that of the tables") {
    struct Row {
        const char* thread;
        double inches;
    };
    // ASME B1.1, D - 1.226869/n (seen).
    for (const Row& row :
         {Row{"1/4-20 UNC", 0.1887}, Row{"3/8-16 UNC", 0.2983}, Row{"7/16-14 UNC", 0.3499},
          Row{"1/2-13 UNC", 0.4056}, Row{"1/2-20 UNF", 0.4387}}) {
        CAPTURE(std::string(row.thread));
        CHECK(std::abs(core_diameter(thread(row.thread)) / kInch - row.inches) < 0.00006);
    }
    CHECK(std::abs(core_diameter(thread("M8")) * 1e3 - 6.466) < 0.0006); // ISO 724 (memory)
    // Cycle thread, 60°: minor D - 1.0654 p (BS 811, memory): 1/4-26 is 0.2090 in.
    CHECK(std::abs(core_diameter(thread("1/4-26 BSC")) / kInch - 0.2090) < 0.00006);
}
