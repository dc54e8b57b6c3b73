// Parts: physical pieces and bagged lots, known by the code on their tag.
#pragma once

#include "base/date.h"
#include "notebook/money.h"
#include "notebook/notebook.h"
#include "notebook/words.h"

#include <vector>

namespace fettle {

struct Part {
    PartId id;
    std::string tag; // unique, any case
    std::string name;
    PositionId position; // intended for
    VehicleId vehicle;   // held for
    Origin origin = Origin::unknown;
    Condition condition = Condition::as_found;
    Decision decision = Decision::undecided;
    std::string maker;
    std::string place; // where it is kept
    std::string from;  // the contact it came from
    std::optional<Money> cost;
    int quantity = 1; // pieces in a bagged lot
    std::optional<Day> acquired;
    std::string note;
    std::string position_name;   // read only, for showing
    int used = 0;                // pieces of the lot that are in their place already
    PartId within{};             // the assembly it is a piece of
    std::string within_tag;      // read only
    std::optional<Day> split_on; // read only: an assembly that lies in its pieces, since when
    int left() const { return quantity - used; }
};

struct PartFilter {
    std::string words;     // every one of them in tag, name, maker or place
    PositionId position{}; // only parts intended for it
    PartId within{};       // only pieces of this assembly
};

// Adds a part; a blank tag is given the next free code. Refused: blank name, tag in use or with
// characters other than letters, digits and `-`.
Result<Part> add_part(Notebook& notebook, Part part);
// Overwrites every field of the part with that id, but what is read only. Refused besides: fewer
// pieces than are used or away, a piece of itself, or of an assembly that is not split.
Done set_part(Notebook& notebook, const Part& part);
// Sets one field by its name (tag, name, position, vehicle, origin, condition, decision, maker,
// place, from, cost, quantity, used, within, acquired, note) from typed text.
Result<Part> set_part_field(Notebook& notebook, const std::string& tag, const std::string& field,
                            const std::string& text);
Result<Part> part_tagged(const Notebook& notebook, const std::string& tag);
Result<Part> part_by_id(const Notebook& notebook, PartId id);
Result<std::vector<Part>> list_parts(const Notebook& notebook, const PartFilter& filter = {});

// Changes the part held in memory as set_part_field does; for forms and for adding.
Done put_part_field(const Notebook& notebook, Part& part, const std::string& field,
                    const std::string& text);

} // namespace fettle
