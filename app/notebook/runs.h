// Tag runs: a photo that shows a tag is tied to its part, and the photos its camera took after it
// are held to show the same part, until the next tag or a pause. A run is proposed, and becomes
// ties when it is accepted; its ends can be moved, before and after. All of it can be undone.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"
#include "notebook/words.h"

#include <chrono>
#include <string>
#include <vector>

namespace fettle {

struct RunPhoto {
    PhotoId photo;
    bool shows_tag = false; // the run's own; such a photo cannot leave the run
};

struct Run {
    RunId id;
    PartId part;
    std::string tag;
    std::string part_name;
    RunState state = RunState::proposed;
    Stage stage = Stage::during;  // of an accepted run's ties
    std::vector<RunPhoto> photos; // in the order of their time, at least one
    std::optional<Moment> from, to;

    // Photos that wait for a yes: those that do not show the tag themselves.
    int to_confirm() const;
};

inline constexpr std::chrono::minutes kUsualPause{10};

// What take-in read in a photo. A tag that no part has yet is kept for later.
Done note_tags(Notebook& notebook, PhotoId photo, const std::vector<std::string>& tags,
               Step step = {});

struct Proposal {
    int tied_by_tag = 0;                   // photos
    int proposed = 0;                      // photos added to runs, those that show the tag left out
    std::vector<std::string> without_part; // tags that were read and are on no part
};

// Ties photos that show a tag to its part, and proposes runs for photos that are in none and tied
// to no part. A photo that shows several tags is tied to each of their parts and ends a run without
// starting one. May be called at any time: what was decided stays.
Result<Proposal> propose_runs(Notebook& notebook, std::chrono::minutes pause = kUsualPause,
                              Step step = {});

// What tags wait for: photos that show the tag of a part made since they were taken in (for them
// propose_runs is to be called again), and tags that are on no part.
struct TagsWaiting {
    int photos = 0;
    std::vector<std::string> without_part;
};
Result<TagsWaiting> tags_waiting(const Notebook& notebook);

// Runs in that state, by time; of the proposed ones those where something is to be confirmed.
Result<std::vector<Run>> list_runs(const Notebook& notebook, RunState state);
Result<Run> run_by_id(const Notebook& notebook, RunId id);

// Ties the run's photos to its part. Refused for a run that is accepted or dismissed.
Done accept_run(Notebook& notebook, RunId id, Stage stage = Stage::during, Step step = {});
// Takes the run's ties back, except where the tag itself shows, and proposes it no more.
Done dismiss_run(Notebook& notebook, RunId id);

// Moves one end of a run to a photo of the same camera. Photos that come in leave the run they were
// in; photos that fall out go to the run next to them when that follows without a pause, else to
// none. Ties of accepted runs follow. Refused: past a photo that shows another run's tag, and
// leaving out one that shows the run's own.
Done move_run_start(Notebook& notebook, RunId id, PhotoId first);
Done move_run_end(Notebook& notebook, RunId id, PhotoId last);

} // namespace fettle
