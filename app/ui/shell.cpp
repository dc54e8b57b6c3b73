#include "ui/shell.h"

#include "ui/acts.h"
#include "ui/fields.h"
#include "ui/input_queue.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kTop = 72, kBottom = 48, kList = 184, kEntry = 384, kLeastEntry = 280;
constexpr float kLeastScreen = 420;
constexpr Chord kFold{static_cast<int>(Key::f9)};
constexpr Chord kFind{static_cast<int>(Key::f), true};
constexpr Chord kUndo{static_cast<int>(Key::z), true};

enum class Edge { none, right, bottom, top, right_and_bottom };

struct RegionLook {
    float width = 0, height = 0; // pixels
    Role ground = Role::paper;
    float margin = Measure::kMargin;
    Edge edge = Edge::none;
    Role edge_role = Role::rule;
    bool scrolls = true;
};

// A part of the room with its own ground, margins, scrolling and ruled edges.
class Region {
  public:
    Region(Page& page, const char* name, const RegionLook& look) {
        const float upper = page.px(std::min(look.margin, Measure::kGap));
        ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(page.px(look.margin), upper));
        ImGui::PushStyleColor(ImGuiCol_ChildBg, page.tone(look.ground));
        ImGuiWindowFlags flags = ImGuiWindowFlags_AlwaysUseWindowPadding;
        if (!look.scrolls)
            flags |= ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;
        ImGui::BeginChild(name, ImVec2(look.width, look.height), false, flags);
        ImGui::PopStyleColor();
        ImGui::PopStyleVar();
        ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing,
                            ImVec2(page.px(Measure::kStep), page.px(Measure::kStep)));
        // Fields must stand out from the ground they are on.
        ImGui::PushStyleColor(ImGuiCol_FrameBg,
                              page.tone(look.ground == Role::sheet ? Role::paper : Role::sheet));
        draw_edges(page, look);
    }
    ~Region() {
        ImGui::PopStyleColor();
        ImGui::PopStyleVar();
        ImGui::EndChild();
    }
    Region(const Region&) = delete;
    Region& operator=(const Region&) = delete;

  private:
    static void draw_edges(Page& page, const RegionLook& look) {
        const ImVec2 low = ImGui::GetWindowPos();
        const ImVec2 high(low.x + ImGui::GetWindowWidth(), low.y + ImGui::GetWindowHeight());
        const float thin = page.px(1);
        ImDrawList* pen = ImGui::GetWindowDrawList();
        pen->PushClipRect(low, high, false);
        if (look.edge == Edge::right || look.edge == Edge::right_and_bottom)
            pen->AddRectFilled(ImVec2(high.x - thin, low.y), high, page.tone(Role::rule));
        if (look.edge == Edge::bottom || look.edge == Edge::right_and_bottom)
            pen->AddRectFilled(ImVec2(low.x, high.y - thin), high, page.tone(look.edge_role));
        if (look.edge == Edge::top)
            pen->AddRectFilled(low, ImVec2(high.x, low.y + thin), page.tone(look.edge_role));
        pen->PopClipRect();
    }
};

// A cell of the title block: what it is in fine print, below it what it holds.
void caption(Page& page, const char* text) {
    ImGui::SetCursorPosY(page.px(10));
    fine_words(page, text);
    ImGui::SetCursorPosY(page.px(28));
}

void day_cell(Page& page, const ShellShown& shown, ShellState& state, ShellAsked& asked) {
    caption(page, shown.day_error.empty() ? "the day" : shown.day_error.c_str());
    if (!state.setting_day) {
        const bool known = !shown.air.empty() || !shown.humidity.empty();
        const std::string figures = known ? shown.air + "   " + shown.humidity : "air and humidity";
        ImGui::AlignTextToFramePadding();
        words(page, figures, known ? Role::ink : Role::pencil);
        note(page, "day.figures", "the day", figures);
        ImGui::SameLine(0, page.px(Measure::kGap));
        if (button(page, "day.set", "set", {.weight = Weight::quiet})) {
            state.setting_day = true;
            state.air_typed = shown.air;
            state.humidity_typed = shown.humidity;
        }
        return;
    }
    const FieldChange air =
        text_field(page, "day.air", state.air_typed, {.hint = "11 °C", .width = 80});
    ImGui::SameLine();
    const FieldChange humidity =
        text_field(page, "day.humidity", state.humidity_typed, {.hint = "72 %", .width = 72});
    ImGui::SameLine();
    if (button(page, "day.keep", "keep", {.weight = Weight::quiet}) || air.entered ||
        humidity.entered) {
        asked.set_day = true;
        state.setting_day = false;
    }
}

