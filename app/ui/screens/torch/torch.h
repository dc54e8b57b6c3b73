// A torch set on the screen of marks: choosing its photos, circling the stamping and the ball,
// looking at the relief under a torch that follows the pointer, keeping the view with a mark, and
// comparing it with another. All by keys alone as well. UI thread only.
#pragma once

#include "notebook/photos.h"
#include "ui/beside/snapshot.h"
#include "ui/beside/torch_work.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/frame/textures.h"
#include "ui/pictures/photo_view.h"
#include "ui/screens/marks/mark_reading.h"
#include "ui/screens/marks/mark_shown.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace fettle::ui {

// Photos to choose among: what may be a set, the likeliest first.
struct TorchChoice {
    Snapshot<std::vector<std::vector<Photo>>> suggested;
    std::vector<PhotoId> left_out;
    Clipped lines;
};

// The first photo, on which the region and the ball are drawn.
struct TorchSetUp {
    enum Ball { sought, circled, none };
    std::vector<Photo> photos;
    Region region{}; // empty: not drawn yet
    int ball = sought;
    relief::Ball circle{}; // where circled; no radius: not drawn yet
    bool still = false;
    PhotoView view;
    bool fitted = true;
    bool draws_ball = false;           // the next drag does; else the region
    std::optional<PicturePoint> began; // where the drag under way did
    bool takes_keyboard = false;
};

// The relief as it is looked at.
struct TorchSeen {
    std::optional<TorchDone> done;
    relief::View view;
    std::optional<relief::View> asked; // what was last asked to be drawn
    std::optional<TorchDrawn> drawn;   // without its samples
    Texture texture;
    bool takes_keyboard = false, keys_moving = false;
    Mark mark; // that it is kept with, or was made again from; no id: none yet
    Snapshot<bool, std::int64_t> mark_there; // it may be taken back
    std::optional<MarkReading> reading;
};

struct TorchComparing {
    Snapshot<std::vector<MarkShown>> marks; // with a torch set
    Mark one, other;
    std::optional<relief::Alike> alike;
    Texture shown_one, shown_other;
    double edge = 0.5; // left of it the one, right of it the other
    Clipped lines;
};

struct TorchState {
    enum class Step { closed, choosing, setting_up, seeing, choosing_other, compared };

    Surface surface = Surface::none;
    std::function<void()> wake = {};

    Step step = Step::closed;
    bool help = false;
    std::string trouble;                               // of what was tried last, a sentence
    bool from_photos = false;                          // the photos were chosen there
    std::optional<std::vector<PhotoId>> wanted_photos; // to be set up
    MarkId wanted_mark{};                              // whose set is to be made again
    MarkId wanted_comparing{};                         // with which another is to be compared
    TorchChoice choice;
    TorchSetUp set_up;
    TorchSeen seen;
    TorchComparing comparing;
    std::unique_ptr<TorchWork> work; // from when it is first needed

    TorchWork& worker();
    bool running() const { return work && work->running(); }
};

// In the place of the marks while it is not closed.
void draw_torch(Page& page, Context& context, TorchState& state);

// Opens it: with the photos of a place, or the set of its mark made again; else to choose.
void lead_to(TorchState& state, const Place& place);
// To choose another mark to compare this one with.
void compare_torch(TorchState& state, MarkId mark);

} // namespace fettle::ui
