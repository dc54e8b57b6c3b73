#include "ui/shell.h"

#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/keys_page.h"
#include "ui/widgets/overlay.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

constexpr float kTop = 72, kBottom = 48, kEntry = 384, kLeastEntry = 280, kLeastScreen = 420;
constexpr float kList = 184, kSlimList = 164; // the second without keys, where room is scarce
constexpr float kScarce = kList + kLeastScreen + kLeastEntry;
constexpr Chord kFold{static_cast<int>(Key::f9)};
constexpr Chord kFind{static_cast<int>(Key::f), true};
constexpr Chord kUndo{static_cast<int>(Key::z), true};
constexpr Chord kRedo{static_cast<int>(Key::z), true, true};
constexpr Chord kLight{static_cast<int>(Key::f12)};
// The plus lies where the equals sign does, and on the pad of figures.
constexpr Chord kLarger{static_cast<int>(Key::equals), true},
    kSmaller{static_cast<int>(Key::minus), true}, kAsFirst{static_cast<int>(Key::digit_0), true};
constexpr float kScreenRow = 36, kFootRow = 32;

// Large letters in a small window: screen and entry stand there one at a time.
struct Room {
    float width = 0; // of the window, pixels
    bool both = true;
};
Room room_of(const Page& page, float width) {
    return {width, width >= page.px(kScarce)};
}

bool& entry_shown(ShellState& state, const Room& room) {
    return room.both ? state.entry_open : state.entry_in_front;
}

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
    caption(page, "the day");
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

