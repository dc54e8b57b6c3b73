#include "ui/screens/torch/torch.h"

#include "notebook/marks.h"
#include "ui/frame/input_queue.h"
#include "ui/screens/torch/torch_steps.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <utility>

namespace fettle::ui {
namespace {

using Step = TorchState::Step;

bool went_well(TorchState& state, bool ok, const Failure* failure) {
    state.trouble = ok || failure->kind == FailureKind::cancelled ? "" : failure->sentence;
    return ok;
}

template <class T>
bool went_well(TorchState& state, const Result<T>& result) {
    return went_well(state, result.ok(), result ? nullptr : &result.failure());
}

void begin_with(Context& context, TorchState& state, const std::vector<PhotoId>& ids) {
    std::vector<Photo> photos;
    for (const PhotoId id : ids) {
        auto photo = photo_by_id(context.book, id);
        if (!went_well(state, photo)) return;
        photos.push_back(*std::move(photo));
    }
    set_up_torch(state, std::move(photos));
}

// The set up of a kept mark, and at once its relief.
void make_again(Context& context, TorchState& state, MarkId id) {
    state.step = Step::choosing;
    auto mark = mark_by_id(context.book, id);
    if (!went_well(state, mark)) return;
    auto recipe = desk::torch_recipe_of(*mark);
    if (!went_well(state, recipe) || !*recipe) return;
    begin_with(context, state, (*recipe)->photos);
    if (state.step != Step::setting_up) return;
    TorchSetUp& set_up = state.set_up;
    const auto& [x, y, width, height] = (*recipe)->region;
    set_up.region = {x, y, width, height};
    set_up.still = (*recipe)->still;
    set_up.ball = (*recipe)->ball ? TorchSetUp::circled : TorchSetUp::none;
    set_up.circle = (*recipe)->ball.value_or(relief::Ball{});
    state.seen.mark = *mark;
    state.seen.view = (*recipe)->view;
    state.worker().work_out(context.book, {**recipe});
}

void take_finished(TorchState& state) {
    if (!state.work) return;
    if (auto done = state.work->take_done(); done && went_well(state, *done))
        see_torch(state, **std::move(done));
    if (auto kept = state.work->take_kept(); kept && went_well(state, *kept)) {
        state.seen.mark = (*kept)->mark;
        state.seen.done->recipe.picture = (*kept)->picture;
    }
    if (auto compared = state.work->take_compared(); compared && went_well(state, *compared)) {
        state.comparing.alike = (*compared)->alike;
        state.comparing.shown_one = grey_texture(state.surface, (*compared)->one);
        state.comparing.shown_other = grey_texture(state.surface, (*compared)->other);
        state.step = Step::compared;
    }
}

void take_wishes(Context& context, TorchState& state) {
    if (state.running()) return;
    if (auto photos = std::exchange(state.wanted_photos, std::nullopt)) {
        state.from_photos = true;
        begin_with(context, state, *photos);
    }
    if (const MarkId mark = std::exchange(state.wanted_mark, MarkId{}))
        make_again(context, state, mark);
    if (const MarkId one = std::exchange(state.wanted_comparing, MarkId{})) {
        auto mark = mark_by_id(context.book, one);
        state.step = went_well(state, mark) ? Step::choosing_other : Step::closed;
        if (mark) state.comparing.one = *mark;
    }
}

void say_work(Page& page, TorchState& state) {
    if (!state.trouble.empty()) notice(page, "torch.trouble", Tell::stop, state.trouble);
    if (!state.running()) return;
    const std::string doing = state.work->doing();
    const bool asked = progress(page, "torch.work", {doing, state.work->share()});
    if (asked || pressed({.key = static_cast<int>(Key::del)})) state.work->stop();
    page.reg.note_key("Del", "stop working it out");
}

} // namespace

TorchWork& TorchState::worker() {
    if (!work) work = std::make_unique<TorchWork>(wake);
    return *work;
}

void draw_torch(Page& page, Context& context, TorchState& state) {
    take_finished(state);
    take_wishes(context, state);
    if (state.help) return draw_torch_help(page, state);
    switch (state.step) {
    case Step::closed:
        break;
    case Step::choosing:
        heading(page, "Torch set");
        say_work(page, state);
        draw_torch_choice(page, context, state);
        break;
    case Step::setting_up:
        say_work(page, state);
        draw_torch_set_up(page, context, state);
        break;
    case Step::seeing:
        say_work(page, state);
        draw_torch_seen(page, context, state);
        break;
    case Step::choosing_other:
        heading(page, "Compare with another torch set");
        say_work(page, state);
        draw_torch_others(page, context, state);
        break;
    case Step::compared:
        draw_torch_compared(page, context, state);
        break;
    }
}

void lead_to(TorchState& state, const Place& place) {
    state.trouble.clear();
    state.help = false;
    if (!place.photos.empty()) {
        state.step = Step::choosing;
        state.wanted_photos = place.photos;
    } else if (place.record != 0) {
        state.step = Step::choosing;
        state.wanted_mark = MarkId{place.record};
    } else if (state.step == Step::closed) {
        state.step = Step::choosing;
    }
}

void compare_torch(TorchState& state, MarkId mark) {
    state.trouble.clear();
    state.step = Step::choosing_other;
    state.wanted_comparing = mark;
}

void torch_help_act(Page& page, Flow& flow, TorchState& state) {
    const ButtonLook look{.weight = Weight::quiet, .key_hint = "H"};
    flow.place_button("how to take a set", look);
    if (button(page, "torch.help", "how to take a set", look) || pressed({.key = 'H'}))
        state.help = true;
}

bool torch_back_act(Page& page, Flow& flow, std::string_view label) {
    const ButtonLook look{.weight = Weight::quiet, .key_hint = "Esc"};
    flow.place_button(label, look);
    return button(page, "torch.back", label, look) ||
           pressed({.key = static_cast<int>(Key::escape)});
}

Rect torch_area(const Page& page, float strip) {
    const ImVec2 at = ImGui::GetCursorScreenPos(), room = ImGui::GetContentRegionAvail();
    return {at.x, at.y, at.x + room.x, at.y + std::max(page.px(80), room.y - page.px(strip))};
}

Texture grey_texture(Surface surface, const relief::GreyPicture& picture) {
    std::vector<std::uint8_t> rgba;
    rgba.reserve(picture.samples.size() * 4);
    for (const std::uint8_t shade : picture.samples)
        rgba.insert(rgba.end(), {shade, shade, shade, 255});
    return {surface, picture.width, picture.height, rgba};
}

} // namespace fettle::ui
