// Limits of mating threads, strip areas, engagement needed, and joints under load.
#include "plugins/published.h"
#include "screw_threads/engagement.h"
#include "screw_threads/series.h"
#include "torque/joint.h"
#include "torque/tightening.h"

#include <doctest/doctest.h>

#include <string>

using namespace fettle::test;
using namespace fettle::torque;

namespace {

constexpr double kInch = 0.0254;
constexpr double kPoundForce = 4.4482216152605;
constexpr double kKsi = 1000 * kPoundForce / (kInch * kInch);
constexpr double kMegaPoundPerInch = 1e6 * kPoundForce / kInch;

struct LimitRow {
    const char* thread;
    double bolt_major, bolt_pitch, nut_minor, nut_pitch; // NAN: not printed here
};

double worst_miss(const LimitRow& row, double unit) {
    const ThreadLimits limits = limits_of(thread(row.thread));
    double worst = 0;
    const auto look = [&](double computed, double printed) {
        if (!std::isnan(printed)) worst = std::max(worst, std::abs(computed / unit - printed));
    };
    look(limits.bolt_major, row.bolt_major);
    look(limits.bolt_pitch, row.bolt_pitch);
    look(limits.nut_minor, row.nut_minor);
    look(limits.nut_pitch, row.nut_pitch);
    return worst;
}

} // namespace

TEST_CASE("limits of unified threads are those of ASME B1.1 within half a thou") {
    // Classes 2A and 2B, inches (memory); minor diameters of nuts are printed to three places.
    const LimitRow rows[] = {{"1/4-20 UNC", NAN, 0.2127, 0.207, NAN},
                             {"5/16-18 UNC", 0.3026, 0.2712, 0.265, 0.2817},
                             {"3/8-16 UNC", 0.3643, 0.3287, 0.321, 0.3401},
                             {"1/2-13 UNC", 0.4876, 0.4435, 0.434, 0.4565},
                             {"5/8-11 UNC", NAN, 0.5589, 0.546, NAN},
                             {"3/4-10 UNC", 0.7353, NAN, NAN, 0.6927},
                             {"#10-32 UNF", NAN, NAN, 0.164, NAN},
                             {"#10-24 UNC", NAN, NAN, 0.156, NAN}};
    for (const LimitRow& row : rows) {
        CAPTURE(std::string(row.thread));
        CHECK(worst_miss(row, kInch) <= 0.00061);
    }
}

TEST_CASE("limits of metric threads are those of ISO 965 within a hundredth of a millimetre") {
    // 6g as printed in ASME B1.13M and a drawing handbook (seen); 6H (memory).
    const LimitRow rows[] = {
        {"M2", 1.886, 1.654, NAN, NAN},      {"M3", 2.874, 2.580, NAN, NAN},
        {"M4", 3.838, 3.433, NAN, NAN},      {"M5", 4.826, 4.361, NAN, NAN},
        {"M6", 5.794, 5.212, 5.153, 5.500},  {"M8", 7.760, 7.042, 6.912, 7.348},
        {"M10", 9.732, 8.862, 8.676, 9.206}, {"M12", 11.701, 10.679, 10.441, 11.063}};
    for (const LimitRow& row : rows) {
        CAPTURE(std::string(row.thread));
        CHECK(worst_miss(row, 1e-3) <= 0.0091);
    }
}

TEST_CASE("minor diameters of Whitworth nuts are those of BS 84") {
    // Medium class, inches (memory).
    for (const LimitRow& row :
         {LimitRow{"1/4 BSW", NAN, NAN, 0.2030, NAN}, LimitRow{"3/8 BSW", NAN, NAN, 0.3145, NAN}}) {
        CAPTURE(std::string(row.thread));
        CHECK(worst_miss(row, kInch) <= 0.00006);
    }
}

TEST_CASE("strip areas over one diameter are those of the published table") {
    struct Row {
        const char* thread;
        char side; // E external, I internal
        double area;
        double last_place;
    };
    // A table of strip areas, Le = 1 D, 2A and 2B, square inches (seen).
    const Row rows[] = {{"1/4-20 UNC", 'E', 0.092, 0.001},  {"5/16-18 UNC", 'E', 0.147, 0.001},
                        {"5/16-18 UNC", 'I', 0.213, 0.001}, {"3/8-16 UNC", 'E', 0.216, 0.001},
                        {"3/8-16 UNC", 'I', 0.310, 0.001},  {"1/2-13 UNC", 'E', 0.389, 0.001},
                        {"1/2-13 UNC", 'I', 0.562, 0.001},  {"5/8-11 UNC", 'E', 0.624, 0.001},
                        {"3/4-10 UNC", 'I', 1.29, 0.01}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.thread));
        CAPTURE(row.side);
        const Thread bolt = thread(row.thread);
        const ThreadLimits limits = limits_of(bolt);
        const double area = row.side == 'E' ? bolt_strip_area(bolt, limits, bolt.diameter)
                                            : nut_strip_area(bolt, limits, bolt.diameter);
        // The table works with limits rounded to a thou, which is half a per cent of the area.
        CHECK(std::abs(area / (kInch * kInch) - row.area) <=
              0.5 * row.last_place + 0.006 * row.area);
    }
}

