// Paint films: wet from dry, coverage, litres, and the area of parts. Plain functions in SI (m, m2,
// m3, shares of 1).
//
// Sources: volume balance of the film; ISO 23811 and ASTM D2697 name the volume of solids. Coverage
// 1604 VS/DFT in ft2 a US gallon at mils and 1000 VS/DFT in m2 a litre at micrometres are the same
// balance in other units.
#pragma once

#include <array>

namespace fettle::coat {

struct Paint {
    double solids;   // volume of solids in the paint as it comes from the tin
    double thinning; // volume of thinner to volume of paint
    double loss;     // share of the paint that never lands on the part, below 1
};

double wet_film(double dry, const Paint& paint); // of thinned paint
double dry_film(double wet, const Paint& paint);
double coverage(double dry, const Paint& paint);                  // m2 a m3 of unthinned, no loss
double paint_volume(double area, double dry, const Paint& paint); // m3 unthinned, loss counted

// Shapes whose surface a rule and a count give; the words are choices of the parts table.
inline constexpr std::array<const char*, 4> kShapes = {"face", "sheet", "round", "box"};

struct Part {
    int shape;     // index into kShapes: one face; both faces; round outside; four sides
    double length; // m
    double width;  // m, of a round part the diameter
    double depth;  // m, of a box only
    double pieces;
};

double surface(const Part& part); // m2

} // namespace fettle::coat