void title_cell(Page& page, const ShellShown& shown, float width) {
    const Region cell(page, "title",
                      {.width = width,
                       .height = page.px(kTop),
                       .edge = Edge::right_and_bottom,
                       .edge_role = Role::ink,
                       .scrolls = false});
    caption(page, "vehicle");
    heading(page, cut_to(page, shown.title, ImGui::GetContentRegionAvail().x, Face::heading));
    note(page, "title", shown.title);
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

// Below the figures typed for the day: what is wrong with them.
void day_error(Page& page, const ShellShown& shown, const ShellState& state) {
    const Noted* field = page.reg.find("day.air");
    if (!state.setting_day || shown.day_error.empty() || !field) return;
    const Overlay sheet(page, "day error",
                        {.x = field->rect.left - page.px(Measure::kGap),
                         .y = page.px(kTop),
                         .width = page.px(360),
                         .most_height = page.px(200)});
    fine_print(page, shown.day_error, Role::red_lead);
    note(page, "day.error", shown.day_error);
}

// Like the title block of a drawing: ruled cells, each with its caption.
void top_line(Page& page, const ShellShown& shown, ShellState& state, ShellAsked& asked,
              float width) {
    const float find_width = std::min(page.px(320), width * 0.3F);
    const float day_width = std::min(page.px(296), width * 0.3F);
    title_cell(page, shown, width - find_width - day_width);
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

bool pressed_with_pad(const Chord& chord, Key on_pad) {
    Chord shifted = chord, pad = chord;
    shifted.shift = true; // "+" is typed with Shift
    pad.key = static_cast<int>(on_pad);
    return pressed(chord, true) || pressed(shifted, true) || pressed(pad, true);
}

// How large letters are, and all with them: "Size 110 %   smaller   larger" in little.
void size_row(Page& page, const ShellShown& shown, ShellAsked& asked, const Room& room) {
    const std::string percent = std::to_string(std::lround(shown.text_scale * 100)) + " %";
    const std::string said = room.both ? "Size " + percent : percent;
    ImGui::SetCursorPosX(page.px(12));
    words_beside(page, said);
    note(page, "size", "Size", said);
    ImGui::SameLine(0, page.px(Measure::kGap));
    asked.smaller = button(page, "size.smaller", "−", {.weight = Weight::quiet, .width = 28});
    ImGui::SameLine(0, page.px(Measure::kStep));
    asked.larger = button(page, "size.larger", "+", {.weight = Weight::quiet, .width = 28});
    page.reg.note_key("Ctrl + −", "letters and all with them larger, smaller");
    page.reg.note_key("Ctrl 0", "the size as it was at first");
    asked.larger |= pressed_with_pad(kLarger, Key::keypad_add);
    asked.smaller |= pressed_with_pad(kSmaller, Key::keypad_subtract);
    asked.as_first = pressed(kAsFirst, true);
}

// The key beside a row's label. Where there is no room for it, the list of keys alone tells it.
std::string_view hint_beside(Page& page, const Room& room, std::string_view label,
                             const std::string& chord) {
    if (room.both) return chord;
    if (!chord.empty()) page.reg.note_key(chord, label);
    return {};
}

// At the foot of the list: what can be pressed, which paper one writes on, how large.
void foot_rows(Page& page, const ShellShown& shown, ShellState& state, ShellAsked& asked,
               const Room& room, float height) {
    const auto foot = [&](const char* key, const char* label, const std::string& chord,
                          bool selected = false) {
        return row(page, key,
                   {.label = label,
                    .key_hint = hint_beside(page, room, label, chord),
                    .selected = selected,
                    .height = kFootRow});
    };
    const float tall = page.px(4 * kFootRow + Measure::kStep);
    ImGui::SetCursorPosY(std::max(ImGui::GetCursorPosY(), height - tall));
    bool& entry = entry_shown(state, room);
    // While it stands beside, its own head tells the key.
    if (foot("entry.row", "Entry", entry ? "" : words_of(kFold), entry)) {
        entry = !entry;
        asked.entry_opened = entry;
    }
    asked.keys = foot("keys.row", "Keys", "F1");
    const bool day = page.theme.light == Light::day;
    asked.light = foot("light", day ? "Dark paper" : "Light paper", words_of(kLight));
    asked.light |= pressed(kLight, true);
    size_row(page, shown, asked, room);
}

float list_width(const Page& page, const Room& room) {
    return page.px(room.both ? kList : kSlimList);
}

void screen_list(Page& page, const ShellShown& shown, ShellState& state, ShellAsked& asked,
                 const Room& room, float height) {
    const Region list(
        page, "screens",
        {.width = list_width(page, room), .height = height, .margin = 0, .edge = Edge::right});
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
    gap(page, Measure::kStep);
    for (const Screen& screen : shown.screens) {
        const std::string chord = words_of(screen.chord);
        const RowLook look{.label = screen.label,
                           .aside = screen.count,
                           .key_hint = hint_beside(page, room, screen.label, chord),
                           .selected = screen.key == state.screen,
                           .height = kScreenRow};
        if (row(page, "screens." + screen.key, look) || pressed(screen.chord, true)) {
            asked.screen_changed = state.screen != screen.key;
            state.screen = screen.key;
            state.entry_in_front = false;
        }
    }
    foot_rows(page, shown, state, asked, room, height);
    ImGui::PopStyleVar();
}

// Beside the title where there is room before `right`, else below it.
void draft_state(Page& page, const std::string& said, float top, float right) {
    if (said.empty()) return;
    const float left = ImGui::GetItemRectMax().x - ImGui::GetWindowPos().x + page.px(Measure::kGap);
    const float wide = width_of(page, said, Face::fine);
    if (left + wide <= right) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        ImGui::SetCursorPosY(top + page.fonts.heading->Ascent - page.fonts.fine->Ascent);
    }
    fine_words(page, said);
    note(page, "entry.kept", said);
}

void entry_panel(Page& page, const ShellShown& shown, ShellState& state, const Room& room,
                 float width, float height) {
    page.reg.name_part(kEntryPart);
    const Region panel(
        page, "entry",
        {.width = width, .height = height, .ground = Role::sheet, .margin = 20, .scrolls = false});
    const float top = ImGui::GetCursorPosY();
    const float fold = ImGui::GetWindowContentRegionMax().x - page.px(108);
    heading(page, cut_to(page, shown.entry_title, fold - ImGui::GetCursorPosX(), Face::heading));
    note(page, "entry.title", shown.entry_title);
    const std::string hint = words_of(kFold);
    draft_state(page, shown.draft_state, top, fold);
    const float below = ImGui::GetCursorPosY();
    ImGui::SetCursorPos(ImVec2(fold, top - page.px(3)));
    if (button(page, "entry.fold", "fold away", {.weight = Weight::quiet, .key_hint = hint}))
        entry_shown(state, room) = false;
    ImGui::SetCursorPosY(std::max(below, ImGui::GetCursorPosY()));
    gap(page);
    if (shown.draw_entry) shown.draw_entry(page);
    // Whoever then makes the window small goes on where the keyboard is.
    if (room.both)
        state.entry_in_front =
            state.entry_open && ImGui::IsWindowFocused(ImGuiFocusedFlags_ChildWindows);
}

void middle_of_line(Page& page, float y, float height) {
    ImGui::SetCursorPosY(y + (page.px(Measure::kTarget) - height) / 2);
}

// What goes on: trouble before work before the report of work that has ended. Its right edge.
float going_on(Page& page, const ShellShown& shown, ShellAsked& asked, float y, float width) {
    if (!shown.trouble.empty()) {
        middle_of_line(page, y, ImGui::GetFontSize());
        words(page, cut_to(page, "stop   " + shown.trouble, width), Role::red_lead);
        note(page, "trouble", "stop", shown.trouble);
    } else if (shown.work) {
        const Progress shown_work{shown.work->doing, shown.work->share, shown.work->can_stop};
        asked.stop = progress(page, "work", shown_work);
    } else if (!shown.report.empty()) {
        middle_of_line(page, y, ImGui::GetFontSize());
        const float acts = page.px(shown.report_unfolds ? 168.0F : 96.0F);
        words(page, cut_to(page, shown.report, width - acts));
        note(page, "report", shown.report);
        if (shown.report_unfolds) {
            ImGui::SameLine(0, page.px(Measure::kGap));
            ImGui::SetCursorPosY(y);
            asked.unfold_report =
                button(page, "report.which", shown.report_asks, {.weight = Weight::quiet});
        }
        ImGui::SameLine(0, page.px(Measure::kGap));
        ImGui::SetCursorPosY(y);
        asked.close_report = button(page, "report.close", "seen", {.weight = Weight::quiet});
    } else if (!shown.watching.empty()) {
        middle_of_line(page, y, ImGui::GetFontSize());
        const std::string said = "watching " + shown.watching;
        words(page, cut_to(page, said, width - page.px(96)), Role::verdigris);
        note(page, "watching", said, shown.watching);
        ImGui::SameLine(0, page.px(Measure::kGap));
        ImGui::SetCursorPosY(y);
        asked.stop_watching = button(page, "watching.stop", "stop", {.weight = Weight::quiet});
    } else {
        return page.px(Measure::kMargin);
    }
    return ImGui::GetItemRectMax().x - ImGui::GetWindowPos().x;
}

// The last act with its undo, and what was taken back with its redo, at the right edge.
void last_act(Page& page, const ShellShown& shown, ShellAsked& asked, float y, float from,
              float right) {
    const std::string undo_hint = words_of(kUndo), redo_hint = words_of(kRedo);
    const bool can_redo = !shown.next_redo.empty();
    const float acts =
        page.px((shown.can_undo ? 112.0F : 0) + (can_redo ? 152.0F : 0)) + page.px(Measure::kGap);
    const float most = right - from - acts - page.px(Measure::kMargin);
    const std::string said = cut_to(
        page, shown.last_act.empty() ? "taken back: " + shown.next_redo : shown.last_act, most);
    ImGui::SameLine(right - acts - ImGui::CalcTextSize(said.c_str()).x);
    middle_of_line(page, y, ImGui::GetFontSize());
    words(page, said, Role::pencil);
    note(page, "last_act", shown.last_act.empty() ? said : shown.last_act);
    if (shown.can_undo) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        ImGui::SetCursorPosY(y);
        asked.undo = button(page, "undo", "undo", {.weight = Weight::quiet, .key_hint = undo_hint});
    }
    if (can_redo) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        ImGui::SetCursorPosY(y);
        asked.redo = button(page, "redo", "redo", {.weight = Weight::quiet, .key_hint = redo_hint});
    }
}

