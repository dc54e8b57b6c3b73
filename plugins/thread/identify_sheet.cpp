#include "thread/identify_sheet.h"

#include "screw_threads/words.h"
#include "thread/drills.h"
#include "thread/identify_picture.h"

#include <algorithm>
#include <cmath>

namespace fettle::thread {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;
using screw::kInch;
using screw::plain_number;
using screw::Thread;

constexpr std::size_t kRowsShown = 8;
constexpr std::size_t kRowsAlways = 4;
constexpr double kFar = 5; // misfit beyond which a row tells nothing

// ---- What was typed

std::optional<Refusal> read_pitch(const IdentifyTyped& typed, Readings& readings) {
    if (typed.tpi && typed.pitch) {
        return Refusal{"pitch", "pitch: the threads to the inch are typed too; type one of both, "
                                "whichever gauge was used."};
    }
    if (!typed.tpi && !typed.pitch) {
        return Refusal{"tpi", "tpi: no pitch is typed; lay a pitch gauge on the thread and type "
                              "the threads to the inch, or the pitch in millimetres."};
    }
    const double pitches = typed.pitch ? typed.pitches.value_or(1) : 1;
    readings.pitch = typed.pitch ? *typed.pitch / pitches : kInch / *typed.tpi;
    // Counted over several, a rule's error shares out among them.
    readings.pitch_doubt = std::max(typed.pitch_doubt.value_or(0.015) / pitches, 0.001);
    return std::nullopt;
}

Outcome<Readings> read(const IdentifyTyped& typed) {
    Readings readings;
    readings.hole = typed.kind == kHole;
    const auto& diameter = readings.hole ? typed.minor : typed.major;
    if (!diameter) {
        if (readings.hole) {
            return Refusal{"minor", "minor: nothing is typed; measure the bore between the crests "
                                    "of the nut or hole with small-bore gauge or vernier jaws."};
        }
        return Refusal{"major", "major: nothing is typed; measure over the crests of the bolt with "
                                "micrometer or vernier."};
    }
    readings.diameter = *diameter;
    if (const auto refusal = read_pitch(typed, readings)) return *refusal;
    if (readings.pitch > readings.diameter) {
        return Refusal{typed.pitch ? "pitch" : "tpi",
                       line(typed.pitch ? "pitch" : "tpi", ": a pitch of ",
                            screw::mm(readings.pitch, 3), " is more than the diameter of ",
                            screw::mm(readings.diameter, 3),
                            "; accepted is a pitch below the diameter.")};
    }
    if (!typed.angle.empty() && typed.angle != kAngleUnknown)
        readings.angle = std::strtod(typed.angle.c_str(), nullptr) * screw::kPi / 180;
    readings.wear = typed.wear.value_or(0.1e-3);
    readings.diameter_doubt = typed.diameter_doubt.value_or(0.05e-3);
    readings.met = typed.met == kAnywhere ? "" : typed.met;
    return readings;
}

// ---- Words about matches

std::string form_of(const Thread& thread) {
    return line(plain_number(2 * screw::flank_angle(thread.form) * 180 / screw::kPi, 3), "°");
}

std::string pitch_in_words(const Match& found) {
    const std::string own = screw::mm(found.known.thread.pitch, 3);
    if (std::abs(found.pitch_off) < 5e-4) return line("its ", own);
    return line(figure(std::abs(found.pitch_off) * 100, 2), " % ",
                found.pitch_off < 0 ? "below" : "above", " its ", own);
}

std::string off_in_words(const Readings& readings, const Match& found) {
    return line(readings.hole ? "bore " : "outside ", screw::mm(std::abs(found.diameter_off), 2),
                " (", screw::inches(std::abs(found.diameter_off), 2), ") ",
                found.diameter_off < 0 ? "below" : "above", " its ", screw::mm(found.basic, 4),
                ", pitch ", pitch_in_words(found));
}

const char* verdict(const Match& found) {
    if (found.misfit <= kFits) return "fits";
    const double flanks_apart = std::hypot(found.by_diameter, found.by_pitch);
    if (flanks_apart <= kFits) return "fits but for its flanks";
    return found.misfit <= kPossible ? "poor fit" : "no";
}

RankedRow row(const Match& found) {
    const Thread& thread = found.known.thread;
    return {thread.name,
            line(verdict(found), "; ", series_words(found.known.series)),
            2 * screw::flank_angle(thread.form),
            thread.diameter,
            thread.pitch,
            kInch / thread.pitch,
            found.diameter_off,
            found.pitch_off,
            found.misfit};
}

void write_working(const Readings& readings, const std::vector<Match>& all, std::size_t count,
                   plugin::Account& account) {
    auto& working = account.working;
    working.push_back(line("measured: ", readings.hole ? "bore " : "outside ",
                           screw::mm(readings.diameter), " (", screw::inches(readings.diameter, 4),
                           "), pitch ", screw::mm(readings.pitch), " = ",
                           figure(kInch / readings.pitch, 3), " to the inch, flanks ",
                           readings.angle ? screw::degrees(*readings.angle) : "not known"));
    working.push_back(line(
        "doubt: diameter ", screw::mm(readings.diameter_doubt, 2), " either way, wear ",
        screw::mm(readings.wear, 2), readings.hole ? " on the larger side" : " on the smaller side",
        " and the tolerance of each thread, pitch ", figure(readings.pitch_doubt * 100, 2),
        " %, flanks ", figure(kAngleDoubt, 2), "°"));
    for (std::size_t i = 0; i < count; ++i) {
        const Match& found = all[i];
        working.push_back(line(
            found.known.thread.name, ": diameter ", screw::mm(std::abs(found.diameter_off), 2), "/",
            screw::mm(found.room, 2), " = ", figure(found.by_diameter, 2), ", pitch ",
            figure(std::abs(found.pitch_off) * 100, 2), "/", figure(readings.pitch_doubt * 100, 2),
            " % = ", figure(found.by_pitch, 2), ", flanks ", figure(found.by_angle, 2),
            "; misfit = root of squares = ", figure(found.misfit, 2)));
    }
}

// ---- Look-alikes

const Match* look_alike_of(const std::vector<Match>& all) {
    for (std::size_t i = 1; i < all.size(); ++i) {
        if (!twins(all[0].known.thread, all[i].known.thread)) return &all[i];
    }
    return nullptr;
}

void note_twins(const std::vector<Match>& all, plugin::Account& account) {
    for (std::size_t i = 1; i < all.size() && all[i].misfit <= kFits; ++i) {
        if (!twins(all[0].known.thread, all[i].known.thread)) continue;
        account.notes.push_back(
            {FETTLE_INFO, line(all[0].known.thread.name, " and ", all[i].known.thread.name,
                               " are one thread under two names: they fit each other.")});
    }
}

// Those that fit as well, or would but for their flanks, must not be screwed together.
void note_look_alikes(const std::vector<Match>& all, plugin::Account& account) {
    constexpr std::size_t kMostNotes = 4;
    const Thread& best = all[0].known.thread;
    std::size_t told = 0;
    for (std::size_t i = 1; i < all.size() && told < kMostNotes; ++i) {
        const Thread& other = all[i].known.thread;
        if (twins(best, other)) continue;
        const bool fits = all[i].misfit <= kFits;
        if (!fits && std::hypot(all[i].by_diameter, all[i].by_pitch) > kFits) continue;
        ++told;
        const std::string apart = told_apart(best, other);
        if (!fits) {
            account.notes.push_back(
                {FETTLE_CAUTION, line(best.name, " and ", other.name,
                                      " look alike and must not be mixed. ", apart)});
            continue;
        }
        const bool harmful =
            best.form != other.form || std::abs(best.pitch / other.pitch - 1) > 1e-6;
        account.notes.push_back(
            {harmful ? FETTLE_STOP : FETTLE_CAUTION,
             line("What was measured fits ", best.name, " and ", other.name,
                  " alike; mixed, they bind or strip. Fit nothing before this is settled: ",
                  apart)});
    }
}

void note_kind(const Match& best, plugin::Account& account) {
    if (best.known.series == std::string_view("NPT")) {
        account.notes.push_back({FETTLE_CAUTION,
                                 "A taper thread: it seals on its flanks and wedges; a parallel "
                                 "one of like size leaks or splits the casting. Measure at both "
                                 "ends to be sure: 1 in 16 on the diameter."});
    } else if (!best.known.fastens) {
        account.notes.push_back(
            {FETTLE_INFO, "A pipe thread, for joining pipes; if the outside tapers by 1 in 16 it "
                          "is the taper form R (BSPT) of the same size and pitch."});
    }
}

void write_found(const IdentifyTyped& typed, const Readings& readings, const Match& best,
                 IdentifyAnswer& answer) {
    const Thread& thread = best.known.thread;
    answer.thread = thread.name;
    answer.major = thread.diameter;
    answer.pitch = thread.pitch;
    answer.why = line(thread.name, ", ", series_words(best.known.series), ": ",
                      off_in_words(readings, best), "; misfit ", figure(best.misfit, 2));
    const Drill drill = tapping_drill(thread, typed.drills.empty() ? "all" : typed.drills);
    answer.tapping_drill = drill.diameter;
    answer.drill_name =
        line(drill.name, ", leaves ", figure(thread_share(thread, drill.diameter) * 100, 2),
             " % of the full thread");
    answer.account.working.push_back(
        line("tapping drill for ", thread.name, ": ", drill.name, "; share of thread = (",
             screw::mm(thread.diameter), " - ", screw::mm(drill.diameter), ")/(",
             figure(screw::full_depth(thread.form), 5), " x ", screw::mm(thread.pitch),
             ") = ", figure(thread_share(thread, drill.diameter) * 100, 2), " %"));
    note_kind(best, answer.account);
}

} // namespace

