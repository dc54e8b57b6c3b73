#include "ui/screens/sheets.h"

#include "desk/carrying.h"
#include "ui/entry/entry_panel.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

namespace fettle::ui {
namespace {

constexpr Chord kPutIn{static_cast<int>(Key::e), true};
constexpr Chord kBack{static_cast<int>(Key::escape)};

// The keyboard goes to the first thing to press when the screen or a sheet opens.
void take_keyboard(SheetsState& state) {
    if (state.takes_keyboard) put_keyboard_here();
    state.takes_keyboard = false;
}

void list_sheet(Page& page, const calc::Sheet& sheet, SheetsState& state) {
    ImGui::BeginGroup();
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(page.px(12), page.px(2)));
    if (link(page, "sheets." + sheet.id, sheet.title)) state.open = sheet.id;
    take_keyboard(state);
    ImGui::SameLine();
    ImGui::SetCursorPosY(ImGui::GetCursorPosY() + page.px(10));
    fine_words(page, sheet.id);
    body(page, sheet.answers);
    if (!sheet.caution.empty()) {
        fine_print(page, "caution   " + sheet.caution, Role::brass);
        note(page, "sheets." + sheet.id + ".caution", "caution", sheet.caution);
    }
    ImGui::PopStyleVar();
    ImGui::EndGroup();
    gap(page, Measure::kGap);
}

void refused(Page& page, const calc::Catalogue& catalogue) {
    if (catalogue.refused().empty()) return;
    rule(page);
    gap(page);
    heading(page, "Not loaded");
    int number = 0;
    for (const calc::RefusedLibrary& library : catalogue.refused()) {
        words(page, library.path.filename().string());
        fine_print(page, library.reason);
        note(page, "sheets.refused." + std::to_string(number++), library.path.filename().string(),
             library.reason);
    }
}

void draw_list(Page& page, Context& context, SheetsState& state) {
    if (context.sheets.plugins().empty())
        empty_page(page, "sheets.empty",
                   {.what_for = "Worked sheets calculate springs, shims, torques and fits. They "
                                "come with plugins, and none is installed."});
    for (const calc::Plugin& plugin : context.sheets.plugins()) {
        rule(page);
        gap(page);
        heading(page, plugin.name);
        ImGui::SameLine(0, page.px(12));
        ImGui::SetCursorPosY(ImGui::GetCursorPosY() + page.px(6));
        fine_words(page, plugin.id + " " + plugin.version);
        for (const calc::Sheet& sheet : plugin.sheets)
            list_sheet(page, sheet, state);
    }
    refused(page, context.sheets);
    if (const auto& why = context.sheets.not_shut_off(); !why.empty()) {
        gap(page);
        fine_print(page, why, Role::brass);
        note(page, "sheets.not_shut_off", why);
    }
}

// Begun on no entry: presets and the weather of today.
calc::TypedInputs begun(const Context& context, const calc::Sheet& sheet) {
    auto inputs = desk::begun_inputs(context.book, sheet, {today()});
    return inputs ? std::move(*inputs) : calc::fresh_inputs(sheet);
}

// As it was typed; untouched, it is begun anew for the entry's own tasks and day.
void put_into_entry(Context& context, const calc::Sheet& sheet, const SheetsState::Typed& typed) {
    if (typed.inputs == begun(context, sheet)) return put_in_sheet(context, sheet);
    context.draft.sheets.push_back({sheet.id, typed.inputs});
    context.draft_edited = true;
}

void open_with(Context& context, const calc::HandOver& handed, SheetsState& state) {
    const auto found = context.sheets.find_sheet(handed.sheet);
    if (!found) return;
    auto [typed, fresh] = state.typed.try_emplace(handed.sheet);
    if (fresh) typed->second.inputs = begun(context, *found->sheet);
    typed->second.inputs[handed.input] = handed.typed;
    state.open = handed.sheet;
}

void draw_open(Page& page, Context& context, const calc::Sheet& sheet, SideWork& work,
               SheetsState& state) {
    if (link(page, "sheets.back", "← all worked sheets") || pressed(kBack)) state.open.clear();
    take_keyboard(state);
    auto [typed, fresh] = state.typed.try_emplace(sheet.id);
    if (fresh) {
        typed->second.inputs = begun(context, sheet);
        typed->second.form.explains = true;
    }
    heading(page, sheet.title);
    note(page, "sheets.title", sheet.title);
    body(page, sheet.answers, Role::pencil);
    gap(page);
    if (button(page, "sheets.put_in", "put into the entry", {.key_hint = words_of(kPutIn)}) ||
        pressed(kPutIn, true))
        put_into_entry(context, sheet, typed->second);
    gap(page, Measure::kGap);
    rule(page);
    gap(page);
    SheetForm& form = typed->second.form;
    sheet_form(page, "sheets." + sheet.id, sheet, typed->second.inputs, form,
               {context.sheets, work, true});
    if (auto handed = std::exchange(form.handed, std::nullopt)) open_with(context, *handed, state);
}

} // namespace

void draw_sheets(Page& page, Context& context, SideWork& work, SheetsState& state) {
    const bool another = state.drawn != state.open;
    if (another) ImGui::SetScrollY(0);
    if (just_came_in(state.last_frame) || another) state.takes_keyboard = true;
    state.drawn = state.open;
    if (state.open.empty()) {
        draw_list(page, context, state);
        return;
    }
    const auto found = context.sheets.find_sheet(state.open);
    if (found)
        draw_open(page, context, *found->sheet, work, state);
    else
        state.open.clear();
}

} // namespace fettle::ui
