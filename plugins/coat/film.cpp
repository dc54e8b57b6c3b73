#include "coat/film.h"

#include <numbers>

namespace fettle::coat {

double wet_film(double dry, const Paint& paint) {
    return dry * (1 + paint.thinning) / paint.solids;
}

double dry_film(double wet, const Paint& paint) {
    return wet * paint.solids / (1 + paint.thinning);
}

double coverage(double dry, const Paint& paint) {
    return paint.solids / dry;
}

double paint_volume(double area, double dry, const Paint& paint) {
    return area / coverage(dry, paint) / (1 - paint.loss);
}

double surface(const Part& part) {
    double around = part.width;
    if (part.shape == 1) around = 2 * part.width;
    if (part.shape == 2) around = std::numbers::pi * part.width;
    if (part.shape == 3) around = 2 * (part.width + part.depth);
    return part.pieces * part.length * around;
}

} // namespace fettle::coat