std::string told_apart(const Thread& a, const Thread& b) {
    std::string how;
    const double flanks = std::abs(screw::flank_angle(a.form) - screw::flank_angle(b.form));
    if (flanks > 0.001) {
        how += line("The flanks tell: ", form_of(a), " on ", a.name, ", ", form_of(b), " on ",
                    b.name, "; hold a gauge leaf of each form against the light. ");
        const bool a_round = screw::crest_radius(a.form) > 0;
        if (a_round != (screw::crest_radius(b.form) > 0)) {
            how += line("Unworn crests are round on ", (a_round ? a : b).name, " and flat on ",
                        (a_round ? b : a).name, ". ");
        }
    }
    const double drift = std::abs(a.pitch - b.pitch);
    if (drift > 1e-9) {
        const int turns = std::clamp(
            static_cast<int>(std::ceil(std::min(a.pitch, b.pitch) / (8 * drift))), 1, 99);
        how += line("The pitch tells: ten turns are ", screw::mm(10 * a.pitch, 4), " on ", a.name,
                    " and ", screw::mm(10 * b.pitch, 4), " on ", b.name,
                    "; a known mate would be an eighth of a turn out after ", std::to_string(turns),
                    turns == 1 ? " turn. " : " turns. ");
    }
    const double wider = std::abs(a.diameter - b.diameter);
    if (wider > 1e-9) {
        how += line("Unworn, the outside of ", (a.diameter > b.diameter ? a : b).name,
                    " is larger by ", screw::mm(wider, 2), " (", screw::inches(wider, 2),
                    "): measure where no nut has run. ");
    }
    if (how.empty()) return "Nothing tells them apart: they are one thread.";
    how.pop_back();
    return how;
}

