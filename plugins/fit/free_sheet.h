// The sheet fit.free in words: what heat frees a seized part or lets a new one be seated, what that
// heat does to temper, coating and whatever is near, and in what order to go about it. SI units.
#pragma once

#include "fit/materials.h"

namespace fettle::fit {

inline constexpr const char* kSeat = "seat a new part";
inline constexpr std::array<const char*, 3> kJobs = {"free a seized pin or bush",
                                                     "draw off a pressed part", kSeat};

inline constexpr std::array<const char*, 2> kHeatings = {"outer part, quickly",
                                                         "both together, slowly"};

// A part's hardness may forbid heat whatever its material.
struct Temper {
    const char* name;
    double limit; // K; 0: no heat at all; -1: the material's own
    const char* why;
};
inline constexpr std::array<Temper, 7> kTempers = {
    {{"soft", -1, ""},
     {"hardened, temper known", -1, ""},
     {"hardened, temper unknown", 150 + kFreezing,
      "a hard part of unknown temper may have been tempered no hotter"},
     {"spring", 0, "a spring loses its set and its strength, and under load it can fly"},
     {"hardened pin or stud", 0, "a hardened pin or stud goes soft and shears in service"},
     {"bearing or seal in it", 100 + kFreezing, "seals, grease and bearing rings bear no more"},
     {"white metal in it", 100 + kFreezing, "white metal softens and runs"}}};

struct Coating {
    const char* name;
    bool forbids; // must come off before any heat
    const char* caution;
};
inline constexpr std::array<Coating, 7> kCoatings = {
    {{"bare or rusty", false, ""},
     {"oil or grease", false,
      "Oil and grease smoke and burn: clean with a rag and degreaser, let it dry well away from "
      "the flame, extinguisher at hand."},
     {"old paint", true,
      "Paint of that age holds lead: burnt, it is poisonous fume and dust. Strip it wet or "
      "chemically a hand's breadth around, with a mask, before any flame."},
     {"zinc or galvanised", true,
      "Zinc fumes (metal fume fever) from about 400 °C: strip it where the heat goes, work in the "
      "open, upwind, with a mask for metal fume."},
     {"cadmium", true,
      "Cadmium fume kills, hours later and without warning smell. Never heat cadmium plating: have "
      "it stripped by a plater first."},
     {"chromate or chrome", true,
      "Chromate films and hot chrome give off hexavalent chromium, which causes cancer: strip "
      "before any heat."},
     {"not known", true,
      "Silvery or yellowish plating may be cadmium: never heat what you do not know. Find out or "
      "have it stripped first."}}};

struct Nearby {
    const char* name;
    bool forbids;
    const char* caution;
};
inline constexpr std::array<Nearby, 6> kNearby = {
    {{"nothing that burns", false, ""},
     {"rubber, wood, wiring", false,
      "Shield rubber, wood and wiring with wet rags and a plate, or take them off; look again "
      "after an hour. Burnt fluoroelastomer seals leave an acid that eats flesh: never touch "
      "them."},
     {"petrol tank or line", true,
      "Petrol vapour finds a flame at many metres. Take tank and lines out of the building and "
      "clear the air first."},
     {"brake or hydraulic line", true,
      "A closed line bursts and its fluid burns; some fluids give poison gas. Drain, open and take "
      "it off first."},
     {"closed hollow part", true,
      "A closed hollow part bursts like a shell when it is heated. Drill or open a vent first."},
     {"tyre on the wheel", true,
      "A tyre on a heated rim can explode, even minutes later and even let down. Take it off "
      "first."}}};

struct FreeTyped {
    std::string job; // blank: free a seized part
    std::optional<double> diameter;
    std::optional<double> interference; // blank: half a thousandth of the diameter, as for rust
    std::optional<double> room;
    std::string heating;       // blank: outer part, quickly
    std::optional<double> lag; // share of the rise the inner part takes; blank: 0.3
    MaterialTyped outer;
    MaterialTyped inner;
    std::string outer_temper; // blank: soft
    std::string inner_temper;
    std::optional<double> tempered_at; // K, with "hardened, temper known"
    std::string coating;
    std::string nearby;
};

struct FreeAnswer {
    std::optional<double> temperature; // nothing when no heat opens the fit
    std::optional<double> rise;
    double heat_limit;       // of the weaker part, the outer part's temperature
    double opening_at_limit; // negative: it grips harder
    std::string colour;
    std::string verdict;
    Account account;
    Picture picture;
};

Outcome<FreeAnswer> work_free(const FreeTyped& typed);

} // namespace fettle::fit