void title_cell(Page& page, const ShellShown& shown, ShellAsked& asked, float width) {
    const Region cell(page, "title",
                      {.width = width,
                       .height = page.px(kTop),
                       .edge = Edge::right_and_bottom,
                       .edge_role = Role::ink,
                       .scrolls = false});
    caption(page, "vehicle");
    heading(page, shown.title);
    note(page, "title", shown.title);
    asked.title = ImGui::IsItemClicked();
}

void find_cell(Page& page, ShellState& state, ShellAsked& asked, float width) {
    const Region cell(page, "find",
                      {.width = width,
                       .height = page.px(kTop),
                       .margin = Measure::kGap,
                       .edge = Edge::bottom,
                       .edge_role = Role::ink,
                       .scrolls = false});
    caption(page, ("find   " + words_of(kFind)).c_str());
    const FieldChange find =
        text_field(page, "find", state.find,
                   {.hint = "a part, a word, a number", .take_focus = pressed(kFind, true)});
    asked.find_edited = find.edited;
    asked.find_entered = find.entered;
}

// Like the title block of a drawing: ruled cells, each with its caption.
void top_line(Page& page, const ShellShown& shown, ShellState& state, ShellAsked& asked,
              float width) {
    const float find_width = std::min(page.px(320), width * 0.3F);
    const float day_width = std::min(page.px(296), width * 0.3F);
    title_cell(page, shown, asked, width - find_width - day_width);
    ImGui::SameLine(0, 0);
    {
        const Region cell(page, "day",
                          {.width = day_width,
                           .height = page.px(kTop),
                           .margin = Measure::kGap,
                           .edge = Edge::right_and_bottom,
                           .edge_role = Role::ink,
                           .scrolls = false});
        day_cell(page, shown, state, asked);
    }
    ImGui::SameLine(0, 0);
    find_cell(page, state, asked, find_width);
}

void screen_list(Page& page, const ShellShown& shown, ShellState& state, ShellAsked& asked,
                 float height) {
    const Region list(
        page, "screens",
        {.width = page.px(kList), .height = height, .margin = 0, .edge = Edge::right});
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
    gap(page, Measure::kStep);
    for (const Screen& screen : shown.screens) {
        const std::string chord = words_of(screen.chord);
        const RowLook look{.label = screen.label,
                           .aside = screen.count,
                           .key_hint = chord,
                           .selected = screen.key == state.screen,
                           .height = 40};
        if (row(page, "screens." + screen.key, look) || pressed(screen.chord, true)) {
            asked.screen_changed = state.screen != screen.key;
            state.screen = screen.key;
        }
    }
    ImGui::PopStyleVar();
}

void entry_panel(Page& page, const ShellShown& shown, ShellState& state, float width,
                 float height) {
    const Region panel(page, "entry",
                       {.width = width, .height = height, .ground = Role::sheet, .margin = 20});
    const float top = ImGui::GetCursorPosY();
    heading(page, shown.entry_title);
    note(page, "entry.title", shown.entry_title);
    const std::string hint = words_of(kFold);
    const float fold = page.px(108);
    ImGui::SameLine(ImGui::GetWindowContentRegionMax().x - fold);
    ImGui::SetCursorPosY(top - page.px(3));
    if (button(page, "entry.fold", "fold away", {.weight = Weight::quiet, .key_hint = hint}))
        state.entry_open = false;
    gap(page);
    if (shown.draw_entry) shown.draw_entry(page);
}