Outcome<IdentifyAnswer> work_identify(const IdentifyTyped& typed) {
    const auto outcome = read(typed);
    if (const auto* refusal = std::get_if<Refusal>(&outcome)) return *refusal;
    const Readings readings = std::get<Readings>(outcome);
    const std::vector<Match> all = rank(readings);
    IdentifyAnswer answer;
    const Match& best = all[0];
    answer.misfit = best.misfit;
    for (std::size_t i = 0; i < kRowsShown; ++i) {
        if (i < kRowsAlways || all[i].misfit <= kFar) answer.ranked.push_back(row(all[i]));
    }
    write_working(readings, all, 3, answer.account);
    const Match* other = look_alike_of(all);
    if (other != nullptr) {
        answer.look_alike =
            line(other->known.thread.name, ", ", series_words(other->known.series), ": ",
                 off_in_words(readings, *other), "; misfit ", figure(other->misfit, 2));
        answer.told_apart = told_apart(best.known.thread, other->known.thread);
    }
    if (best.misfit > kPossible) {
        answer.account.notes.push_back(
            {FETTLE_STOP, line("No standard thread held here fits: the nearest is ",
                               best.known.thread.name, ", misfit ", figure(best.misfit, 2),
                               ". Measure again where no nut has run; it may be a special, a "
                               "maker's own thread or a two-start one.")});
    } else {
        write_found(typed, readings, best, answer);
        if (best.misfit > kFits) {
            answer.account.notes.push_back(
                {FETTLE_CAUTION, line("A poor fit, misfit ", figure(best.misfit, 2),
                                      ": wear and gauges alone do not explain it. Measure again "
                                      "before anything is fitted.")});
        }
        note_twins(all, answer.account);
        note_look_alikes(all, answer.account);
    }
    draw_identified(readings, all, other, answer);
    return answer;
}

} // namespace fettle::thread
