// Ties: which photo shows which part, task or entry, and at what stage.
#pragma once

#include "notebook/notebook.h"
#include "notebook/words.h"

#include <variant>
#include <vector>

namespace fettle {

using TieTarget = std::variant<PartId, TaskId, EntryId>;

struct Tie {
    PhotoId photo;
    TieTarget to;
    Stage stage = Stage::during;
    std::string name; // what it is tied to, as a person would say it: "H7 spring hanger"
};

struct Target {
    TieTarget to;
    std::string name; // as of a tie
    bool operator==(const Target&) const = default;
};

// Ties all photos in one act; one tied there already only changes its stage. Fails with not_found
// for a photo or target that isn't there. `words` names the act; when blank it is made up.
Done tie_photos(Notebook& notebook, const std::vector<PhotoId>& photos, TieTarget to, Stage stage,
                const std::string& words = {});
Done untie_photos(Notebook& notebook, const std::vector<PhotoId>& photos, TieTarget from);
// In the order in which they were tied.
Result<std::vector<Tie>> ties_of_photo(const Notebook& notebook, PhotoId photo);
Result<std::vector<Tie>> ties_of_photos(const Notebook& notebook,
                                        const std::vector<PhotoId>& photos);
// In the order of the photos' time.
Result<std::vector<Tie>> ties_to(const Notebook& notebook, TieTarget to);

// What photos were tied to last, the latest first, each once.
Result<std::vector<Target>> recent_targets(const Notebook& notebook, int most);

} // namespace fettle
