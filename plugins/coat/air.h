// Moist air: vapour pressure, dew point, relative humidity, wet bulb. Plain functions in SI (K, Pa,
// shares of 1); no state, no check of what was typed.
//
// Sources: WMO No. 8, Guide to Instruments and Methods of Observation, part I annex 4.B: saturation
// over water 6.112 exp(17.62 t/(243.12 + t)) hPa for t in degrees Celsius from -45 to 60, its
// inverse, and the formula of the ventilated psychrometer. The factor for air at other than vacuum
// (0.4 %) is left out: it cancels in the dew point.
#pragma once

namespace fettle::coat {

inline constexpr double kIce = 273.15;         // K, melting ice
inline constexpr double kStandardAir = 101325; // Pa

double saturation(double temperature);                 // Pa
double dew_point(double vapour);                       // K; the inverse. Precondition: vapour > 0
double vapour_of(double temperature, double humidity); // Pa

// Vapour pressure from a ventilated dry and wet bulb, the wick wet and not frozen. Not above 0 when
// the readings cannot belong together.
double vapour_by_wet_bulb(double dry, double wet, double pressure);

// Water in a cubic metre of air, kg/m3: 216.7 e/T g/m3 with e in hPa (ideal gas).
double water_content(double vapour, double temperature);

// Temperature at which air of this vapour pressure has this relative humidity, K.
double temperature_for(double vapour, double humidity);

} // namespace fettle::coat
