// The tables of limits against printed ones, and ISO 286-1's against its own formulae. Each block
// names where its values were read; "memory" marks those that were not.
#include "fit/inch_fits.h"
#include "fit/tolerances.h"
#include "plugins/asked_sheet.h"

using namespace fettle::fit;
using namespace fettle::test;

namespace {

constexpr double kMicron = 1e-6;
constexpr double kMm = 1e-3;
constexpr double kThou = 2.54e-5;

Zone zone_of(const char* name, double mm) {
    const bool hole = name[0] < 'a';
    const auto read = read_class(name, hole ? "hole" : "shaft", hole);
    REQUIRE(std::holds_alternative<ToleranceClass>(read));
    const auto found = zone(std::get<ToleranceClass>(read), mm * kMm);
    CAPTURE(std::string(name));
    CAPTURE(mm);
    REQUIRE(found.has_value());
    return *found;
}

void check_zone(const char* name, double mm, double upper, double lower) {
    CAPTURE(std::string(name));
    CAPTURE(mm);
    const Zone found = zone_of(name, mm);
    CHECK(found.upper / kMicron == doctest::Approx(upper).epsilon(1e-9));
    CHECK(found.lower / kMicron == doctest::Approx(lower).epsilon(1e-9));
}

constexpr double kSteps[] = {3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500};

// Geometric mean of a main step, which ISO 286-1 puts into its formulae.
double mean_size(std::size_t step) {
    return std::sqrt((step == 0 ? 1 : kSteps[step - 1]) * kSteps[step]);
}

double unit_i(double d) {
    return 0.45 * std::cbrt(d) + 0.001 * d;
}

} // namespace

TEST_CASE("ISO 286 zones equal the printed rows from 6 to 50 mm") {
    struct Row { // upper and lower, micrometres
        double size;
        int h7, h8, f7[2], g6[2], h6, k6[2], m6[2], n6[2], p6[2], s6[2];
    };
    // JIS B 0401, which is ISO 286-2 (seen): over 6, 10, 18 and 30 mm.
    const Row rows[] = {
        {8, 15, 22, {-13, -28}, {-5, -14}, -9, {10, 1}, {15, 6}, {19, 10}, {24, 15}, {32, 23}},
        {14, 18, 27, {-16, -34}, {-6, -17}, -11, {12, 1}, {18, 7}, {23, 12}, {29, 18}, {39, 28}},
        {24, 21, 33, {-20, -41}, {-7, -20}, -13, {15, 2}, {21, 8}, {28, 15}, {35, 22}, {48, 35}},
        {40, 25, 39, {-25, -50}, {-9, -25}, -16, {18, 2}, {25, 9}, {33, 17}, {42, 26}, {59, 43}}};
    for (const Row& row : rows) {
        check_zone("H7", row.size, row.h7, 0);
        check_zone("H8", row.size, row.h8, 0);
        check_zone("h6", row.size, 0, row.h6);
        check_zone("f7", row.size, row.f7[0], row.f7[1]);
        check_zone("g6", row.size, row.g6[0], row.g6[1]);
        check_zone("k6", row.size, row.k6[0], row.k6[1]);
        check_zone("m6", row.size, row.m6[0], row.m6[1]);
        check_zone("n6", row.size, row.n6[0], row.n6[1]);
        check_zone("p6", row.size, row.p6[0], row.p6[1]);
        check_zone("s6", row.size, row.s6[0], row.s6[1]);
    }
    // Shigley 9th ed., example 7-7 (seen): 34H11/c11, shaft 33.720 to 33.880, hole to 34.160.
    check_zone("H11", 34, 160, 0);
    check_zone("c11", 34, -120, -280);
}

TEST_CASE("standard tolerances equal the printed table of h4 to h9 up to 500 mm") {
    // A maker's table of shaft tolerances h4 to h9, ISO 286-2 (seen), micrometres by main step.
    const int printed[][13] = {{3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20},
                               {4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27},
                               {6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40},
                               {10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63},
                               {14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97},
                               {25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155}};
    for (int grade = 4; grade <= 9; ++grade) {
        for (std::size_t step = 0; step < std::size(kSteps); ++step) {
            CAPTURE(grade);
            CAPTURE(kSteps[step]);
            CHECK(*standard_tolerance(grade, kSteps[step] * kMm) / kMicron ==
                  doctest::Approx(printed[grade - 4][step]));
        }
    }
}

