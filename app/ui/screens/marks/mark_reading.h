// The line where a mark is read: what stands on the metal, whose it is, how sure. It opens when a
// box has been drawn round a stamping, or for a mark that was read before.
#pragma once

#include "notebook/marks.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/widgets/find_as_you_type.h"

#include <functional>
#include <string>
#include <vector>

namespace fettle::ui {

// What a person is in the middle of.
struct MarkReading {
    Mark mark; // of the photo, with the region; the id of one that is being changed
    FindLine maker;
    std::string error;
    bool take_focus = true;
    std::function<Done(Context&, const Mark&)> keeps; // instead of keep_mark()
    Snapshot<std::vector<Candidate>> makers;
    Snapshot<std::string, std::pair<std::string, std::string>> seen; // where else, in words

    static MarkReading of(const Mark& mark);
};

enum class ReadingEnd { goes_on, kept, left };

// Enter keeps the mark, Esc leaves it; a mark read before can be removed.
ReadingEnd read_mark(Page& page, Context& context, MarkReading& reading);

} // namespace fettle::ui
