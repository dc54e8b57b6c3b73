// How backlash answers to moving the ring gear or the pinion, on shafts at right angles.
//
// A move of dx along a gear's own axis opens the mesh by dx sin(pitch angle) square to its pitch
// cone; both flanks then stand off by that times the sine of the pressure angle. From this:
//   backlash along the circumference at the pitch circle = 2 dx tan(pressure) sin(pitch) /
//   cos(spiral) backlash read square to the tooth                     = 2 dx tan(pressure)
//   sin(pitch) backlash read along the circumference elsewhere       = the first times radius read
//   / pitch radius
// with the normal pressure angle; tan(pitch angle of the ring gear) = ring teeth / pinion teeth,
// and the pinion's pitch angle is the rest to 90 degrees. Derived; the spur gear's relation,
// backlash = 2 tan(pressure) times the change of centre distance, is in the usual gear texts
// (seen); for bevels no worked example has been found in print. For hypoid sets (shafts offset) the
// ring gear's factor holds, the pinion's only roughly. SI units and radians; pure.
#pragma once

#include "shim/words.h"

#include <numbers>

namespace fettle::shim {

inline constexpr double kDegree = std::numbers::pi / 180;

struct Mesh {
    double pressure = 20 * kDegree; // normal pressure angle
    double pitch = 75 * kDegree;    // pitch angle of the ring gear
    double spiral = 0;
};

enum class Reading { square, around, elsewhere };

// Change of the reading for a move of the ring gear along its axis, m a m.
// radius_ratio: radius read over pitch radius, used with Reading::elsewhere alone.
double ring_factor(const Mesh& mesh, Reading reading, double radius_ratio);

// The same for a move of the pinion along its axis, from the ring gear's factor.
double pinion_factor(double ring_factor, const Mesh& mesh);

// The usual backlash of bevel and hypoid gears, quality 7 to 13, by diametral pitch (teeth an inch
// of pitch diameter): AGMA, seen in a reprint. Blank outside 2.5 to 20.
std::optional<Range> usual_backlash(double diametral_pitch);

// Makers' service manuals (seen): a range to warn by, never to set by.
inline constexpr Range kCarBacklash{4 * kThou, 9 * kThou};
inline constexpr Range kLorryBacklash{8 * kThou, 18 * kThou};
inline constexpr double kUsualVariation = 2 * kThou; // over the teeth

// ---- As typed

struct FactorTyped {
    std::string read_how; // one of kReadHow, "" for the first
    std::optional<double> pressure, pitch, ring_teeth, pinion_teeth, spiral;
    std::optional<double> read_radius, pitch_radius;
    std::optional<double> maker_figure;
    std::string maker_says; // one of kMakerSays
};

inline constexpr std::array<const char*, 4> kReadHow = {
    "square to the tooth", "along the circumference", "at another radius", "as the maker states"};
inline constexpr std::array<const char*, 2> kMakerSays = {"shim = figure x backlash",
                                                          "backlash = figure x shim"};

struct Factor {
    double ring;   // backlash as it is read, a metre the ring gear moves
    double pinion; // the same for the pinion
};

// Writes the working with the numbers put in.
plugin::Outcome<Factor> work_factor(const FactorTyped& typed, plugin::Account& account);

} // namespace fettle::shim