TEST_CASE("shaft deviations m to zc equal the printed table up to 180 mm") {
    // Narayana, Kannaiah and Reddy, Machine Drawing, table 15.2 (seen); 0: none printed there.
    const char* letters[] = {"r", "s", "t", "u", "v", "x", "y", "z", "za", "zb", "zc"};
    struct Row {
        double size;
        int microns[11];
    };
    const Row rows[] = {{3, {10, 14, 0, 18, 0, 20, 0, 26, 32, 40, 60}},
                        {6, {15, 19, 0, 23, 0, 28, 0, 35, 42, 50, 80}},
                        {10, {19, 23, 0, 28, 0, 34, 0, 42, 52, 67, 97}},
                        {14, {23, 28, 0, 33, 0, 40, 0, 50, 64, 90, 130}},
                        {18, {23, 28, 0, 33, 39, 45, 0, 60, 77, 108, 150}},
                        {24, {28, 35, 0, 41, 47, 54, 63, 73, 98, 136, 188}},
                        {30, {28, 35, 41, 48, 55, 64, 75, 88, 118, 160, 218}},
                        {40, {34, 43, 48, 60, 68, 80, 94, 112, 148, 200, 274}},
                        {50, {34, 43, 54, 70, 81, 97, 114, 136, 180, 242, 325}},
                        {65, {41, 53, 66, 87, 102, 122, 144, 172, 226, 300, 405}},
                        {80, {43, 59, 75, 102, 120, 146, 174, 210, 274, 360, 480}},
                        {100, {51, 71, 91, 124, 146, 178, 214, 258, 335, 445, 585}},
                        {120, {54, 79, 104, 144, 172, 210, 254, 310, 400, 525, 690}},
                        {140, {63, 92, 122, 170, 202, 248, 300, 365, 470, 620, 800}},
                        {160, {65, 100, 134, 190, 228, 280, 340, 415, 535, 700, 900}},
                        {180, {68, 108, 146, 210, 252, 310, 380, 465, 600, 780, 1000}}};
    for (const Row& row : rows) {
        for (std::size_t i = 0; i < std::size(letters); ++i) {
            CAPTURE(std::string(letters[i]));
            CAPTURE(row.size);
            const auto found = shaft_deviation(letters[i], 7, row.size * kMm);
            CHECK(std::lround(found.value_or(0) / kMicron) == row.microns[i]);
        }
    }
    const int m[] = {2, 4, 6, 7, 8, 9, 11, 13, 15};
    const int n[] = {4, 8, 10, 12, 15, 17, 20, 23, 27};
    const int p[] = {6, 12, 15, 18, 22, 26, 32, 37, 43};
    for (std::size_t i = 0; i < std::size(m); ++i) {
        CHECK(std::lround(*shaft_deviation("m", 6, kSteps[i] * kMm) / kMicron) == m[i]);
        CHECK(std::lround(*shaft_deviation("n", 6, kSteps[i] * kMm) / kMicron) == n[i]);
        CHECK(std::lround(*shaft_deviation("p", 6, kSteps[i] * kMm) / kMicron) == p[i]);
    }
}

