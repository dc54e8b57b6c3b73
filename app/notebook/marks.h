// Marks: stampings, casting and inspection marks read from a region of a photo.
#pragma once

#include "notebook/notebook.h"
#include "notebook/words.h"

#include <vector>

namespace fettle {

struct Region { // pixels of the upright picture, from its top left corner
    int x = 0, y = 0, w = 0, h = 0;
    bool operator==(const Region&) const = default;
};

struct Mark {
    MarkId id;
    PhotoId photo;
    Region region;
    std::string reading; // as it stands on the metal
    std::string maker;   // by name; blank when unknown
    Sureness sure = Sureness::likely;
    PartId part{};
    std::string seen_with; // how it was made legible, a JSON object; blank: as the picture is
};

struct MarkFilter {
    PhotoId photo{};
    PartId part{};
};

// "x,y,w,h" in whole pixels.
Result<Region> parse_region(std::string_view text);

// Adds the mark, or overwrites the one with its id. Refused: a blank reading, a region that is
// empty or leaves the picture, a `seen_with` that is no JSON object. With no part given, a photo
// tied to exactly one part gives its part.
Result<MarkId> keep_mark(Notebook& notebook, Mark mark);
Done remove_mark(Notebook& notebook, MarkId id);
Result<Mark> mark_by_id(const Notebook& notebook, MarkId id);
Result<std::vector<Mark>> list_marks(const Notebook& notebook, const MarkFilter& filter = {});

} // namespace fettle
