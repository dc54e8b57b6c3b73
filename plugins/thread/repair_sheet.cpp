#include "thread/repair_sheet.h"

#include "screw_threads/words.h"

#include <cmath>

namespace fettle::thread {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Note;
using plugin::Outcome;
using plugin::Refusal;
using screw::both_forces;
using screw::both_lengths;
using screw::mm;
using screw::percent;

// ---- What was typed

Outcome<Hole> read_hole(const RepairTyped& typed) {
    const auto read = read_joined(typed.joined);
    if (const auto* refusal = std::get_if<Refusal>(&read)) return *refusal;
    Hole hole{std::get<Joined>(read),
              *typed.length,
              0,
              *typed.edge,
              typed.drills.empty() ? "all" : typed.drills,
              typed.share,
              typed.way == kBush ? typed.bush_od : std::nullopt};
    const screw::Thread& thread = hole.joined.thread;
    hole.hole_now = typed.hole_now.value_or(thread.diameter);
    if (hole.hole_now < screw::core_diameter(thread) || hole.hole_now > 2 * thread.diameter) {
        return Refusal{"hole_now",
                       line("hole_now: ", mm(hole.hole_now), " cannot be the torn hole of ",
                            thread.name, "; accepted is from its root at ",
                            mm(screw::core_diameter(thread)), " to twice its diameter.")};
    }
    if (hole.edge <= hole.hole_now / 2) {
        return Refusal{"edge", line("edge: ", mm(hole.edge),
                                    " from the middle lies inside the "
                                    "hole of ",
                                    mm(hole.hole_now), "; accepted is more than ",
                                    mm(hole.hole_now / 2), ".")};
    }
    if (hole.bush_od && *hole.bush_od < thread.diameter + 2 * thread.pitch) {
        return Refusal{"bush_od",
                       line("bush_od: ", mm(*hole.bush_od), " leaves no wall round ", thread.name,
                            "; accepted is from ", mm(thread.diameter + 2 * thread.pitch), ".")};
    }
    return hole;
}

// ---- Judging one way; the worst first

std::vector<Note> wall_notes(const Hole& hole, const Way& way) {
    const double walls = way.wall / way.bolt.diameter;
    const double least = least_wall(hole.joined.into);
    const std::string said = line("wall outside the thread ", both_lengths(std::abs(way.wall)),
                                  ", ", figure(std::abs(walls), 2), " of the bolt's diameter");
    if (way.wall <= 0) {
        return {{FETTLE_STOP,
                 line("The tap breaks through the edge by ", both_lengths(std::abs(way.wall)),
                      ". Weld up the boss, make a new part, or take a way that needs "
                      "less metal.")}};
    }
    if (walls < least) {
        return {{FETTLE_STOP, line("Wall too thin: ", said, "; at least ", figure(least, 2),
                                   " is wanted in ", hole.joined.into.name,
                                   " (common practice, no source). The boss splits as the bolt is "
                                   "tightened.")}};
    }
    if (walls < kGoodWall) {
        return {{FETTLE_CAUTION, line("Little metal: ", said,
                                      "; half is good practice. Tighten "
                                      "with care and look for cracks.")}};
    }
    return {};
}

std::vector<Note> strength_notes(const Hole& hole, const Way& way) {
    std::vector<Note> notes;
    if (way.share < kLeastShare) {
        notes.push_back({FETTLE_STOP, line("Too little thread: only ", percent(way.share),
                                           " of the full thread is "
                                           "left at the torn hole; at least ",
                                           percent(kLeastShare), " is wanted.")});
    } else if (way.share < kGoodShare) {
        notes.push_back({FETTLE_CAUTION, line("Shallow thread: ", percent(way.share),
                                              " of the full thread is left; ", percent(kGoodShare),
                                              " and more is usual.")});
    }
    if (hole.length < way.needed) {
        notes.push_back(
            {FETTLE_STOP,
             line("Engagement too short: ", both_lengths(hole.length), " is there, ",
                  both_lengths(way.needed), " is needed for ", way.bolt.name,
                  ". It strips again at ", both_forces(way.strip), " before the bolt breaks.")});
    }
    if (way.ring > 0 && way.ring < kLeastRing * way.bolt.diameter) {
        notes.push_back({FETTLE_STOP, line("The bush's own wall is only ", both_lengths(way.ring),
                                           " between its threads; at least ",
                                           both_lengths(kLeastRing * way.bolt.diameter),
                                           " is wanted (common practice, no source).")});
    }
    return notes;
}

std::vector<Note> judged(const Hole& hole, const Way& way) {
    std::vector<Note> notes = wall_notes(hole, way);
    const auto others = strength_notes(hole, way);
    notes.insert(notes.end(), others.begin(), others.end());
    return notes;
}

std::string verdict(const std::vector<Note>& notes) {
    const Note* worst = nullptr;
    for (const Note& note : notes) {
        if (worst == nullptr || note.level > worst->level) worst = &note;
    }
    if (worst == nullptr) return "holds";
    const std::string first = worst->text.substr(0, worst->text.find_first_of(":;"));
    return line(worst->level == FETTLE_STOP ? "no: " : "with care: ", first);
}

WayRow row(const Way& way, const std::vector<Note>& notes) {
    return {way.name,       way.tapped.name,    way.drills ? way.drill.name : "as torn",
            verdict(notes), way.drill.diameter, way.share,
            way.wall,       way.strip,          way.needed};
}

// ---- Words

void write_working(const Hole& hole, const Way& way, RepairAnswer& answer) {
    auto& working = answer.account.working;
    const screw::Thread& tapped = way.tapped;
    const double k = screw::full_depth(tapped.form);
    if (way.name == kInsert) {
        working.push_back(
            line("insert tap: major = D + ", figure(k, 5), " P = ", mm(way.bolt.diameter), " + ",
                 figure(k, 5), " x ", mm(way.bolt.pitch), " = ", both_lengths(tapped.diameter),
                 "; bore at least ", mm(screw::nut_minor_diameter(tapped)),
                 way.bolt.form == screw::Form::metric ? " (DIN 8140, from memory)"
                                                      : " (rule of DIN 8140, from memory)"));
    }
    working.push_back(line(
        "drill ", way.drill.name, ", ", both_lengths(way.drill.diameter),
        way.drills ? ""
                   : line(", but the hole is torn to ", both_lengths(hole.hole_now), " already")));
    working.push_back(line("share of full thread = (", mm(tapped.diameter), " - ",
                           mm(std::max(way.drill.diameter, hole.hole_now)), ")/(", figure(k, 5),
                           " x ", mm(tapped.pitch), ") = ", percent(way.share)));
    working.push_back(line("wall = edge - half of what is tapped = ", mm(hole.edge), " - ",
                           mm(tapped.diameter), "/2 = ", mm(way.wall, 3)));
    if (way.ring > 0)
        working.push_back(line("bush's wall between its threads = ", both_lengths(way.ring)));
    working.push_back(line("sound, the old thread stripped at ", both_forces(answer.strip_before),
                           "; mended, the weakest thread strips at ", both_forces(way.strip),
                           " over ", both_lengths(hole.length), " (FED-STD-H28/2)"));
    working.push_back(line("needed = length x break/strip = ", mm(hole.length), " x ",
                           screw::kn(answer.bolt_breaks), "/", screw::kn(way.strip), " = ",
                           both_lengths(way.needed)));
}

void note_way(const Way& way, RepairAnswer& answer) {
    auto& notes = answer.account.notes;
    if (way.name == kInsert) {
        if (way.bolt.form != screw::Form::metric && way.bolt.form != screw::Form::unified) {
            notes.push_back({FETTLE_INFO,
                             "No standard for inserts of this form is held here: the drill and tap "
                             "that come with the insert decide."});
        }
        notes.push_back({FETTLE_INFO, "An ordinary tap will not do: the insert's own tap is "
                                      "larger. Break off the tang, and keep the insert a quarter "
                                      "to half a turn below the face."});
    } else if (way.name == kNext) {
        notes.push_back({FETTLE_CAUTION,
                         line("The bolt becomes ", way.bolt.name,
                              ": its clearance hole, spanner "
                              "and torque change with it, and its mates should not differ. Mark "
                              "the place in the log.")});
    } else if (way.name == kBush) {
        notes.push_back({FETTLE_INFO, "Lock the bush with a pin or retaining compound, and face it "
                                      "flush; reckoned for a bush of mild steel."});
    } else {
        notes.push_back({FETTLE_INFO, "Tapping again only helps where good thread is left below "
                                      "or between; run the tap through by hand and feel."});
    }
}

} // namespace