TEST_CASE("shaft deviations a to k equal the printed table from 180 to 500 mm") {
    // The same table 15.2 (seen).
    struct Row {
        double size;
        int a, b, c, d, e, f, g, j6, j7, k6;
    };
    const Row rows[] = {{200, -660, -340, -240, -170, -100, -50, -15, -13, -21, 4},
                        {225, -740, -380, -260, -170, -100, -50, -15, -13, -21, 4},
                        {250, -820, -420, -280, -170, -100, -50, -15, -13, -21, 4},
                        {280, -920, -480, -300, -190, -110, -56, -17, -16, -26, 4},
                        {315, -1050, -540, -330, -190, -110, -56, -17, -16, -26, 4},
                        {355, -1200, -600, -360, -210, -125, -62, -18, -18, -28, 4},
                        {400, -1350, -680, -400, -210, -125, -62, -18, -18, -28, 4},
                        {450, -1500, -760, -440, -230, -135, -68, -20, -20, -32, 5},
                        {500, -1650, -840, -480, -230, -135, -68, -20, -20, -32, 5}};
    for (const Row& row : rows) {
        CAPTURE(row.size);
        const auto at = [&](const char* letter, int grade) {
            return std::lround(*shaft_deviation(letter, grade, row.size * kMm) / kMicron);
        };
        CHECK(at("a", 9) == row.a);
        CHECK(at("b", 9) == row.b);
        CHECK(at("c", 9) == row.c);
        CHECK(at("d", 9) == row.d);
        CHECK(at("e", 9) == row.e);
        CHECK(at("f", 7) == row.f);
        CHECK(at("g", 6) == row.g);
        CHECK(at("j", 6) == row.j6);
        CHECK(at("j", 7) == row.j7);
        CHECK(at("k", 6) == row.k6);
        CHECK(at("k", 8) == 0);
    }
}

TEST_CASE("hole deviations with their deltas equal the printed table above 180 mm") {
    // Table 15.3 (seen). Two slips of that reprint are left out or put right here: U from 200 to
    // 225 mm, printed 256 (IT7 + D = 258), and X from 355 to 400 mm, printed 650 (IT7 + 1.6 D =
    // 660).
    struct Row {
        double size;
        int r, s, t, u, x, zc, p;
        int delta[5]; // IT4 to IT8
    };
    const Row rows[] = {{200, -77, -122, -166, -236, -350, -1150, -50, {4, 6, 9, 17, 26}},
                        {250, -84, -140, -196, -284, -425, -1350, -50, {4, 6, 9, 17, 26}},
                        {280, -94, -158, -218, -315, -475, -1550, -56, {4, 7, 9, 20, 29}},
                        {315, -98, -170, -240, -350, -525, -1700, -56, {4, 7, 9, 20, 29}},
                        {355, -108, -190, -268, -390, -590, -1900, -62, {5, 7, 11, 21, 32}},
                        {400, -114, -208, -294, -435, -660, -2100, -62, {5, 7, 11, 21, 32}},
                        {450, -126, -232, -330, -490, -740, -2400, -68, {5, 7, 13, 23, 34}},
                        {500, -132, -252, -360, -540, -820, -2600, -68, {5, 7, 13, 23, 34}}};
    for (const Row& row : rows) {
        CAPTURE(row.size);
        const auto upper = [&](const char* name) {
            return std::lround(zone_of(name, row.size).upper / kMicron);
        };
        CHECK(upper("R8") == row.r);
        CHECK(upper("S8") == row.s);
        CHECK(upper("T8") == row.t);
        CHECK(upper("U8") == row.u);
        CHECK(upper("X8") == row.x);
        CHECK(upper("ZC8") == row.zc);
        CHECK(upper("P8") == row.p);
        CHECK(upper("P7") == row.p + row.delta[3]);
        for (int grade = 4; grade <= 8; ++grade)
            CHECK(std::lround(delta(grade, row.size * kMm) / kMicron) == row.delta[grade - 4]);
    }
    // The example under that table (seen): P7 from 18 to 30 mm, delta 8, upper -14.
    CHECK(std::lround(zone_of("P7", 25).upper / kMicron) == -14);
}