void bottom_line(Page& page, const ShellShown& shown, ShellAsked& asked, float width) {
    const Region strip(
        page, "bottom",
        {.width = width, .height = page.px(kBottom), .edge = Edge::top, .scrolls = false});
    const float y = page.px((kBottom - Measure::kTarget) / 2);
    ImGui::SetCursorPosY(y);
    const float right = width - page.px(Measure::kMargin);
    const float from = going_on(page, shown, asked, y, right - page.px(400));
    if (!shown.last_act.empty() || !shown.next_redo.empty())
        last_act(page, shown, asked, y, from, right);
    asked.undo |= shown.can_undo && pressed(kUndo);
    asked.redo |= !shown.next_redo.empty() && pressed(kRedo);
}

const Screen* current_screen(const ShellShown& shown, ShellState& state) {
    if (shown.screens.empty()) return nullptr;
    const auto found = std::find_if(shown.screens.begin(), shown.screens.end(),
                                    [&state](const Screen& s) { return s.key == state.screen; });
    const Screen& current = found == shown.screens.end() ? shown.screens.front() : *found;
    state.screen = current.key;
    return &current;
}

void draw_screen(Page& page, const ShellShown& shown, ShellState& state, float width,
                 float height) {
    const Screen* screen = current_screen(shown, state);
    page.reg.name_part(screen ? screen->label : "");
    // A window of its own each, so that each keeps where it was scrolled to.
    const Region centre(page, ("screen." + state.screen).c_str(),
                        {.width = width, .height = height});
    if (screen) screen->draw(page);
}

