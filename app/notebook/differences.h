// What both sides changed differently: both values side by side, until the user settles which is to
// be. One of them stands meanwhile, the one written later; neither is lost.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"

#include <vector>

namespace fettle {

enum class DifferenceKind {
    changed,  // one field, two values
    same_tag, // two parts came by one tag: this one got a number to it
    removed,  // removed on one side and changed or spoken of on the other: it was kept
    circle, // together the needs of tasks, or parts within parts, would have gone round in a circle
};

struct OneSide {
    std::string side;  // the machine's name
    Day day{};         // when it was written there
    std::string words; // the value, for a person
    bool stands = false;
};

struct Difference {
    DifferenceId id;
    DifferenceKind kind = DifferenceKind::changed;
    std::string table; // what it is of, and the number of the record; 0: it has none
    std::int64_t record = 0;
    std::string of;     // in words: "H7 spring hanger"
    std::string field;  // in words: "where it is kept"; blank when it is the record as such
    std::string before; // as both last had it, in words; blank: not known
    OneSide here, there;
    bool free_text = false; // another text may be typed
    std::string settled;    // how, in words; blank: not yet
    // A sentence for those that are no choice between two values.
    std::string said() const;
};

// The newest first; those that are settled only when asked for.
Result<std::vector<Difference>> list_differences(const Notebook& notebook,
                                                 bool settled_too = false);
Result<int> count_differences(const Notebook& notebook); // not settled

enum class Settle { here, there, as_it_stands };
// Writes the value into the record. Fails with not_found, or refused where a rule stands against
// it.
Done settle_difference(Notebook& notebook, DifferenceId id, Settle how);
// Writes another text; fails with invalid for a field that holds none.
Done settle_with_text(Notebook& notebook, DifferenceId id, const std::string& text);

} // namespace fettle