TEST_CASE("the engagement needed is that of FED-STD-H28 worked by hand") {
    // 1/2-13 UNC with the limits and areas of the tables above:
    // Le = 2 x 0.1419 / (pi 0.434 (0.5 + 0.57735 x 13 (0.4435 - 0.434))) = 0.364 in.
    // J = 0.389 x 120 / (0.562 x 26.1) = 3.18 from SAE 5 into aluminium of 180 MPa; J Le = 1.16 in.
    const Thread bolt = thread("1/2-13 UNC");
    const Engagement found = needed_engagement(bolt, limits_of(bolt), 120 * kKsi, 180e6);
    CHECK(within(found.by_bolt / kInch, 0.364, 0.01));
    CHECK(within(found.ratio, 3.18, 0.01));
    CHECK(within(found.needed / kInch, 1.16, 0.015));
    // Into steel as strong as itself the bolt's own thread decides.
    const Engagement steel = needed_engagement(bolt, limits_of(bolt), 120 * kKsi, 120 * kKsi);
    CHECK(steel.ratio < 1);
    CHECK(steel.needed == steel.by_bolt);
}

TEST_CASE("with the engagement needed the bolt breaks just as its thread strips") {
    for (const InchSize& size : inch_sizes()) {
        for (const Series& series : inch_series()) {
            if (size.*series.tpi == 0) continue;
            const Thread bolt = thread((std::string(size.size) + " " + series.name).c_str());
            CAPTURE(bolt.name);
            const ThreadLimits limits = limits_of(bolt);
            double before = 1e9;
            for (const double part : {100e6, 180e6, 340e6, 800e6, 2000e6}) {
                const double needed = needed_engagement(bolt, limits, 800e6, part).needed;
                CHECK(needed <= before); // never more into the stronger part
                before = needed;
                CHECK(strip_load(bolt, limits, needed, 800e6, part) ==
                      doctest::Approx(800e6 * stress_area(bolt)));
                CHECK(strip_load(bolt, limits, 2 * needed, 800e6, part) >
                      strip_load(bolt, limits, needed, 800e6, part));
            }
            // A nut of its own grade is never asked to be absurdly high.
            const double own = needed_engagement(bolt, limits, 800e6, 800e6).needed;
            CHECK(own > 0.3 * bolt.diameter);
            CHECK(own < 1.6 * bolt.diameter);
        }
    }
}

TEST_CASE("load and stress in a preloaded joint are those of the worked example") {
    // Shigley, 9th ed., example 8-3: 3/4-16 UNF, F = 25 kip, P = 6 kip, kb = 6.50 and km = 13.8
    // Mlbf/in; 67.02 kpsi, C = 0.320, 72.17 kpsi (seen). The book takes 0.373 in² for the area.
    const double area = 0.373 * kInch * kInch;
    const double share = load_share(6.50 * kMegaPoundPerInch, 13.8 * kMegaPoundPerInch);
    CHECK(std::abs(share - 0.320) < 0.0005);
    const double preload = 25000 * kPoundForce;
    CHECK(std::abs(service_stress(share, 0, preload, area) / kKsi - 67.02) < 0.005);
    CHECK(std::abs(service_stress(share, 6000 * kPoundForce, preload, area) / kKsi - 72.17) < 0.01);
    CHECK(std::abs(stress_area(thread("3/4-16 UNF")) - area) < 0.0005 * kInch * kInch);
}

TEST_CASE("stiffnesses and separation are those of the worked example") {
    // Shigley, example 8-4: 5/8-11 UNC, grip 1.5 in of which 0.75 plain, E 30 and 14 Mpsi:
    // kb = 5.21, km = 8.95 Mlbf/in, C = 0.368; six bolts at 14.4 kip against 36 kip part at a load
    // factor of 3.80 (seen).
    const double psi = kKsi / 1000;
    const Thread bolt = thread("5/8-11 UNC");
    const double kb = bolt_stiffness(bolt, 1.5 * kInch, 0.75 * kInch, 30e6 * psi);
    const double km = parts_stiffness(bolt.diameter, 1.5 * kInch, 14e6 * psi);
    CHECK(within(kb / kMegaPoundPerInch, 5.21, 0.001));
    CHECK(within(km / kMegaPoundPerInch, 8.95, 0.001));
    CHECK(std::abs(load_share(kb, km) - 0.368) < 0.0006);
    const double apart = separation_load(load_share(kb, km), 14400 * kPoundForce);
    CHECK(within(apart / (6000 * kPoundForce), 3.80, 0.002));
    // The same book's solutions, M12, grip 45 mm of which 30 plain: 466.8 MN/m (seen).
    CHECK(within(bolt_stiffness(thread("M12"), 0.045, 0.030, 207e9), 466.8e6, 0.001));
}
