#include "shim/mesh.h"

#include <algorithm>
#include <cmath>

namespace fettle::shim {
namespace {

using plugin::Account;
using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kSteepest = 89 * kDegree;

struct Row {
    double from, to;  // diametral pitch
    double low, high; // in
};
constexpr Row kAgma[] = {{2.5, 3, .010, .013}, {3, 3.5, .008, .011}, {3.5, 4, .007, .009},
                         {4, 5, .006, .008},   {5, 6, .005, .007},   {6, 8, .004, .006},
                         {8, 10, .003, .005},  {10, 16, .002, .004}, {16, 20, .001, .003}};

std::optional<Refusal> unfit_angle(const char* field, double angle, double least) {
    if (angle >= least && angle <= kSteepest) return std::nullopt;
    return Refusal{field,
                   line(field, ": ", degrees(angle), "; accepted is ", degrees(least), " to 89°.")};
}

Outcome<double> pitch_angle(const FactorTyped& typed, Account& account) {
    if (typed.ring_teeth.has_value() != typed.pinion_teeth.has_value()) {
        const char* missing = typed.ring_teeth ? "pinion_teeth" : "ring_teeth";
        return Refusal{missing, line(missing, ": blank, while the other gear's teeth are typed; "
                                              "accepted are both or neither.")};
    }
    if (!typed.ring_teeth) {
        const double pitch = typed.pitch.value_or(Mesh{}.pitch);
        account.working.push_back(
            line("pitch angle of the ring gear ", degrees(pitch),
                 typed.pitch ? ", as typed" : ", usual, since none is typed"));
        return pitch;
    }
    const double ring = *typed.ring_teeth;
    const double pinion = *typed.pinion_teeth;
    if (!(pinion >= 3 && ring >= pinion && ring <= 200)) {
        return Refusal{"ring_teeth", line("ring_teeth: ", figure(ring), " to ", figure(pinion),
                                          " on the pinion; accepted are 3 or more on the pinion "
                                          "and from there to 200 on the ring gear.")};
    }
    const double pitch = std::atan2(ring, pinion);
    if (typed.pitch && std::fabs(*typed.pitch - pitch) > kDegree) {
        return Refusal{"pitch_angle",
                       line("pitch_angle: ", degrees(*typed.pitch), " does not fit ", figure(ring),
                            " and ", figure(pinion), " teeth, which make it ", degrees(pitch),
                            "; accepted are the teeth or the angle.")};
    }
    account.working.push_back(line("pitch angle of the ring gear = arctan(", figure(ring), "/",
                                   figure(pinion), ") = ", degrees(pitch)));
    return pitch;
}

Outcome<Mesh> mesh_of(const FactorTyped& typed, Account& account) {
    const auto pitch = pitch_angle(typed, account);
    if (const auto* no = std::get_if<Refusal>(&pitch)) return *no;
    const Mesh mesh{typed.pressure.value_or(Mesh{}.pressure), std::get<double>(pitch),
                    typed.spiral.value_or(0)};
    if (auto no = unfit_angle("pressure_angle", mesh.pressure, kDegree)) return *no;
    if (auto no = unfit_angle("pitch_angle", mesh.pitch, kDegree)) return *no;
    if (auto no = unfit_angle("spiral_angle", mesh.spiral, 0)) return *no;
    return mesh;
}

Outcome<Factor> maker_factor(const FactorTyped& typed, Account& account) {
    if (!typed.maker_figure || !(*typed.maker_figure > 0.01 && *typed.maker_figure < 100)) {
        return Refusal{"maker_figure",
                       line("maker_figure: ",
                            typed.maker_figure ? figure(*typed.maker_figure) : "nothing typed",
                            "; accepted is 0.01 to 100.")};
    }
    const auto pitch = pitch_angle(typed, account);
    if (const auto* no = std::get_if<Refusal>(&pitch)) return *no;
    if (auto no = unfit_angle("pitch_angle", std::get<double>(pitch), kDegree)) return *no;
    const bool by_backlash = typed.maker_says == kMakerSays[1];
    const double ring = by_backlash ? *typed.maker_figure : 1 / *typed.maker_figure;
    account.working.push_back(
        line("maker's own figure: ", by_backlash ? "backlash = " : "shim = ",
             figure(*typed.maker_figure), by_backlash ? " × shim" : " × backlash",
             ", so backlash changes by ", figure(ring, 3), " of what the ring gear moves"));
    Mesh mesh;
    mesh.pitch = std::get<double>(pitch);
    return Factor{ring, pinion_factor(ring, mesh)};
}

} // namespace

double ring_factor(const Mesh& mesh, Reading reading, double radius_ratio) {
    const double square = 2 * std::tan(mesh.pressure) * std::sin(mesh.pitch);
    if (reading == Reading::square) return square;
    const double around = square / std::cos(mesh.spiral);
    return reading == Reading::around ? around : around * radius_ratio;
}

double pinion_factor(double ring_factor, const Mesh& mesh) {
    return ring_factor / std::tan(mesh.pitch);
}

std::optional<Range> usual_backlash(double diametral_pitch) {
    for (const Row& row : kAgma) {
        if (diametral_pitch >= row.from && diametral_pitch <= row.to)
            return Range{row.low * kInch, row.high * kInch};
    }
    return std::nullopt;
}

Outcome<Factor> work_factor(const FactorTyped& typed, Account& account) {
    if (typed.read_how == kReadHow[3]) return maker_factor(typed, account);
    const auto outcome = mesh_of(typed, account);
    if (const auto* no = std::get_if<Refusal>(&outcome)) return *no;
    const Mesh mesh = std::get<Mesh>(outcome);
    Reading reading = Reading::square;
    std::string formula =
        line("2 tan(", degrees(mesh.pressure), ") sin(", degrees(mesh.pitch), ")");
    if (typed.read_how == kReadHow[1] || typed.read_how == kReadHow[2]) {
        reading = Reading::around;
        formula += line(" / cos(", degrees(mesh.spiral), ")");
    }
    double ratio = 1;
    if (typed.read_how == kReadHow[2]) {
        if (auto no = unfit_length("read_radius", typed.read_radius, 0.005, 1)) return *no;
        if (auto no = unfit_length("pitch_radius", typed.pitch_radius, 0.005, 1)) return *no;
        reading = Reading::elsewhere;
        ratio = *typed.read_radius / *typed.pitch_radius;
        formula += line(" × ", both(*typed.read_radius), " / ", both(*typed.pitch_radius));
    }
    const double ring = ring_factor(mesh, reading, ratio);
    const double pinion = pinion_factor(ring, mesh);
    account.working.push_back(
        line("reading of backlash a move of the ring gear = ", formula, " = ", figure(ring, 3)));
    return Factor{ring, pinion};
}

} // namespace fettle::shim