TEST_CASE("holes A to N and single printed values are met") {
    // Table 15.3 (seen), columns J, K, M, N; M6 from 250 to 315 mm is the printed exception.
    CHECK(std::lround(zone_of("J6", 150).upper / kMicron) == 18);
    CHECK(std::lround(zone_of("J7", 240).upper / kMicron) == 30);
    CHECK(std::lround(zone_of("J8", 450).upper / kMicron) == 66);
    CHECK(std::lround(zone_of("K7", 150).upper / kMicron) == -3 + 15);
    CHECK(std::lround(zone_of("M8", 240).upper / kMicron) == -17 + 26);
    CHECK(std::lround(zone_of("M9", 240).upper / kMicron) == -17);
    CHECK(std::lround(zone_of("N7", 450).upper / kMicron) == -40 + 23);
    CHECK(std::lround(zone_of("N9", 450).upper / kMicron) == 0);
    CHECK(std::lround(zone_of("M6", 300).upper / kMicron) == -9);
    CHECK(std::lround(zone_of("M6", 240).upper / kMicron) == -17 + 9);
    const int a_to_c[][4] = {
        {140, 460, 260, 200}, {160, 520, 280, 210}, {180, 580, 310, 230}, {200, 660, 340, 240}};
    for (const auto& row : a_to_c) {
        CHECK(std::lround(zone_of("A9", row[0]).lower / kMicron) == row[1]);
        CHECK(std::lround(zone_of("B9", row[0]).lower / kMicron) == row[2]);
        CHECK(std::lround(zone_of("C9", row[0]).lower / kMicron) == row[3]);
    }
    // ISO 286-2 corrigendum 1 of 2006 (seen): A13 over 315 mm, E8 over 80, f9 over 250, R10
    // over 18.
    CHECK(std::lround(zone_of("A13", 350).upper / kMicron) == 2090);
    CHECK(std::lround(zone_of("E8", 100).upper / kMicron) == 126);
    CHECK(std::lround(zone_of("f9", 300).lower / kMicron) == -186);
    CHECK(std::lround(zone_of("R10", 25).upper / kMicron) == -28);
    // ANSI B4.2 shaft-basis fits at 7 and 11 mm (seen): K7 +5/-10, N7 -4/-19, S7 -17/-32, U7 -22.
    check_zone("K7", 7, 5, -10);
    check_zone("N7", 7, -4, -19);
    check_zone("S7", 7, -17, -32);
    check_zone("U7", 7, -22, -37);
    check_zone("K7", 11, 6, -12);
    check_zone("P7", 11, -11, -29);
}

TEST_CASE("the tables of ISO 286-1 agree with its formulae within its own rounding") {
    // IT5 = 7i, then 10, 16, 25, 40, 64, 100, 160, 250; i = 0.45 D^(1/3) + 0.001 D (ISO 286-1).
    const double factors[] = {7, 10, 16, 25, 40, 64, 100, 160, 250};
    for (int grade = 5; grade <= 13; ++grade) {
        for (std::size_t step = 0; step < std::size(kSteps); ++step) {
            CAPTURE(grade);
            CAPTURE(kSteps[step]);
            const double table = *standard_tolerance(grade, kSteps[step] * kMm) / kMicron;
            const double formula = factors[grade - 5] * unit_i(mean_size(step));
            // Up to 3 mm the standard rounds up by as much as 15 %, above by 1 micrometre or 4 %.
            const double rounding = step == 0 ? 0.16 * table : std::max(0.7, 0.045 * table);
            CHECK(std::abs(table - formula) <= rounding);
        }
    }
    // The trap: at IT7 nearest rounding would give 14 and 17 where the standard lists 15 and 18.
    CHECK(std::lround(16 * unit_i(mean_size(2))) == 14);
    CHECK(std::lround(16 * unit_i(mean_size(3))) == 17);
    CHECK(*standard_tolerance(7, 8 * kMm) / kMicron == doctest::Approx(15));
    CHECK(*standard_tolerance(7, 14 * kMm) / kMicron == doctest::Approx(18));
    struct Formula { // Narayana, table 15.4 (seen), micrometres for D in mm
        const char* letter;
        double factor, power;
    };
    const Formula formulae[] = {{"d", -16, 0.44},  {"e", -11, 0.41},    {"f", -5.5, 0.41},
                                {"g", -2.5, 0.34}, {"k", 0.6, 1 / 3.0}, {"n", 5, 0.34}};
    for (const Formula& of : formulae) {
        for (std::size_t step = 1; step < std::size(kSteps); ++step) {
            CAPTURE(std::string(of.letter));
            CAPTURE(kSteps[step]);
            const double table = *shaft_deviation(of.letter, 6, kSteps[step] * kMm) / kMicron;
            const double formula = of.factor * std::pow(mean_size(step), of.power);
            // 0.55 micrometres where checks were published (6 to 50 mm, d and e apart); 2.5 %
            // above.
            CHECK(std::abs(table - formula) <= std::max(0.8, 0.025 * std::abs(table)));
        }
    }
}

