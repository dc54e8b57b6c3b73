#include "torque/seats.h"

#include "screw_threads/words.h"

#include <cmath>
#include <optional>
#include <span>

namespace fettle::torque {
namespace {

// Part of the width across flats that bears, where the standard prints no washer face.
// Common practice, no source.
constexpr double kFaceOfFlats = 0.95;

struct Row {
    double diameter, face, hole, across, height; // mm for metric, else inches
};

// Face: least washer face dw of ISO 4014, product grade A (M3 to M10 seen, rest from memory). Hole:
// ISO 273, medium series, from memory. M6 to M16 agree with the torques of VDI 2230
// (tests/plugins). Flats and height: ISO 4014, from memory.
constexpr Row kMetricHex[] = {
    {3, 4.57, 3.4, 5.5, 2},     {4, 5.88, 4.5, 7, 2.8},     {5, 6.88, 5.5, 8, 3.5},
    {6, 8.88, 6.6, 10, 4},      {8, 11.63, 9, 13, 5.3},     {10, 14.63, 11, 16, 6.4},
    {12, 16.63, 13.5, 18, 7.5}, {14, 19.64, 15.5, 21, 8.8}, {16, 22.49, 17.5, 24, 10},
    {18, 25.34, 20, 27, 11.5},  {20, 28.19, 22, 30, 12.5},  {22, 31.71, 24, 34, 14},
    {24, 33.61, 26, 36, 15},    {27, 38, 30, 41, 17},       {30, 42.75, 33, 46, 18.7},
    {36, 51.11, 39, 55, 22.5}};

// Least washer face, head and height of ISO 4762 (seen in two tables); hole as above.
constexpr Row kMetricSocket[] = {
    {3, 5.07, 3.4, 5.5, 3},    {4, 6.53, 4.5, 7, 4},      {5, 8.03, 5.5, 8.5, 5},
    {6, 9.38, 6.6, 10, 6},     {8, 12.33, 9, 13, 8},      {10, 15.33, 11, 16, 10},
    {12, 17.23, 13.5, 18, 12}, {14, 20.17, 15.5, 21, 14}, {16, 23.17, 17.5, 24, 16},
    {20, 28.87, 22, 30, 20},   {24, 34.81, 26, 36, 24},   {30, 43.61, 33, 45, 30},
    {36, 52.54, 39, 54, 36}};

// Flats and height: ASME B18.2.1 hexagon cap screws. Hole: ASME B18.2.8, normal fit. From memory.
constexpr Row kUnifiedHex[] = {
    {0.25, 0.4156, 0.28125, 0.4375, 0.1563},  {0.3125, 0.475, 0.34375, 0.5, 0.2031},
    {0.375, 0.5344, 0.40625, 0.5625, 0.2344}, {0.4375, 0.5938, 0.46875, 0.625, 0.2813},
    {0.5, 0.7125, 0.5625, 0.75, 0.3125},      {0.5625, 0.7719, 0.625, 0.8125, 0.3594},
    {0.625, 0.8906, 0.6875, 0.9375, 0.3906},  {0.75, 1.0688, 0.8125, 1.125, 0.4688},
    {0.875, 1.2469, 0.9375, 1.3125, 0.5469},  {1.0, 1.425, 1.09375, 1.5, 0.6094}};

// Least washer face, greatest flats and head of BS 1083 (seen). Hole: a sixteenth over, common
// practice, no source.
constexpr Row kWhitworthHex[] = {
    {0.25, 0.418, 0.3125, 0.445, 0.176},  {0.3125, 0.498, 0.375, 0.525, 0.218},
    {0.375, 0.572, 0.4375, 0.600, 0.260}, {0.4375, 0.680, 0.5, 0.710, 0.302},
    {0.5, 0.790, 0.5625, 0.820, 0.343},   {0.5625, 0.890, 0.625, 0.920, 0.375},
    {0.625, 0.975, 0.6875, 1.010, 0.417}, {0.75, 1.165, 0.8125, 1.200, 0.500},
    {0.875, 1.263, 0.9375, 1.300, 0.583}, {1.0, 1.443, 1.0625, 1.480, 0.666},
    {1.125, 1.610, 1.1875, 1.670, 0.750}, {1.25, 1.785, 1.3125, 1.860, 0.830},
    {1.375, 1.965, 1.4375, 2.050, 0.920}, {1.5, 2.145, 1.5625, 2.220, 1.000}};

std::optional<UsualHead> head_from(std::span<const Row> rows, double diameter, double unit,
                                   const char* source) {
    for (const Row& row : rows) {
        if (std::fabs(row.diameter * unit - diameter) < 1e-6) {
            return UsualHead{
                {row.face * unit, row.hole * unit}, row.across * unit, row.height * unit, source};
        }
    }
    return std::nullopt;
}

std::optional<UsualHead> listed_head(const Thread& thread, Head head) {
    const double d = thread.diameter;
    if (thread.form == Form::metric) {
        return head == Head::hexagon ? head_from(kMetricHex, d, 1e-3,
                                                 "hexagon head of ISO 4014, medium hole of ISO 273")
                                     : head_from(kMetricSocket, d, 1e-3,
                                                 "socket head of ISO 4762, medium hole of ISO 273");
    }
    if (head == Head::socket) return std::nullopt;
    if (thread.form == Form::unified) {
        return head_from(kUnifiedHex, d, kInch,
                         "hexagon head of ASME B18.2.1 (face 0.95 of the flats), normal hole of "
                         "ASME B18.2.8 (sizes from memory)");
    }
    return head_from(kWhitworthHex, d, kInch,
                     "hexagon head of BS 1083 with its washer face, hole 1/16 in over");
}

} // namespace

Head usual_head_kind(const Grade& grade) {
    return std::string_view(grade.standard) == "ASTM A574" ? Head::socket : Head::hexagon;
}

UsualHead usual_head(const Thread& thread, Head head) {
    if (auto listed = listed_head(thread, head)) return *listed;
    const double d = thread.diameter;
    if (head == Head::socket) {
        return {{1.5 * d, 1.1 * d},
                1.5 * d,
                d,
                "socket head of 1.5 diameters, one diameter high, ASME B18.3 (from memory); hole "
                "1.1 diameters"};
    }
    return {{1.43 * d, 1.1 * d},
            1.43 * d / kFaceOfFlats,
            0.65 * d,
            "no standard head held for this size: face 1.43 diameters, hole 1.1, height 0.65"};
}

} // namespace fettle::torque
