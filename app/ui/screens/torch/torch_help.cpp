// How a set is taken with a phone, a torch and a ball: in words and small drawings.
#include "ui/frame/input_queue.h"
#include "ui/screens/torch/torch_steps.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <cmath>
#include <numbers>
#include <utility>

namespace fettle::ui {
namespace {

constexpr float kWide = 260, kTall = 150;

// Draws in a box of 260 by 150, scaled to the page.
class Sketch {
  public:
    Sketch(const Page& page, ImVec2 at) : page_(page), at_(at) {}

    void line(float x1, float y1, float x2, float y2, Role role = Role::ink,
              float thick = 2) const {
        pen_->AddLine(on(x1, y1), on(x2, y2), page_.tone(role), page_.px(thick));
    }
    void box(float x1, float y1, float x2, float y2, Role role = Role::ink) const {
        pen_->AddRect(on(x1, y1), on(x2, y2), page_.tone(role), 0, 0, page_.px(2));
    }
    void disc(float x, float y, float radius, Role role) const {
        pen_->AddCircleFilled(on(x, y), page_.px(radius), page_.tone(role));
    }
    void ring(float x, float y, float radius, Role role) const {
        pen_->AddCircle(on(x, y), page_.px(radius), page_.tone(role), 0, page_.px(2));
    }
    void say(float x, float y, const char* text) const {
        const InFace fine(page_, Face::fine);
        pen_->AddText(on(x, y), page_.tone(Role::pencil), text);
    }

  private:
    ImVec2 on(float x, float y) const { return {at_.x + page_.px(x), at_.y + page_.px(y)}; }

    const Page& page_;
    ImVec2 at_;
    ImDrawList* pen_ = ImGui::GetWindowDrawList();
};

// From the side: the phone above, the part and the ball below it.
void phone_above(const Sketch& sketch) {
    sketch.line(20, 120, 240, 120, Role::rule);
    sketch.box(80, 102, 150, 120);
    sketch.disc(176, 110, 9, Role::brass);
    sketch.box(95, 24, 135, 32);
    sketch.line(115, 32, 80, 102, Role::pencil, 1);
    sketch.line(115, 32, 190, 120, Role::pencil, 1);
    sketch.line(40, 28, 95, 28);
    sketch.line(40, 28, 40, 120);
    sketch.say(142, 16, "phone, held still");
    sketch.say(92, 126, "part");
    sketch.say(164, 126, "ball");
}

// From above: the torch goes round, a photo at each place.
void torch_round(const Sketch& sketch) {
    sketch.box(95, 58, 145, 92);
    sketch.disc(160, 88, 6, Role::brass);
    for (int i = 0; i < 8; ++i) {
        const double side = i * std::numbers::pi / 4;
        const float x = float(std::sin(side)), y = float(-std::cos(side));
        sketch.disc(120 + 62 * x, 75 + 62 * y, 5, Role::red_lead);
        sketch.line(120 + 54 * x, 75 + 54 * y, 120 + 42 * x, 75 + 42 * y, Role::red_lead, 1);
    }
    sketch.say(190, 10, "eight sides");
}

// From the side: low and higher.
void low_and_high(const Sketch& sketch) {
    sketch.line(20, 120, 240, 120, Role::rule);
    sketch.box(95, 108, 145, 120);
    for (const auto& [degrees, words] :
         {std::pair{15, "15°"}, std::pair{35, "35°"}, std::pair{60, "60°"}}) {
        const double above = degrees * std::numbers::pi / 180;
        const float x = float(std::cos(above)), y = float(std::sin(above));
        sketch.line(120, 108, 120 + 96 * x, 108 - 96 * y, Role::pencil, 1);
        sketch.disc(120 + 96 * x, 108 - 96 * y, 5, Role::red_lead);
        sketch.say(128 + 96 * x, 100 - 96 * y, words);
    }
}

// The ball in the photo: dark ground round it, one highlight on it.
void ball_near(const Sketch& sketch) {
    sketch.box(30, 16, 230, 134);
    sketch.box(60, 46, 140, 104, Role::pencil);
    sketch.ring(184, 98, 20, Role::brass);
    sketch.disc(176, 88, 3, Role::red_lead);
    sketch.say(62, 108, "the stamping");
    sketch.say(160, 52, "its highlight");
    sketch.line(186, 66, 178, 84, Role::pencil, 1);
}

struct Advice {
    const char* words;
    void (*draw)(const Sketch&);
};
constexpr Advice kAdvice[] = {
    {"1. Lay the part down so that the stamping faces straight up, and fix the phone above it, "
     "on a stand or a stack of tins. Nothing may move: neither part nor phone, nor the zoom. "
     "Press by the timer or a cord. A little shaking is put right afterwards.",
     phone_above},
    {"2. Put a shiny ball beside the stamping, in the same photo: from a bearing, clean and "
     "dry, a hundred pixels across or more. It tells where the torch stood. Without one the "
     "relief comes out as well, but how steep it is and what is struck in stay guesses.",
     ball_near},
    {"3. Darken the room and take photos with a hand torch from all around, about eight, 4 at "
     "the least and 24 at the most; hold it as far away as ten times the width of the "
     "stamping, always at the same distance.",
     torch_round},
    {"4. Hold it low for some and higher for others: low light finds faint letters, high light "
     "fills the shadows. Switch the flash off, and hold exposure and focus where the phone "
     "can. What glares white or lies in black is left out.",
     low_and_high},
};

} // namespace

void draw_torch_help(Page& page, TorchState& state) {
    heading(page, "How to take a torch set");
    Flow flow(page, Measure::kGap);
    if (torch_back_act(page, flow, "back") || pressed({.key = 'H'})) state.help = false;
    page.reg.note_key("H", "back");
    int number = 0;
    for (const Advice& advice : kAdvice) {
        gap(page, Measure::kGap);
        const ImVec2 at = ImGui::GetCursorScreenPos();
        advice.draw(Sketch(page, at));
        ImGui::Dummy(ImVec2(page.px(kWide), page.px(kTall)));
        note(page, "torch.help." + std::to_string(++number), advice.words);
        ImGui::SameLine(0, page.px(Measure::kMargin));
        ImGui::BeginGroup();
        body(page, advice.words);
        ImGui::EndGroup();
    }
    gap(page, Measure::kGap);
    fine_print(page, "Why ten times the width: light from nearer by makes the part look hollow or "
                     "humped as a whole; small things stay true.");
    gap(page, Measure::kMargin);
}

} // namespace fettle::ui
