#include "base/text.h"
#include "notebook/torch_bursts.h"
#include "ui/frame/input_queue.h"
#include "ui/pictures/photo_row.h"
#include "ui/screens/torch/torch_steps.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kThumb = 84; // height, before scaling
constexpr float kLine = 200; // about as tall as a suggested set is
constexpr std::size_t kMostShown = 40;

Result<std::vector<std::vector<Photo>>> read_suggested(const Notebook& book) {
    auto photos = list_photos(book);
    if (!photos) return photos.failure();
    auto found = torch_bursts(*photos);
    if (found.size() > kMostShown) found.resize(kMostShown);
    return found;
}

bool is_left_out(const TorchChoice& choice, PhotoId id) {
    return std::ranges::find(choice.left_out, id) != choice.left_out.end();
}

void draw_set(Page& page, Context& context, TorchState& state, const std::vector<Photo>& photos,
              std::size_t number) {
    TorchChoice& choice = state.choice;
    const std::string key = "torch.set." + std::to_string(number);
    std::vector<Photo> taken;
    std::vector<RowPhoto> shown;
    for (const Photo& photo : photos) {
        const bool in = !is_left_out(choice, photo.id);
        if (in) taken.push_back(photo);
        shown.push_back({photo, in ? time_of(photo) : "left out", in});
    }
    gap(page, Measure::kGap);
    const std::string said =
        std::to_string(taken.size()) + " photos, " + to_words(*photos[0].taken);
    words(page, said);
    note(page, key + ".said", "photos", said);
    if (const auto touched = photo_row(page, key, context.pixels, shown, kThumb))
        is_left_out(choice, *touched) ? void(std::erase(choice.left_out, *touched))
                                      : choice.left_out.push_back(*touched);
    const ButtonLook look{.weight = number == 0 ? Weight::next : Weight::plain,
                          .key_hint = number < 9 ? std::string_view("123456789").substr(number, 1)
                                                 : std::string_view(),
                          .enabled = taken.size() >= kLeastOfTorch};
    const bool by_key =
        look.enabled && number < 9 && pressed({.key = '1' + static_cast<int>(number)});
    if (button(page, key + ".take", "take these", look) || by_key)
        set_up_torch(state, std::move(taken));
}

} // namespace

void draw_torch_choice(Page& page, Context& context, TorchState& state) {
    const auto& suggested =
        state.choice.suggested.beside(context.side, context.book, 0, [](const Notebook& book, int) {
            return read_suggested(book);
        });
    Flow flow(page, Measure::kGap);
    torch_help_act(page, flow, state);
    const bool back = torch_back_act(page, flow, "all marks");
    fine_print(page, "4 to 24 photos of one unmoved part, a hand torch held to another side for "
                     "each. Press a photo to leave it out. Others than these: choose them on "
                     "Photos and press B there.");
    if (state.choice.suggested.nothing_yet()) {
        being_read(page, "torch.reading");
    } else if (suggested.empty()) {
        notice(page, "torch.none", Tell::info,
               "No four photos of one camera were taken within 30 seconds of each other.");
    }
    for (std::size_t i = 0; i < suggested.size() && state.step == TorchState::Step::choosing; ++i)
        state.choice.lines.block(suggested[i].front().id.value, page.px(kLine),
                                 [&] { draw_set(page, context, state, suggested[i], i); });
    if (back && !state.running()) state.step = TorchState::Step::closed;
}

} // namespace fettle::ui
