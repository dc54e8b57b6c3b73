// The laminated spring formulae against the worked examples of the textbooks, and the stepped beam
// against closed solutions.
#include "plugins/published.h"
#include "spring/leaf_formulae.h"
#include "spring/leaf_pack.h"

#include <doctest/doctest.h>

using namespace fettle::spring;
using fettle::test::within;

namespace {

constexpr double kMm = 1e-3;
constexpr double kMPa = 1e6;

// Loads in N at one eye, half lengths and sections in mm as the books print them.
BookPack book(double half_load, double half_length, double width, double thickness, int full,
              int graduated) {
    return {half_load, half_length * kMm, width * kMm, thickness * kMm, full, graduated};
}

Pack pack_of(std::vector<double> lengths_mm, double thickness_mm) {
    Pack pack{{}, 50 * kMm, 0, 207e9};
    for (const double length : lengths_mm)
        pack.leaves.push_back({length * kMm, thickness_mm * kMm, std::nullopt});
    return pack;
}

} // namespace

TEST_CASE("leaf thickness comes out as in the worked examples") {
    // L1a Khurmi & Gupta, ch. 23, truck spring, no nip, b = 4t, 280 MPa (memory)
    CHECK(within(thickness_without_nip(book(2700, 482.5, 0, 0, 2, 10), 280 * kMPa, 4) / kMm, 9.3,
                 0.001));
    // L2a Khurmi & Gupta, ch. 23, locomotive spring, nipped, b = 9t, 400 MPa (memory)
    CHECK(within(thickness_with_nip(book(35000, 450, 0, 0, 3, 15), 400 * kMPa, 9) / kMm, 11.34,
                 0.0005));
    // L4b solved problem (seen): 12.250, the source cuts it to 12.24
    CHECK(within(thickness_with_nip(book(37500, 500, 0, 0, 2, 15), 400 * kMPa, 9) / kMm, 12.25,
                 0.0005));
    // L5a Bhandari, ch. 10, nipped, b = 9t, 450 MPa (question seen)
    CHECK(within(thickness_with_nip(book(37500, 500, 0, 0, 3, 15), 450 * kMPa, 9) / kMm, 11.56,
                 0.0005));
    // L6a Bhandari, ch. 10, nipped, b = 60, 600 MPa (question seen)
    CHECK(within(thickness_with_nip(book(15000, 600, 60, 0, 2, 10), 600 * kMPa) / kMm, 11.18,
                 0.0005));
    // L8a Khurmi & Gupta, ch. 23, 600 MPa and 80 mm together (memory), printed cut off
    CHECK(within(thickness_for_deflection(500 * kMm, 600 * kMPa, 80 * kMm, 200e9) / kMm, 9.37,
                 0.001));
}

TEST_CASE("the section a stress asks for is that of the solved problem") {
    // L4a (seen): b t² = 3 W l / (n sigma) = 16544.1 mm³ with W = 75 kN and l = 500 in half-length.
    const double t = thickness_with_nip(book(37500, 500, 0, 0, 2, 15), 400 * kMPa, 9) / kMm;
    CHECK(within(9 * t * t * t, 16544.1, 1e-5));
}

TEST_CASE("deflection comes out as in the worked examples") {
    // L1b Khurmi & Gupta, ch. 23 (memory)
    CHECK(within(deflection(book(2700, 482.5, 40, 10, 2, 10), 210e9) / kMm, 16.7, 0.003));
    // L6b Bhandari, ch. 10 (question seen)
    CHECK(within(deflection(book(15000, 600, 60, 12, 2, 10), 207e9) / kMm, 69.68, 0.0001));
    // L7b Bhandari, ch. 10 (question seen): 10 kN on eyes 1 m apart
    CHECK(within(deflection(book(5000, 500, 50, 10, 2, 8), 207e9) / kMm, 32.94, 0.0002));
}

TEST_CASE("nip and the load that closes it come out as in the worked examples") {
    // L2b, L2c Khurmi & Gupta, ch. 23 (memory)
    CHECK(within(nip(book(35000, 450, 108, 12, 3, 15), 210e9) / kMm, 9.04, 0.0005));
    CHECK(within(closing_load(book(35000, 450, 108, 12, 3, 15)), 4487, 0.0001));
    // L4c solved problem (seen): n = 17, the source counts one full leaf as the master
    CHECK(within(nip(book(37500, 500, 110.16, 12.24, 2, 15), 206.8e9) / kMm, 13.2, 0.003));
    // L5c Bhandari, ch. 10 (question seen)
    CHECK(within(closing_load(book(37500, 500, 0, 0, 3, 15)), 4807.69, 1e-6));
}

TEST_CASE(
    "graduated leaves carry two thirds of the stress of the full ones, and the 12 form is the "
    "semi-elliptic one") {
    const BookPack pack = book(5000, 500, 60, 8, 2, 4);
    CHECK(graduated_leaf_stress(pack) / full_leaf_stress(pack) == doctest::Approx(2.0 / 3));
    // L9a (seen): 3 W l / (2 n b t²) with W = 10 kN, l = 1000, n = 6, b = 60, t = 8: 651.042 MPa
    CHECK(within(graduated_leaf_stress(book(5000, 500, 60, 8, 0, 6)) / kMPa, 651.042, 1e-6));
    CHECK(within(equalised_stress(book(5000, 500, 60, 8, 0, 6)) / kMPa, 651.042, 1e-6));
}

