#include "torque/substitute_sheet.h"

#include "screw_threads/designation.h"
#include "screw_threads/words.h"
#include "torque/places.h"

#include <algorithm>

namespace fettle::torque {
namespace {

using plugin::Account;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

// The place of a word in its list; blank is the first.
template <class Kind, std::size_t N>
std::optional<Kind> kind_of(const std::string& typed, const std::array<const char*, N>& names) {
    if (typed.empty()) return static_cast<Kind>(0);
    for (std::size_t i = 0; i < N; ++i) {
        if (typed == names[i]) return static_cast<Kind>(i);
    }
    return std::nullopt;
}

Refusal unknown(const char* field, const std::string& typed) {
    return {field, line(field, ": ", in_quotes(typed), " is none of the words offered.")};
}

// `a` or `b` with the name of a field.
struct Side {
    const char *thread, *grade, *head, *head_od, *shank;
};
constexpr Side kOriginal{"a_thread", "a_grade", "a_head", "a_head_od", "a_shank"};
constexpr Side kOffered{"b_thread", "b_grade", "b_head", "b_head_od", "b_shank"};

Outcome<Fastener> settle_fastener(const FastenerTyped& typed, const Side& side) {
    const auto thread = read_thread(typed.thread, side.thread);
    if (const auto* no = std::get_if<Refusal>(&thread)) return *no;
    const auto grade = grade_for(typed.grade, std::get<Thread>(thread), side.grade);
    if (const auto* no = std::get_if<Refusal>(&grade)) return *no;
    Fastener found{std::get<Thread>(thread), std::get<Grade>(grade), {}, typed.shank, typed.length};
    const auto head = kind_of<Head>(typed.head, kHeadNames);
    if (!head) return unknown(side.head, typed.head);
    found.head =
        usual_head(found.thread, typed.head.empty() ? usual_head_kind(found.grade) : *head);
    if (typed.head_od) {
        if (*typed.head_od <= found.thread.diameter) {
            return Refusal{side.head_od,
                           line(side.head_od, ": ", mm(*typed.head_od),
                                " is no wider than the thread of ", mm(found.thread.diameter),
                                "; accepted is more than that.")};
        }
        // The bearing ring keeps its part of the width, but never less than the thread.
        const double part = found.head.seat.bearing_od / found.head.across;
        found.head.across = *typed.head_od;
        found.head.seat.bearing_od = std::max(part * *typed.head_od, found.thread.diameter);
    }
    found.head.height = typed.head_height.value_or(found.head.height);
    if (typed.shank && typed.length && *typed.shank > *typed.length) {
        return Refusal{side.shank,
                       line(side.shank, ": ", mm(*typed.shank),
                            " of plain shank is more than the length of ", mm(*typed.length), ".")};
    }
    return found;
}

Outcome<Situation> settle_situation(const SubstituteTyped& typed) {
    const auto duty = kind_of<Duty>(typed.duty, kDuties);
    if (!duty) return unknown("job", typed.duty);
    const auto mate = kind_of<Mate>(typed.mate, kMates);
    if (!mate) return unknown("mating", typed.mate);
    const auto finish = kind_of<Finish>(typed.finish, kFinishes);
    if (!finish) return unknown("b_finish", typed.finish);
    const auto locking = kind_of<Locking>(typed.locking, kLockings);
    if (!locking) return unknown("locking", typed.locking);
    const auto bears_on = part_material(typed.bears_on.empty() ? kBearsOn[0] : typed.bears_on);
    if (!bears_on) return unknown("bears_on", typed.bears_on);
    const auto into = part_material(typed.into.empty() ? kBearsOn[0] : typed.into);
    if (!into) return unknown("into", typed.into);
    return Situation{*duty,           *mate,           *finish,
                     *locking,        *into,           typed.into_strength.value_or(into->tensile),
                     *bears_on,       typed.grip,      typed.head_room,
                     typed.seat_hole, typed.seat_depth};
}

void tell_fastener(const char* whose, const Fastener& fastener, Account& account) {
    account.working.push_back(
        line(whose, ": ", fastener.thread.name, ", ", grade_words(fastener.grade), ", stress area ",
             both_areas(stress_area(fastener.thread)), ", tensile ",
             both_stresses(fastener.grade.tensile), ", proof ", both_stresses(fastener.grade.proof),
             ", head ", both_lengths(fastener.head.across), " wide and ",
             both_lengths(fastener.head.height), " high (", fastener.head.source, ")"));
    if (!speaks_of(fastener.grade, fastener.thread.form)) {
        account.notes.push_back(
            {FETTLE_CAUTION, line(whose, ": ", fastener.grade.standard, " does not speak of ",
                                  form_name(fastener.thread.form),
                                  " threads; its strengths hold only if it is truly of that "
                                  "steel.")});
    }
}

void tell_findings(SubstituteAnswer& answer) {
    for (const Finding& found : answer.findings) {
        answer.account.working.push_back(line(found.measure, ": ", found.original,
                                              found.original.empty() ? "" : " against ",
                                              found.offered, ": ", found.word));
    }
}

// Verdict, reasons, and which of the measures are worse.
void give_verdict(SubstituteAnswer& answer) {
    std::string against;
    std::string conditions;
    for (const Finding& found : answer.findings) {
        if (found.worse) answer.worse += line(answer.worse.empty() ? "" : ", ", found.measure);
        const std::string item = line(found.measure, ": ", found.reason);
        if (found.weight == Weight::against) against += line(against.empty() ? "" : " ", item);
        if (found.weight == Weight::condition)
            conditions += line(conditions.empty() ? "" : " ", item);
        if (found.weight == Weight::worth_knowing)
            answer.account.notes.push_back({FETTLE_INFO, found.reason});
    }
    if (answer.worse.empty()) answer.worse = "nothing";
    auto& notes = answer.account.notes;
    if (!against.empty()) {
        answer.verdict = "not fit";
        answer.because = against;
        notes.push_back({FETTLE_STOP, line("Not a fit replacement. ", against)});
        if (!conditions.empty()) notes.push_back({FETTLE_CAUTION, line("Besides: ", conditions)});
    } else if (!conditions.empty()) {
        answer.verdict = "fit with conditions";
        answer.because = conditions;
        notes.push_back({FETTLE_CAUTION, line("Fit only if: ", conditions)});
    } else {
        answer.verdict = "fit";
        answer.because = "In every measure compared it is as good as the original or better.";
    }
}

// Both to scale, the original above.
Picture both_bolts(const Fastener& a, const Fastener& b, const Situation& at) {
    Picture picture{"side_by_side", {}, {}};
    const double apart = 0.75 * (a.head.across + b.head.across);
    const double grip = at.grip.value_or(3 * a.thread.diameter);
    double axis = apart;
    for (const Fastener* fastener : {&a, &b}) {
        const double length = fastener->length.value_or(grip + 1.5 * fastener->thread.diameter);
        // Unknown, the original's shank is drawn as it is reckoned: through the joint.
        const double assumed = fastener == &a ? grip - a.thread.pitch : 0;
        const double plain = std::clamp(fastener->shank.value_or(assumed), 0.0, length);
        const std::string name =
            line(fastener == &a ? "original: " : "offered: ", fastener->thread.name, ", ",
                 fastener->grade.name);
        picture.traces.push_back({name, FETTLE_BODY,
                                  bolt_outline({fastener->thread, fastener->head.across,
                                                fastener->head.height, plain, length},
                                               axis)});
        picture.labels.push_back({{0, axis + fastener->head.across / 2}, name});
        axis -= apart;
    }
    picture.traces.push_back({at.grip ? "clamped to here" : "clamped to here, assumed",
                              FETTLE_DASHED,
                              {{grip, -apart / 2}, {grip, 1.5 * apart}}});
    return picture;
}

} // namespace

Outcome<SubstituteAnswer> work_substitute(const SubstituteTyped& typed) {
    const auto original = settle_fastener(typed.original, kOriginal);
    if (const auto* no = std::get_if<Refusal>(&original)) return *no;
    const auto offered = settle_fastener(typed.offered, kOffered);
    if (const auto* no = std::get_if<Refusal>(&offered)) return *no;
    const auto situation = settle_situation(typed);
    if (const auto* no = std::get_if<Refusal>(&situation)) return *no;
    const auto& a = std::get<Fastener>(original);
    const auto& b = std::get<Fastener>(offered);
    const auto& at = std::get<Situation>(situation);
    SubstituteAnswer answer{};
    answer.thread = b.thread.name;
    answer.grade = b.grade.name;
    answer.ratios = ratios(a, b, at);
    answer.findings = compare(a, b, at);
    tell_fastener("original", a, answer.account);
    tell_fastener("offered", b, answer.account);
    tell_findings(answer);
    give_verdict(answer);
    if (at.duty == Duty::centre) {
        answer.account.notes.push_back(
            {FETTLE_CAUTION, "Undoing a centre bolt lets the leaves spring apart: clamp the pack "
                             "with two stout clamps, one each side of the bolt, stand out of the "
                             "line of the leaves, and ease the clamps off evenly. A spring under "
                             "load can kill."});
    }
    const std::string caution = place_caution(typed.place);
    if (!caution.empty()) answer.account.notes.push_back({FETTLE_CAUTION, caution});
    answer.picture = both_bolts(a, b, at);
    return answer;
}

} // namespace fettle::torque
