#include "screw_threads/engagement.h"

#include "screw_threads/words.h"

#include <algorithm>
#include <cmath>

namespace fettle::screw {
namespace {

// Ring area over the length, when one turn is cut p/2 + tan a depth wide. In the loosest tolerances
// of a very fine thread nothing would be left; a tenth of the pitch is.
double cut(const Thread& thread, double diameter, double depth, double length) {
    const double width =
        std::max(thread.pitch / 2 + std::tan(flank_angle(thread.form)) * depth, 0.1 * thread.pitch);
    return kPi * diameter * width * length / thread.pitch;
}

} // namespace

double bolt_strip_area(const Thread& thread, const ThreadLimits& limits, double length) {
    const double depth = limits.bolt_pitch - limits.nut_minor;
    return limits.share * cut(thread, limits.nut_minor, depth, length);
}

double nut_strip_area(const Thread& thread, const ThreadLimits& limits, double length) {
    const double depth = limits.bolt_major - limits.nut_pitch;
    return limits.share * cut(thread, limits.bolt_major, depth, length);
}

Engagement needed_engagement(const Thread& thread, const ThreadLimits& limits, double bolt_tensile,
                             double part_tensile) {
    Engagement found{};
    found.by_bolt = 2 * stress_area(thread) / bolt_strip_area(thread, limits, 1.0);
    found.ratio = bolt_strip_area(thread, limits, 1.0) * bolt_tensile /
                  (nut_strip_area(thread, limits, 1.0) * part_tensile);
    found.needed = found.by_bolt * std::max(1.0, found.ratio);
    return found;
}

double strip_load(const Thread& thread, const ThreadLimits& limits, double length,
                  double bolt_tensile, double part_tensile) {
    return 0.5 * std::min(bolt_strip_area(thread, limits, length) * bolt_tensile,
                          nut_strip_area(thread, limits, length) * part_tensile);
}

std::optional<PartMaterial> part_material(std::string_view name) {
    for (const PartMaterial& material : kPartMaterials) {
        if (name == material.name) return material;
    }
    return std::nullopt;
}

} // namespace fettle::screw
