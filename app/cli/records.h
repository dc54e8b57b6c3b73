// Records of the notebook as JSON. Ids stand under the word of what they name ("photo": 3,
// "entry": 12); parts are named by their tag and positions by their number in the parts list, as
// the next command takes them. What is not known is null for numbers and dates, "" for texts.
#pragma once

#include "cli/print.h"
#include "notebook/entries.h"
#include "notebook/marks.h"
#include "notebook/money.h"
#include "notebook/parts.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "notebook/ties.h"
#include "notebook/vehicles.h"

#include <map>

namespace fettle::cli {

// The names by which ids are shown.
struct Names {
    std::map<PartId, std::string> tags;
    std::map<PositionId, std::string> positions; // numbers
    std::map<VehicleId, std::string> vehicles;

    std::string tag(PartId part) const { return of(tags, part); }
    std::string position(PositionId id) const { return of(positions, id); }
    std::string vehicle(VehicleId id) const { return of(vehicles, id); }

  private:
    template <class Key>
    static std::string of(const std::map<Key, std::string>& names, Key id) {
        auto found = names.find(id);
        return found == names.end() ? std::string() : found->second;
    }
};
Result<Names> names_in(const Notebook& notebook);

// Fields as the verbs' help texts document them.
Json by_currency(const Purse& purse); // {"GBP": 1250}, in minor units
Json to_json(const Part& part, const Names& names);
Json to_json(const PositionFill& fill, const Names& names);
Json to_json(const TaskStanding& standing, const Names& names);
Json json_of(const Wait& wait, const Names& names);
Json to_json(const Entry& entry, const Names& names);
Json to_json(const Mark& mark, const Names& names);
Json to_json(const Notebook& notebook, const Photo& photo, const std::vector<Tie>& ties,
             const Names& names);

// {"photo", "taken", "name", "stage"} of each photo tied to something.
Result<Json> tied_photos(const Notebook& notebook, const std::vector<Tie>& ties);

// What a tie leads to, short: "H7 spring hanger", "task 3", "entry 12".
std::string in_short(const Tie& tie);
std::string in_words(const Region& region);           // "420,310,180,90"
std::string hours_words(std::optional<double> hours); // "1.5 h"; blank for none

} // namespace fettle::cli
