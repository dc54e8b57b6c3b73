// What the run files of this room share: runs as they are stored, and photos going in and out.
#pragma once

#include "notebook/runs.h"

namespace fettle {

struct StoredRun {
    RunId id;
    PartId part;
    std::string tag;
    RunState state = RunState::proposed;
    Stage stage = Stage::during;
};

Result<StoredRun> stored_run(store::Database& database, RunId id);

// Ties a photo to the run's part and remembers that the run did; a tie made by hand stays as it is.
void tie_within(store::Database& database, const StoredRun& run, PhotoId photo);
void untie_within(store::Database& database, const StoredRun& run, PhotoId photo);

// Puts a photo into the run, out of any other; ties follow when the runs are accepted.
void join_run(store::Database& database, const StoredRun& run, PhotoId photo);
// Takes it out for good: it is not proposed again.
void leave_run(store::Database& database, const StoredRun& run, PhotoId photo);

// Whether the photo shows the tag of the part.
bool shows_tag_of(store::Database& database, PhotoId photo, PartId part);

} // namespace fettle