TEST_CASE("shafts a and b agree with their formulae within the ten they are rounded to") {
    // Narayana, table 15.4 (seen): a = -(265 + 1.3 D) up to 120 mm, b = -(140 + 0.85 D) up to 160.
    const double fine[] = {3, 6, 10, 18, 30, 40, 50, 65, 80, 100, 120};
    double from = 1;
    for (const double to : fine) {
        CAPTURE(to);
        const double d = std::sqrt(from * to);
        CHECK(std::abs(*shaft_deviation("a", 9, to * kMm) / kMicron + 265 + 1.3 * d) < 10);
        CHECK(std::abs(*shaft_deviation("b", 9, to * kMm) / kMicron + 140 + 0.85 * d) < 10);
        from = to;
    }
}

TEST_CASE("classes are read as written and anything else is refused with what is accepted") {
    const auto read = read_class(" JS7 ", "hole", true);
    REQUIRE(std::holds_alternative<ToleranceClass>(read));
    CHECK(std::get<ToleranceClass>(read).letter == "js");
    check_zone("JS7", 25, 10.5, -10.5);
    for (const char* wrong :
         {"h7", "H", "7", "H3", "H14", "I7", "H7p6", "", "HH7", "H-7", "H007"}) {
        CAPTURE(std::string(wrong));
        const auto refused = read_class(wrong, "hole", true);
        REQUIRE(std::holds_alternative<fettle::plugin::Refusal>(refused));
        CHECK(std::get<fettle::plugin::Refusal>(refused).sentence.find("H7") != std::string::npos);
    }
    CHECK(std::holds_alternative<fettle::plugin::Refusal>(read_class("P6", "shaft", false)));
    CHECK(!zone({false, "t", 6}, 20 * kMm));
    CHECK(!zone({true, "k", 9}, 20 * kMm));
    CHECK(!zone({true, "h", 7}, 501 * kMm));
    CHECK(!zone({true, "h", 7}, 0));
}

TEST_CASE("a step of the table ends with its upper size") {
    CHECK(*standard_tolerance(7, 30 * kMm) / kMicron == doctest::Approx(21));
    CHECK(*standard_tolerance(7, 30.001 * kMm) / kMicron == doctest::Approx(25));
    CHECK(*inch_tolerance(7, 1.19 * 0.0254) / kThou == doctest::Approx(0.8));
    CHECK(*inch_tolerance(7, 1.1901 * 0.0254) / kThou == doctest::Approx(1.0));
}

TEST_CASE("holes and shafts of one letter mirror each other about the nominal size") {
    for (double mm = 1; mm <= 500; mm *= 1.03) {
        for (const char* pair : {"A", "C", "D", "F", "G", "H"}) {
            const std::string hole = std::string(pair) + "9";
            std::string shaft = hole;
            shaft[0] = static_cast<char>(shaft[0] - 'A' + 'a');
            const Zone up = zone_of(hole.c_str(), mm);
            const Zone down = zone_of(shaft.c_str(), mm);
            CHECK(up.lower == doctest::Approx(-down.upper));
            CHECK(up.upper == doctest::Approx(-down.lower));
        }
        // General rule of ISO 286-1: H7/s6 and S7/h6 leave the same interference, delta being there
        // for that purpose.
        if (mm <= 3) continue;
        CHECK(zone_of("H7", mm).upper - zone_of("s6", mm).lower ==
              doctest::Approx(zone_of("S7", mm).upper - zone_of("h6", mm).lower));
    }
}