TEST_CASE("one leaf is a beam on two supports with the load in the middle") {
    // 48 E I / l³ and W l / (4 Z): any table of beams.
    const Pack pack = pack_of({1000}, 10);
    const PackUnderLoad under = under_load(pack, 2000);
    const double inertia = 50 * 1000.0 / 12 * 1e-12;
    CHECK(under.rate == doctest::Approx(48 * 207e9 * inertia));
    CHECK(under.rate_book == doctest::Approx(under.rate));
    const double stress = 2000 * 1.0 / 4 / (50 * 100.0 / 6 * 1e-9);
    CHECK(under.leaves[0].stress_beam == doctest::Approx(stress));
    CHECK(under.leaves[0].stress_book == doctest::Approx(stress));
}

TEST_CASE("leaves of one length are as stiff together as their number, in either view") {
    const PackUnderLoad one = under_load(pack_of({900}, 8), 1000);
    const PackUnderLoad five = under_load(pack_of({900, 900, 900, 900, 900}, 8), 1000);
    CHECK(five.rate == doctest::Approx(5 * one.rate));
    CHECK(five.rate_book == doctest::Approx(5 * one.rate));
    CHECK(five.full == 5);
    CHECK(five.graduated == 0);
}

TEST_CASE("many thin evenly stepped leaves become the trapezoid plate with its closed solution") {
    // Deflection K F L³/(3 E I), K = 3/(1-b)³ [1/2 - 2b + b²(3/2 - ln b)], b = full leaves over
    // all: the trapezoidal cantilever plate, Wahl, Mechanical Springs (memory).
    for (const int full : {40, 100, 200, 320}) {
        CAPTURE(full);
        constexpr int kLeaves = 400;
        std::vector<double> lengths;
        for (int i = 0; i < kLeaves; ++i) {
            const int step = i < full ? 0 : i - full + 1;
            // Each step lies at the middle of the strip it stands for.
            const double place = step == 0 ? 0 : (step - 0.5) / (kLeaves - full);
            lengths.push_back(1000 * (1 - place));
        }
        const PackUnderLoad under = under_load(pack_of(lengths, 1), 100);
        const double b = static_cast<double>(full) / kLeaves;
        const double factor = 3 / std::pow(1 - b, 3) * (0.5 - 2 * b + b * b * (1.5 - std::log(b)));
        const double inertia = kLeaves * 50 * 1.0 / 12 * 1e-12;
        const double eye = factor * 0.125 / (3 * 207e9 * inertia); // per newton, L = 0.5 m
        CHECK(within(under.rate, 2 / eye, 0.0005));
    }
}

TEST_CASE("where a leaf ends too soon the steel outside it is worked harder than at the clamp") {
    const PackUnderLoad even = under_load(pack_of({1000, 500}, 10), 2000);
    const PackUnderLoad stub = under_load(pack_of({1000, 200}, 10), 2000);
    // Moment 1000 N x 0.4 m on one leaf against 1000 N x 0.5 m shared by two.
    CHECK(stub.leaves[0].stress_beam == doctest::Approx(1000 * 0.4 / (50 * 100.0 / 6 * 1e-9)));
    CHECK(even.leaves[0].stress_beam == doctest::Approx(1000 * 0.25 / (50 * 100.0 / 6 * 1e-9)));
    CHECK(stub.leaves[1].stress_beam == doctest::Approx(1000 * 0.25 / (50 * 100.0 / 6 * 1e-9)));
}

TEST_CASE("rate and stress scale as beams do") {
    const auto scaled = [](double length, double thickness, double width) {
        Pack pack{{}, 0.05 * width, 0.1 * length, 207e9};
        for (const double each : {1.0, 1.0, 0.8, 0.6, 0.4})
            pack.leaves.push_back({each * length, 0.008 * thickness, std::nullopt});
        return under_load(pack, 5000);
    };
    const PackUnderLoad base = scaled(1, 1, 1);
    CHECK(scaled(2, 1, 1).rate == doctest::Approx(base.rate / 8));
    CHECK(scaled(2, 1, 1).rate_book == doctest::Approx(base.rate_book / 8));
    CHECK(scaled(1, 2, 1).rate == doctest::Approx(base.rate * 8));
    CHECK(scaled(1, 1, 2).rate == doctest::Approx(base.rate * 2));
    CHECK(scaled(2, 2, 2).rate == doctest::Approx(base.rate * 2));
    CHECK(scaled(2, 1, 1).leaves[2].stress_beam == doctest::Approx(base.leaves[2].stress_beam * 2));
    CHECK(scaled(1, 2, 1).leaves[0].stress_book == doctest::Approx(base.leaves[0].stress_book / 4));
}

TEST_CASE("a leaf that is thicker takes its share by the cube of its thickness") {
    Pack pack = pack_of({1000, 1000}, 8);
    pack.leaves[0].thickness = 16 * kMm;
    const PackUnderLoad under = under_load(pack, 1000);
    CHECK(under.leaves[0].share == doctest::Approx(8.0 / 9));
    CHECK(under.leaves[0].stress_beam == doctest::Approx(2 * under.leaves[1].stress_beam));
    CHECK(under.rate == doctest::Approx(under.rate_book));
}

TEST_CASE("the gap between free leaves follows from their radii") {
    // Height of an arc by the chord: y = l²/(2R) for a flat one; 500 mm half length, R 2 m and 1.6
    // m.
    CHECK(free_gap(0.5, 2.0, 1.6) == doctest::Approx(0.25 / 3.2 - 0.25 / 4.0));
    CHECK(free_gap(0.5, 1.6, 2.0) < 0);
}

TEST_CASE("a load bounces with the period of a pendulum as long as its static deflection") {
    // 250 mm static deflection: 1 Hz within half a per cent (any vehicle dynamics text).
    const double rate = 2000 / 0.25;
    CHECK(within(bounce_frequency(rate, 2000), 1.0, 0.005));
}