void bottom_line(Page& page, const ShellShown& shown, ShellAsked& asked, float width) {
    const Region strip(
        page, "bottom",
        {.width = width, .height = page.px(kBottom), .edge = Edge::top, .scrolls = false});
    const float y = page.px((kBottom - Measure::kTarget) / 2);
    ImGui::SetCursorPosY(y);
    if (!shown.trouble.empty()) {
        ImGui::AlignTextToFramePadding();
        words(page, "stop   " + shown.trouble, Role::red_lead);
        note(page, "trouble", "stop", shown.trouble);
    } else if (shown.work) {
        const Progress shown_work{shown.work->doing, shown.work->share, shown.work->can_stop};
        asked.stop = progress(page, "work", shown_work);
    }
    if (shown.last_act.empty()) return;
    const std::string hint = words_of(kUndo);
    const float undo = shown.can_undo ? page.px(112) : 0;
    const float said = ImGui::CalcTextSize(shown.last_act.c_str()).x;
    ImGui::SameLine(std::max(0.0F, width - page.px(Measure::kMargin) - undo - said));
    ImGui::SetCursorPosY(y + (page.px(Measure::kTarget) - ImGui::GetFontSize()) / 2);
    words(page, shown.last_act, Role::pencil);
    note(page, "last_act", shown.last_act);
    if (!shown.can_undo) return;
    ImGui::SameLine(0, page.px(Measure::kGap));
    ImGui::SetCursorPosY(y);
    asked.undo =
        button(page, "undo", "undo", {.weight = Weight::quiet, .key_hint = hint}) || pressed(kUndo);
}

const Screen* current_screen(const ShellShown& shown, ShellState& state) {
    if (shown.screens.empty()) return nullptr;
    const auto found = std::find_if(shown.screens.begin(), shown.screens.end(),
                                    [&state](const Screen& s) { return s.key == state.screen; });
    const Screen& current = found == shown.screens.end() ? shown.screens.front() : *found;
    state.screen = current.key;
    return &current;
}

// Screen and entry side by side, with the line between them that can be dragged.
void middle(Page& page, const ShellShown& shown, ShellState& state, float width, float height) {
    if (state.entry_width <= 0) state.entry_width = page.px(kEntry);
    const float grip = state.entry_open ? page.px(Measure::kStep) : 0;
    const float most = std::max(page.px(kLeastEntry), width - page.px(kLeastScreen));
    const float entry = std::clamp(state.entry_width, page.px(kLeastEntry), most);
    float screen_width = std::max(1.0F, state.entry_open ? width - entry - grip : width);
    {
        const Region centre(page, "screen", {.width = screen_width, .height = height});
        if (const Screen* screen = current_screen(shown, state)) screen->draw(page);
    }
    if (!state.entry_open) return;
    ImGui::SameLine(0, 0);
    const Split split{screen_width, width - most - grip, width - page.px(kLeastEntry) - grip,
                      height};
    if (splitter(page, "entry.width", split)) state.entry_width = width - screen_width - grip;
    ImGui::SameLine(0, 0);
    entry_panel(page, shown, state, entry, height);
}

} // namespace

ShellAsked draw_shell(Page& page, const ShellShown& shown, ShellState& state) {
    ShellAsked asked;
    const ImVec2 room = ImGui::GetContentRegionAvail();
    if (pressed(kFold, true)) {
        state.entry_open = !state.entry_open;
        asked.entry_opened = state.entry_open;
    }
    current_screen(shown, state);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
    top_line(page, shown, state, asked, room.x);
    const float height = std::max(1.0F, room.y - page.px(kTop) - page.px(kBottom));
    screen_list(page, shown, state, asked, height);
    ImGui::SameLine(0, 0);
    middle(page, shown, state, room.x - page.px(kList), height);
    bottom_line(page, shown, asked, room.x);
    ImGui::PopStyleVar();
    return asked;
}

} // namespace fettle::ui
