#include "ui/screens/torch/torch_sliders.h"

#include "ui/frame/keyboard_frame.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/sliders.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <tuple>

namespace fettle::ui {
namespace {

using relief::View;

constexpr float kSlider = 136;

std::string rounded(double value, int digits) {
    char text[40];
    std::snprintf(text, sizeof text, "%.*f", digits, value);
    return text;
}

// By ratios: from 1 to 2 is as much as from 5 to 10.
struct Ratio {
    const char *key, *label;
    double View::*value;
    double least, most;
    const char* unit;
    int digits;
};
constexpr Ratio kSlope{
    "torch.slope", "how steep", &View::slope, relief::kLeastSlope, relief::kMostTimes, " ×", 2};
constexpr Ratio kRadius{"torch.radius",
                        "size of the letters",
                        &View::radius,
                        relief::kLeastAround,
                        relief::kMostAround,
                        " px",
                        0};

bool by_ratio(Page& page, Flow& flow, View& view, const Ratio& ratio) {
    double share = std::log2(view.*ratio.value);
    const std::string shown = rounded(view.*ratio.value, ratio.digits) + ratio.unit;
    flow.place(page.px(kSlider));
    const Slid slid = slider(page, ratio.key, share,
                             {.label = ratio.label,
                              .shown = shown,
                              .least = std::log2(ratio.least),
                              .most = std::log2(ratio.most),
                              .width = kSlider});
    if (slid.changed) view.*ratio.value = std::clamp(std::exp2(share), ratio.least, ratio.most);
    return slid.focused;
}

bool straight(Page& page, Flow& flow, std::string_view key, double& value, SliderLook look) {
    look.width = kSlider;
    flow.place(page.px(kSlider));
    return slider(page, key, value, look).focused;
}

bool leans(Page& page, Flow& flow, View& view) {
    bool focused = false;
    for (const auto& [key, label, value] :
         {std::tuple{"torch.lean_right", "lean to the right", &View::lean_right},
          std::tuple{"torch.lean_down", "lean downwards", &View::lean_down}}) {
        const std::string shown = rounded(view.*value, 2);
        focused |= straight(page, flow, key, view.*value,
                            {.label = label,
                             .shown = shown,
                             .least = -relief::kMostLean,
                             .most = relief::kMostLean});
    }
    return focused;
}

void kinds(Page& page, View& view) {
    int kind = static_cast<int>(view.kind);
    choice(page, "torch.kind", {"lit", "relief", "depth", "albedo"}, kind);
    for (int i = 0; i < 4; ++i)
        if (pressed({.key = '1' + i})) kind = i;
    view.kind = static_cast<relief::Kind>(kind);
    ImGui::SameLine(0, page.px(Measure::kMargin));
    if (pressed({.key = 'T'})) view.turned_over = !view.turned_over;
    check(page, "torch.turned_over", "turned over", view.turned_over);
    ImGui::SameLine(0, page.px(Measure::kStep));
    words_beside(page, "T", Role::pencil, Face::fine);
    page.reg.note_key("T", "turn over: what is raised is struck in");
    ImGui::SameLine(0, page.px(Measure::kMargin));
    const ButtonLook look{.weight = Weight::quiet, .key_hint = "Z"};
    if (button(page, "torch.reset", "reset", look) || pressed({.key = 'Z'}))
        view = {.kind = view.kind};
}

void by_keys(View& view) {
    const auto times = [](double& value, double by, double least, double most) {
        value = std::clamp(value * by, least, most);
    };
    if (pressed({.key = '.'})) times(view.slope, 1.25, relief::kLeastSlope, relief::kMostTimes);
    if (pressed({.key = ','})) times(view.slope, 0.8, relief::kLeastSlope, relief::kMostTimes);
    const auto contrast = [&](double by) {
        view.contrast = std::clamp(view.contrast + by, 0.0, 1.0);
    };
    if (plus_pressed()) contrast(0.1);
    if (pressed({.key = '-'})) contrast(-0.1);
    if (pressed({.key = 'R'})) times(view.radius, 1.25, relief::kLeastAround, relief::kMostAround);
    if (pressed({.key = 'R', .shift = true}))
        times(view.radius, 0.8, relief::kLeastAround, relief::kMostAround);
}

} // namespace

bool torch_sliders(Page& page, View& view, const TorchDone& done) {
    kinds(page, view);
    by_keys(view);
    page.reg.note_key("R", "larger letters; Shift R smaller ones");
    Flow flow(page, Measure::kGap);
    bool focused = by_ratio(page, flow, view, kSlope);
    const std::string contrast = std::to_string(std::lround(view.contrast * 100)) + " %";
    focused |= straight(page, flow, "torch.contrast", view.contrast,
                        {.label = "local contrast", .shown = contrast});
    focused |= by_ratio(page, flow, view, kRadius);
    if (!done.relief->lights_known) focused |= leans(page, flow, view);
    return focused;
}

} // namespace fettle::ui
