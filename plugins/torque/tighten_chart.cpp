// The two pictures of torque.tighten.
#include "screw_threads/words.h"
#include "torque/tighten_job.h"

#include <algorithm>
#include <cmath>

namespace fettle::torque {
namespace {

using plugin::line;

std::vector<fettle_point> box(double x0, double x1, double y0, double y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}};
}

void add_both_sides(Picture& picture, const std::string& name, double x0, double x1, double inner,
                    double outer) {
    picture.traces.push_back({name, FETTLE_BODY, box(x0, x1, inner, outer)});
    picture.traces.push_back({"", FETTLE_BODY, box(x0, x1, -outer, -inner)});
}

} // namespace

Picture bolt_drawing(const Job& job, const TightenAnswer& answer) {
    const Joint& joint = job.joint;
    const double d = job.thread.diameter;
    const double grip = joint.grip.value_or(1.5 * d);
    const double have = joint.have.value_or(answer.engagement);
    const double depth = std::max(have, answer.engagement);
    const double outer = std::max(job.head.across, job.head.seat.hole) * 0.75;
    Picture picture{"bolt", {}, {}};
    picture.traces.push_back(
        {job.thread.name, FETTLE_BODY,
         bolt_outline({job.thread, job.head.across, job.head.height, std::min(joint.shank, grip),
                       grip + have + job.thread.pitch})});
    add_both_sides(picture, "Clamped parts", 0, grip, job.head.seat.hole / 2, outer);
    add_both_sides(picture, joint.into.name, grip, grip + depth, nut_minor_diameter(job.thread) / 2,
                   outer);
    const double needed = grip + answer.engagement;
    picture.traces.push_back({line("needed ", both_lengths(answer.engagement)),
                              FETTLE_DASHED,
                              {{needed, -outer}, {needed, outer}}});
    picture.labels.push_back(
        {{-job.head.height, outer}, line(job.thread.name, ", ", job.grade.name)});
    if (!joint.grip) picture.labels.push_back({{0, -outer}, "clamped thickness assumed"});
    if (joint.have)
        picture.labels.push_back({{grip + have, -outer}, line("there: ", both_lengths(have))});
    return picture;
}

Picture preload_chart(const Job& job, const TightenAnswer& answer) {
    const double from = job.prevailing;
    const double to = 1.25 * answer.torque;
    const double stretch = (to - from) / (answer.torque - from);
    const double top = answer.preload_max * stretch;
    Picture picture{"preload", {}, {}};
    picture.traces.push_back(
        {"scatter",
         FETTLE_BODY,
         {{from, 0}, {to, top}, {to, answer.preload_min * stretch}, {from, 0}}});
    picture.traces.push_back(
        {"as reckoned", FETTLE_LINE, {{from, 0}, {to, answer.preload * stretch}}});
    const double yield = job.grade.yield * answer.stress_area;
    picture.traces.push_back(
        {"proof load", FETTLE_DASHED, {{0, answer.proof_load}, {to, answer.proof_load}}});
    if (yield > answer.proof_load)
        picture.traces.push_back({"yield", FETTLE_DASHED, {{0, yield}, {to, yield}}});
    picture.traces.push_back(
        {"this torque",
         FETTLE_LINE,
         {{answer.torque, answer.preload_min}, {answer.torque, answer.preload_max}}});
    picture.traces.push_back({"", FETTLE_DOTS, {{answer.torque, answer.preload}}});
    picture.labels.push_back(
        {{answer.torque, answer.preload},
         line(nm(answer.torque), ": ", kn(answer.preload_min), " to ", kn(answer.preload_max))});
    return picture;
}

} // namespace fettle::torque
