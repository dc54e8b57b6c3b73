#include "ui/beside/torch_work.h"

#include "desk/places.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fettle::ui {
namespace {

using relief::Grid;
using relief::Relief;
using relief::View;

constexpr int kMostSide = 1600; // of what is drawn while the pointer moves

// Slopes are rises a pixel and stay; heights are counted in pixels and shrink.
Relief shrunk_by(const Relief& relief, int by) {
    Relief small;
    small.right = relief::shrunk(relief.right, by);
    small.down = relief::shrunk(relief.down, by);
    small.albedo = relief::shrunk(relief.albedo, by);
    small.height = relief::shrunk(relief.height, by);
    for (float& sample : small.height.samples)
        sample /= float(by);
    return small;
}

Result<desk::TorchSet> worked_out(const desk::TorchWish& wish) {
    photos::Decoder decoder(desk::decode_program());
    return desk::work_torch_set(decoder, wish);
}

Result<TorchDone> done_of(const Notebook& book, const TorchAsk& ask, desk::TorchSet set) {
    TorchDone done;
    done.recipe = ask.recipe;
    done.recipe.ball = set.ball;
    auto millimetres =
        desk::millimetres_a_pixel(book, ask.recipe.photos.front(), ask.recipe.region);
    if (!millimetres) return millimetres.failure();
    done.millimetres = *millimetres;
    done.by = relief::divisor_for(set.relief.right, kMostSide);
    auto whole = std::make_shared<const Relief>(std::move(set.relief));
    done.small = done.by == 1 ? whole : std::make_shared<const Relief>(shrunk_by(*whole, done.by));
    done.relief = std::move(whole);
    return done;
}

TorchDrawn drawn(const TorchDone& done, const View& view) {
    View shrunk = view;
    shrunk.radius = std::max(relief::kLeastAround, view.radius / done.by);
    TorchDrawn made{view, relief::picture_of(*done.small, shrunk)};
    if (auto& scale = made.seen.scale) {
        scale->black *= done.by;
        scale->white *= done.by;
        if (done.millimetres) {
            scale->black_mm = scale->black * *done.millimetres;
            scale->white_mm = scale->white * *done.millimetres;
        }
    }
    return made;
}

Grid grid_of(const relief::GreyPicture& picture) {
    Grid grid(picture.width, picture.height);
    std::ranges::copy(picture.samples, grid.samples.begin());
    return grid;
}

relief::GreyPicture picture_of(const Grid& grid) {
    relief::GreyPicture picture{grid.width, grid.height, {}};
    for (const float sample : grid.samples)
        picture.samples.push_back(std::uint8_t(std::lround(std::clamp(sample, 0.0F, 255.0F))));
    return picture;
}

// What of a set is compared: its heights, and a picture as it was kept.
struct ToCompare {
    Grid height;
    relief::GreyPicture picture;
};
Result<ToCompare> to_compare(const Notebook& book, const desk::TorchRecipe& recipe,
                             const relief::Work& work) {
    auto wish = desk::torch_wish(book, recipe);
    if (!wish) return wish.failure();
    wish->work = work;
    auto set = worked_out(*wish);
    if (!set) return set.failure();
    Relief& relief = set->relief;
    // Settled by eye where lights are not known: stamped letters must go the same way in both.
    View view = recipe.view;
    if (std::exchange(view.turned_over, false)) {
        relief::turn_over(relief);
        view.lean_right = -view.lean_right;
        view.lean_down = -view.lean_down;
    }
    auto picture = relief::picture_of(relief, view).picture;
    return ToCompare{std::move(relief.height), std::move(picture)};
}

Result<TorchCompared> compared(const Notebook& book, const desk::TorchRecipe& one,
                               const desk::TorchRecipe& other, const relief::Work& work) {
    auto first = to_compare(book, one, work);
    if (!first) return first.failure();
    auto second = to_compare(book, other, work);
    if (!second) return second.failure();
    const int least = std::min(
        {first->height.width, first->height.height, second->height.width, second->height.height});
    relief::CompareWish wish;
    wish.radius = std::min(one.view.radius, least / 3.0);
    auto alike = relief::alike(first->height, second->height, wish, work);
    if (!alike) return alike.failure();
    Grid still = grid_of(first->picture);
    Grid laid = relief::posed(grid_of(second->picture), alike->pose, still.width, still.height);
    const int by = relief::divisor_for(still, kMostSide);
    if (by > 1) {
        still = relief::shrunk(still, by);
        laid = relief::shrunk(laid, by);
    }
    return TorchCompared{*alike, picture_of(still), picture_of(laid)};
}

} // namespace

TorchWork::TorchWork(const std::function<void()>& wake)
    : working_(wake), keeping_(wake), comparing_(wake), side_(wake) {}

void TorchWork::work_out(const Notebook& book, const TorchAsk& ask) {
    if (running()) return;
    working_.begin([&book, ask](const auto& stop, const auto& progress) -> Result<TorchDone> {
        auto wish = desk::torch_wish(book, ask.recipe);
        if (!wish) return wish.failure();
        if (ask.seek_ball) wish->lamps = desk::Lamps::ball_sought;
        wish->work = {.stop = stop, .progress = progress};
        auto set = worked_out(*wish);
        if (!set) return set.failure();
        return done_of(book, ask, *std::move(set));
    });
}

void TorchWork::keep(Notebook& book, const std::shared_ptr<std::mutex>& taking_in,
                     const TorchDone& done, const View& view, const Mark& mark) {
    if (running()) return;
    auto recipe = done.recipe;
    recipe.view = view;
    keeping_.begin([&book, taking_in, mark, recipe, relief = done.relief](
                       const auto& stop, const auto&) -> Result<desk::TorchKept> {
        auto picture = relief::picture_of(*relief, recipe.view).picture;
        const std::scoped_lock one_at_a_time(*taking_in);
        return desk::keep_torch_mark(book, {mark, recipe, std::move(picture), stop});
    });
}

void TorchWork::compare(const Notebook& book, const desk::TorchRecipe& one,
                        const desk::TorchRecipe& other) {
    if (running()) return;
    comparing_.begin(
        [&book, one, other](const auto& stop, const auto& progress) -> Result<TorchCompared> {
            return compared(book, one, other, {.stop = stop, .progress = progress});
        });
}

void TorchWork::draw(const TorchDone& done, const View& view) {
    side_.ask<TorchDrawn>(drawn_, [done, view] { return drawn(done, view); });
}

bool TorchWork::running() const {
    return working_.running() || keeping_.running() || comparing_.running();
}

std::string TorchWork::doing() const {
    if (keeping_.running()) return "keeping the picture";
    if (comparing_.running()) return comparing_.words("comparing: step", "beginning to compare");
    return working_.words("torch set: step", "beginning the torch set");
}

double TorchWork::share() const {
    return comparing_.running() ? comparing_.share() : working_.share();
}

void TorchWork::stop() {
    working_.stop();
    keeping_.stop();
    comparing_.stop();
}

} // namespace fettle::ui
