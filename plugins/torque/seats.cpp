#include "torque/seats.h"

#include <cmath>

namespace fettle::torque {
namespace {

constexpr double kInch = 0.0254;
// Part of the width across flats that bears, when the standard gives no washer face.
// Common practice, no source.
constexpr double kFaceOfFlats = 0.95;

struct Row {
    double diameter, face, hole; // mm for metric; inches, with flats for face, otherwise
};

// Face: least washer face dw of ISO 4014, product grade A. Hole: ISO 273, medium series. Both
// written down from memory; M6 to M16 agree with the torques of VDI 2230 (tests/plugins).
constexpr Row kMetric[] = {{3, 4.57, 3.4},    {4, 5.88, 4.5},  {5, 6.88, 5.5},    {6, 8.88, 6.6},
                           {8, 11.63, 9},     {10, 14.63, 11}, {12, 16.63, 13.5}, {14, 19.64, 15.5},
                           {16, 22.49, 17.5}, {18, 25.34, 20}, {20, 28.19, 22},   {22, 31.71, 24},
                           {24, 33.61, 26},   {27, 38, 30},    {30, 42.75, 33},   {36, 51.11, 39}};

// Flats: ASME B18.2.1 hexagon cap screws. Hole: ASME B18.2.8, normal fit. Both from memory.
constexpr Row kUnified[] = {{0.25, 0.4375, 0.28125},  {0.3125, 0.5, 0.34375},
                            {0.375, 0.5625, 0.40625}, {0.4375, 0.625, 0.46875},
                            {0.5, 0.75, 0.5625},      {0.5625, 0.8125, 0.625},
                            {0.625, 0.9375, 0.6875},  {0.75, 1.125, 0.8125},
                            {0.875, 1.3125, 0.9375},  {1.0, 1.5, 1.09375}};

// Flats: BS 1083, greatest. Hole: a sixteenth over, common practice, no source.
constexpr Row kWhitworth[] = {
    {0.25, 0.445, 0.3125},  {0.3125, 0.525, 0.375}, {0.375, 0.600, 0.4375}, {0.4375, 0.710, 0.5},
    {0.5, 0.820, 0.5625},   {0.5625, 0.920, 0.625}, {0.625, 1.010, 0.6875}, {0.75, 1.200, 0.8125},
    {0.875, 1.300, 0.9375}, {1.0, 1.480, 1.0625}};

template <std::size_t N>
std::optional<Seat> seat_from(const Row (&rows)[N], double diameter, double unit, double face) {
    for (const Row& row : rows) {
        if (std::fabs(row.diameter * unit - diameter) < 1e-6) {
            return Seat{row.face * unit * face, row.hole * unit};
        }
    }
    return std::nullopt;
}

} // namespace

UsualSeat usual_seat(const Thread& thread, const Grade& grade) {
    const double d = thread.diameter;
    if (std::string_view(grade.standard) == "ASTM A574") {
        return {{1.5 * d, 1.1 * d},
                "socket head of 1.5 diameters, ASME B18.3 (from memory); hole 1.1 diameters"};
    }
    std::optional<Seat> seat;
    const char* source = "";
    if (thread.form == Form::metric) {
        seat = seat_from(kMetric, d, 1e-3, 1.0);
        source = "hexagon head of ISO 4014, medium hole of ISO 273 (sizes from memory)";
    } else if (thread.form == Form::unified) {
        seat = seat_from(kUnified, d, kInch, kFaceOfFlats);
        source = "hexagon head of ASME B18.2.1 (face 0.95 of the flats), normal hole of ASME "
                 "B18.2.8 (sizes from memory)";
    } else if (thread.form == Form::whitworth) {
        seat = seat_from(kWhitworth, d, kInch, kFaceOfFlats);
        source = "hexagon head of BS 1083 (face 0.95 of the flats), hole 1/16 in over";
    }
    if (seat) return {*seat, source};
    return {{1.43 * d, 1.1 * d}, "no standard head held for this size: 1.43 diameters, hole 1.1"};
}

std::optional<Surface> surface_named(std::string_view name) {
    for (const Surface& surface : kSurfaces) {
        if (name == surface.name) return surface;
    }
    return std::nullopt;
}

} // namespace fettle::torque
