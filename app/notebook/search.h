// One search over parts, tasks, entries, marks, photos and positions.
#pragma once

#include "notebook/notebook.h"

#include <vector>

namespace fettle {

enum class FoundKind { part = 1, task, entry, mark, photo, position };
std::string_view word(FoundKind kind);

struct Found {
    FoundKind kind = FoundKind::part;
    std::int64_t id = 0; // of the record of that kind
    std::string title;   // "H7 spring hanger"
    std::string excerpt; // the words around the find
};

// Records that hold every word (the last may be cut short), the best first. Blank words find
// nothing.
Result<std::vector<Found>> find(const Notebook& notebook, std::string_view words, int most = 50);

} // namespace fettle
