// The closed table of units: which kinds of quantity there are, which units each takes, and every
// spelling a unit goes by. Internal to base. Constant data; any thread.
//
// A spelling is looked up only among those of the kind at hand: "lb" is a force in a force field
// and a mass in a mass field. What stays ambiguous within a kind (a gallon, a ton) is a question.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace fettle {

struct QuantityKind {
    std::string_view name;  // "spring_rate"
    std::string_view words; // "spring rate"
    std::string_view si;    // UDUNITS text of its SI unit; "" for kinds that take no unit
};

struct UnitSpelling {
    std::string_view kind;
    std::string_view unit;    // canonical: what Measured::unit holds
    std::string_view udunits; // exact definition, as UDUNITS reads it
    std::string_view others;  // further spellings, separated by blanks, as unit_key gives them
};

// A spelling that means two things, or dangerously the wrong one.
struct UnclearSpelling {
    std::string_view kind;
    std::string_view spellings; // as in UnitSpelling::others
    bool exact_case = false;    // "mPa" is unclear, "MPA" is not
    std::string_view question;  // completes: "5 gal" is not clear: ...
};

// Units that may follow one another in one quantity, larger first: 3' 4", 12° 30′, 2 h 15 min.
struct UnitChain {
    std::string_view kind;
    std::string_view units;    // separated by blanks
    std::string_view shown_in; // the one that Measured::unit names
};

std::span<const QuantityKind> quantity_kinds();
std::span<const UnitSpelling> unit_table();
std::span<const UnclearSpelling> unclear_spellings();
std::span<const UnitChain> unit_chains();

// nullptr when there is none of that name.
const QuantityKind* find_kind(std::string_view name);

// A unit as it was typed, brought to the form the table is written in: dots, dashes, underscores,
// stars and blanks between factors all become '.', "per" becomes '/', closing full stops go.
std::string unit_key(std::string_view typed);

struct FoundUnit {
    const UnitSpelling* unit = nullptr; // one of the two, or neither
    const UnclearSpelling* unclear = nullptr;
};

// `typed` in any spelling, canonical ones included. Exact case first, then any case.
FoundUnit find_unit(std::string_view kind, std::string_view typed);

} // namespace fettle
