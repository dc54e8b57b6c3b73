// One search over everything the notebook holds, narrowed by kind, day, part and maker.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"

#include <array>
#include <optional>
#include <vector>

namespace fettle {

enum class FoundKind {
    part = 1,
    task,
    entry,
    mark,
    photo,
    position,
    consignment,
    measurement,
    cost,
    contact,
    result // a worked one
};
inline constexpr std::array kFoundKinds = {
    FoundKind::part,  FoundKind::task,     FoundKind::entry,       FoundKind::mark,
    FoundKind::photo, FoundKind::position, FoundKind::consignment, FoundKind::measurement,
    FoundKind::cost,  FoundKind::contact,  FoundKind::result};
std::string_view word(FoundKind kind);
Result<FoundKind> found_kind(std::string_view text);

struct Found {
    FoundKind kind = FoundKind::part;
    std::int64_t id = 0; // of the record of that kind
    std::string title;   // "H7 spring hanger"
    std::string excerpt; // the words around the find
    // Of which it is shown: the part of a measurement, the entry of a worked result; else its id.
    std::int64_t within = 0;
    std::optional<Day> day; // see FindFilter
};

// What is found must pass all that is set.
//   day: of an entry, measurement, cost, photo (a mark: of its photo), worked result (of its
//     entry); the day a part was acquired, a task done, a consignment sent or, not sent yet, due.
//     What has no day is left out when either end is set; both ends count in.
//   part: the part itself, and what names, shows, holds or needs it: entries, marks, photos,
//     consignments, measurements, costs, worked results of entries naming it, its position, tasks
//     that need that position or that its entries name, the contact it came from.
//   maker: the same for any part made by them or with a mark of theirs; marks and photos of marks.
struct FindFilter {
    std::string words;
    std::optional<FoundKind> kind;
    std::optional<Day> from, to;
    PartId part{};
    MakerId maker{};

    bool narrows() const { return kind || from || to || part || maker; }
    bool operator==(const FindFilter&) const = default;
};

// Records that hold every word (the last may be cut short), the best first. With blank words what
// passes the filter, the newest first; without a filter either nothing.
// Refused: a first day after the last.
Result<std::vector<Found>> find(const Notebook& notebook, const FindFilter& filter, int most = 50);
Result<std::vector<Found>> find(const Notebook& notebook, std::string_view words, int most = 50);

} // namespace fettle