Outcome<RepairAnswer> work_repair(const RepairTyped& typed) {
    const auto read = read_hole(typed);
    if (const auto* refusal = std::get_if<Refusal>(&read)) return *refusal;
    const Hole& hole = std::get<Hole>(read);
    const std::string chosen = typed.way.empty() ? kInsert : typed.way;
    const auto way = work_way(hole, chosen);
    if (!way) {
        return Refusal{"way",
                       line("way: \"", chosen, "\" cannot be done for ", hole.joined.thread.name,
                            " in a hole torn to ", mm(hole.hole_now),
                            "; no metal or no such thread is left, so "
                            "choose another way.")};
    }
    RepairAnswer answer;
    account_for(hole.joined, answer.account);
    answer.drill = way->drill.diameter;
    answer.drill_name = way->drills ? way->drill.name : "none, the hole is larger already";
    answer.share = way->share;
    answer.tap = way->tapped.name;
    answer.tap_major = way->tapped.diameter;
    answer.thread_after = way->bolt.name;
    answer.wall = way->wall;
    answer.needed = way->needed;
    answer.strip = way->strip;
    answer.strip_before = sound_strip_load(hole);
    answer.bolt_breaks = breaking_load(way->bolt, hole.joined.bolt_tensile);
    write_working(hole, *way, answer);
    answer.account.notes = judged(hole, *way);
    note_way(*way, answer);
    for (const char* each : kWays) {
        const auto other = work_way(hole, each);
        if (other) answer.ways.push_back(row(*other, judged(hole, *other)));
    }
    draw_repair(hole, *way, answer);
    return answer;
}

} // namespace fettle::thread
