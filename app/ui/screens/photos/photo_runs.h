// Tag runs on the screen of photos: how many wait for a yes, the head and the bracket of each, and
// the keys and edges by which one is accepted, dismissed, or made longer and shorter. UI thread
// only; what is done is done by notebook/runs.h.
#pragma once

#include "notebook/runs.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"

#include <optional>

namespace fettle::ui {

struct PhotosState;
struct PhotoList;
struct PhotoLine;

// What a person is in the middle of.
struct RunsState {
    RunId at{};         // the run that keys act on
    PhotoId followed{}; // the photo under the keyboard's frame when `at` was last looked up
    struct Drag {
        RunId run;
        bool first = false; // the first photo's edge, else the last one's
        PhotoId over{};     // the photo under the pointer
    };
    std::optional<Drag> drag;
    Snapshot<TagsWaiting> waiting;
};

// Above the photos: what there is to do about runs, with its keys. Draws nothing where there are no
// tags.
void runs_bar(Page& page, Context& context, PhotosState& state, const PhotoList& list);

// The head of one run, above its photos.
void draw_run_head(Page& page, Context& context, PhotosState& state, const PhotoList& list,
                   const PhotoLine& line);

// Whether a photo is the first, or the last, of the run among those shown.
bool is_edge(const PhotoList& list, const Run& run, PhotoId photo, bool first);

// Width that the bracket and an edge take, before scaling.
inline constexpr float kRunInset = 20, kRunEdge = 12;

// Beside a line of a run's photos: the bracket, and the edge that can be dragged before the first
// or after the last photo of the run.
void draw_bracket(Page& page, const PhotosState& state, const PhotoList& list,
                  const PhotoLine& line);
void draw_edge(Page& page, PhotosState& state, const Run& run, bool first, float tall);

// After each photo drawn: whether an edge is being dragged over it.
void drag_over(Page& page, PhotosState& state, PhotoId photo);
// After all of them: moves the end of the run when the edge was let go.
void finish_drag(Context& context, PhotosState& state);

} // namespace fettle::ui
