#include "thread/engagement_sheet.h"

#include "screw_threads/words.h"
#include "thread/profile.h"

#include <algorithm>

namespace fettle::thread {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;
using screw::both_forces;
using screw::both_lengths;
using screw::mm;
using screw::ThreadLimits;

// The limits of the standard, or what was measured where that is worse.
Outcome<ThreadLimits> worn_limits(const EngagementTyped& typed, const screw::Thread& thread,
                                  plugin::Account& account) {
    ThreadLimits limits = screw::limits_of(thread);
    account.working.push_back(line(limits.source, ": bolt's least outside ", mm(limits.bolt_major),
                                   ", hole's greatest bore ", mm(limits.nut_minor)));
    if (typed.bolt_major) {
        if (*typed.bolt_major > 1.02 * thread.diameter) {
            return Refusal{"bolt_major",
                           line("bolt_major: ", mm(*typed.bolt_major), " is larger than ",
                                thread.name, " of ", mm(thread.diameter),
                                "; accepted is up to 2 % more, "
                                "or it is another thread.")};
        }
        limits.bolt_major = std::min(limits.bolt_major, *typed.bolt_major);
        account.working.push_back(line("bolt measures ", mm(*typed.bolt_major), "; reckoned with ",
                                       mm(limits.bolt_major)));
    }
    if (typed.hole_minor) {
        limits.nut_minor = std::max(limits.nut_minor, *typed.hole_minor);
        account.working.push_back(line("hole measures ", mm(*typed.hole_minor), "; reckoned with ",
                                       mm(limits.nut_minor)));
    }
    if (limits.nut_minor >= limits.bolt_major) {
        return Refusal{typed.hole_minor ? "hole_minor" : "bolt_major",
                       line(typed.hole_minor ? "hole_minor" : "bolt_major", ": a bolt of ",
                            mm(limits.bolt_major), " slides through a hole of ",
                            mm(limits.nut_minor),
                            "; no thread is engaged, so measure again or "
                            "repair it (thread.repair).")};
    }
    return limits;
}

void judge(const Joined& joined, const EngagementTyped& typed, EngagementAnswer& answer) {
    auto& notes = answer.account.notes;
    const double d = joined.thread.diameter;
    if (!typed.have) {
        notes.push_back({FETTLE_INFO, line("Screw in at least ", both_lengths(answer.needed),
                                           " of full thread; type what is there and it is "
                                           "compared.")});
        return;
    }
    if (*typed.have < answer.needed) {
        notes.push_back(
            {FETTLE_STOP, line("Engagement too short: ", both_lengths(*typed.have), " is there, ",
                               both_lengths(answer.needed), " is needed. The thread strips at ",
                               both_forces(*answer.strip_load), ", the bolt would hold ",
                               both_forces(answer.bolt_breaks),
                               ". A longer bolt, or an insert (thread.repair), is called for.")});
    } else if (*typed.have > 2.5 * d && answer.needed < 2 * d) {
        notes.push_back({FETTLE_INFO, "More than two and a half diameters add little: the first "
                                      "turns carry most of the load whatever follows."});
    }
}

void fill_materials(const Joined& joined, const ThreadLimits& limits, EngagementAnswer& answer) {
    for (const screw::PartMaterial& material : screw::kPartMaterials) {
        const double tensile = material.tensile > 0 ? material.tensile : joined.bolt_tensile;
        const double needed =
            screw::needed_engagement(joined.thread, limits, joined.bolt_tensile, tensile).needed;
        answer.materials.push_back(
            {material.name, tensile, needed, needed / joined.thread.diameter});
    }
}

void draw(const Joined& joined, const ThreadLimits& limits, std::optional<double> have,
          EngagementAnswer& answer) {
    const double length = have.value_or(answer.needed);
    const double to = 1.2 * std::max(length, answer.needed);
    const double at_end =
        screw::strip_load(joined.thread, limits, to, joined.bolt_tensile, joined.into_tensile);
    answer.load.traces.push_back({"thread strips", FETTLE_LINE, {{0, 0}, {to, at_end}}});
    answer.load.traces.push_back(
        {"bolt breaks", FETTLE_DASHED, {{0, answer.bolt_breaks}, {to, answer.bolt_breaks}}});
    if (have)
        answer.load.traces.push_back({"what is there", FETTLE_DOTS, {{*have, *answer.strip_load}}});
    const double outside = joined.thread.diameter;
    for (const double side : {outside, -outside}) {
        answer.section.traces.push_back({side > 0 ? joined.into.name : "", FETTLE_BODY,
                                         tapped_half(joined.thread, length, side)});
    }
    const double edge = 0.62 * outside;
    answer.section.traces.push_back(
        {"needed", FETTLE_DASHED, {{answer.needed, -edge}, {answer.needed, edge}}});
    answer.section.labels.push_back({{0, 0}, joined.thread.name});
}

} // namespace

Outcome<EngagementAnswer> work_engagement(const EngagementTyped& typed) {
    const auto read = read_joined(typed.joined);
    if (const auto* refusal = std::get_if<Refusal>(&read)) return *refusal;
    const Joined& joined = std::get<Joined>(read);
    EngagementAnswer answer;
    account_for(joined, answer.account);
    const auto worn = worn_limits(typed, joined.thread, answer.account);
    if (const auto* refusal = std::get_if<Refusal>(&worn)) return *refusal;
    const ThreadLimits& limits = std::get<ThreadLimits>(worn);
    const screw::Engagement found =
        screw::needed_engagement(joined.thread, limits, joined.bolt_tensile, joined.into_tensile);
    answer.needed = found.needed;
    answer.diameters = found.needed / joined.thread.diameter;
    answer.turns = found.needed / joined.thread.pitch;
    answer.bolt_breaks = breaking_load(joined.thread, joined.bolt_tensile);
    auto& working = answer.account.working;
    working.push_back(line("shear area of each millimetre engaged: bolt ",
                           screw::mm2(bolt_strip_area(joined.thread, limits, 1e-3)), ", part ",
                           screw::mm2(nut_strip_area(joined.thread, limits, 1e-3))));
    working.push_back(
        line("Le = 2 x stress area / bolt's shear area = ", mm(found.by_bolt, 3),
             "; J = shear area x strength of bolt over part = ", figure(found.ratio, 3),
             found.ratio > 1 ? ", so J Le = " : ", so Le = ", both_lengths(found.needed), " = ",
             figure(answer.diameters, 2), " diameters = ", figure(answer.turns, 2), " turns"));
    if (typed.have) {
        answer.strip_load = screw::strip_load(joined.thread, limits, *typed.have,
                                              joined.bolt_tensile, joined.into_tensile);
        answer.reserve = *answer.strip_load / answer.bolt_breaks;
        working.push_back(line("strip_load with ", both_lengths(*typed.have),
                               " engaged = ", both_forces(*answer.strip_load), ", ",
                               screw::percent(*answer.reserve), " of what breaks the bolt"));
    }
    fill_materials(joined, limits, answer);
    judge(joined, typed, answer);
    draw(joined, limits, typed.have, answer);
    return answer;
}

} // namespace fettle::thread