// Side by side, with the line between them that can be dragged.
void screen_and_entry(Page& page, const ShellShown& shown, ShellState& state, const Room& room,
                      float width, float height) {
    const float wanted = page.px(state.entry_width > 0 ? state.entry_width : kEntry);
    const float grip = page.px(Measure::kStep);
    const float most = std::max(page.px(kLeastEntry), width - page.px(kLeastScreen));
    const float entry = std::clamp(wanted, page.px(kLeastEntry), most);
    float screen_width = std::max(1.0F, width - entry - grip);
    draw_screen(page, shown, state, screen_width, height);
    ImGui::SameLine(0, 0);
    const Split split{screen_width, width - most - grip, width - page.px(kLeastEntry) - grip,
                      height};
    if (splitter(page, "entry.width", split))
        state.entry_width = (width - screen_width - grip) / page.theme.scale;
    ImGui::SameLine(0, 0);
    entry_panel(page, shown, state, room, entry, height);
}

void middle(Page& page, const ShellShown& shown, ShellState& state, const Room& room,
            float height) {
    const float width = room.width - list_width(page, room);
    if (!entry_shown(state, room)) {
        state.entry_in_front = false;
        draw_screen(page, shown, state, width, height);
    } else if (room.both) {
        screen_and_entry(page, shown, state, room, width, height);
    } else {
        entry_panel(page, shown, state, room, width, height);
    }
}

} // namespace

void show_entry(ShellState& state) {
    state.entry_open = state.entry_in_front = true;
}

ShellAsked draw_shell(Page& page, const ShellShown& shown, ShellState& state) {
    ShellAsked asked;
    const ImVec2 size = ImGui::GetContentRegionAvail();
    const Room room = room_of(page, size.x);
    bool& entry = entry_shown(state, room);
    if (pressed(kFold, true)) {
        entry = !entry;
        asked.entry_opened = entry;
    }
    current_screen(shown, state);
    page.reg.name_part(kRoomPart);
    page.reg.note_key(words_of(kFind), "find");
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
    top_line(page, shown, state, asked, size.x);
    const float height = std::max(1.0F, size.y - page.px(kTop) - page.px(kBottom));
    screen_list(page, shown, state, asked, room, height);
    ImGui::SameLine(0, 0);
    middle(page, shown, state, room, height);
    page.reg.name_part(kRoomPart);
    bottom_line(page, shown, asked, size.x);
    ImGui::PopStyleVar();
    day_error(page, shown, state);
    return asked;
}

} // namespace fettle::ui
