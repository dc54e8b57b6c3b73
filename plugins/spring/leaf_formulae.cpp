#include "spring/leaf_formulae.h"

#include <cmath>

namespace fettle::spring {
namespace {

double weighted_count(const BookPack& pack) {
    return 3.0 * pack.full + 2.0 * pack.graduated;
}
double count(const BookPack& pack) {
    return static_cast<double>(pack.full + pack.graduated);
}
double moment(const BookPack& pack) {
    return pack.half_load * pack.half_length;
}
double cube(double x) {
    return x * x * x;
}

} // namespace

double full_leaf_stress(const BookPack& pack) {
    return 18 * moment(pack) /
           (pack.width * pack.thickness * pack.thickness * weighted_count(pack));
}

double graduated_leaf_stress(const BookPack& pack) {
    return 12 * moment(pack) /
           (pack.width * pack.thickness * pack.thickness * weighted_count(pack));
}

double equalised_stress(const BookPack& pack) {
    return 6 * moment(pack) / (count(pack) * pack.width * pack.thickness * pack.thickness);
}

double deflection(const BookPack& pack, double modulus) {
    return 12 * pack.half_load * cube(pack.half_length) /
           (modulus * pack.width * cube(pack.thickness) * weighted_count(pack));
}

double rate(const BookPack& pack, double modulus) {
    return modulus * pack.width * cube(pack.thickness) * weighted_count(pack) /
           (6 * cube(pack.half_length));
}

double nip(const BookPack& pack, double modulus) {
    return 2 * pack.half_load * cube(pack.half_length) /
           (count(pack) * modulus * pack.width * cube(pack.thickness));
}

double closing_load(const BookPack& pack) {
    return 2.0 * pack.full * pack.graduated * pack.half_load / (count(pack) * weighted_count(pack));
}

double thickness_without_nip(const BookPack& pack, double limit, double width_per_thickness) {
    return std::cbrt(18 * moment(pack) / (limit * width_per_thickness * weighted_count(pack)));
}

double thickness_with_nip(const BookPack& pack, double limit, double width_per_thickness) {
    return std::cbrt(6 * moment(pack) / (limit * width_per_thickness * count(pack)));
}

double thickness_with_nip(const BookPack& pack, double limit) {
    return std::sqrt(6 * moment(pack) / (limit * pack.width * count(pack)));
}

double thickness_for_deflection(double half_length, double stress, double deflection,
                                double modulus) {
    return stress * half_length * half_length / (modulus * deflection);
}

} // namespace fettle::spring
