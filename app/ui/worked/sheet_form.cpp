#include "ui/worked/sheet_form.h"

#include "base/quantity.h"
#include "base/text.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

constexpr float kSideBySide = 640; // below it the results stand under the fields
constexpr float kFieldsLeast = 308, kFieldsMost = 416; // of two columns the first
constexpr float kBetween = 8;
constexpr Chord kHandOn{.key = 'U', .ctrl = true};
constexpr std::size_t kChoicesBeside = 6; // more of them take the whole width
constexpr float kUnitWidth = 44;
constexpr double kPatience = 0.15; // seconds before an older answer is faded
constexpr std::size_t kLettersALine = 34;

using calc::Input;
using calc::Shape;

bool is_blank(const std::string& typed) {
    return trim(typed).empty();
}

// The value in both systems, unless that says no more than what was typed.
std::string understood_text(const Input& input, const std::string& typed,
                            const calc::SiValue& value) {
    if (!value.given || input.shape == Shape::text) return {};
    if (input.shape == Shape::choice || input.shape == Shape::table) return {};
    const calc::BothUnits both = calc::both_units(input, value);
    if (both.inch.empty()) {
        const bool bare = both.metric.starts_with(trim(typed));
        return bare ? std::string() : both.metric;
    }
    // What was typed in inches is said in millimetres, and the other way round.
    const std::string unit = unit_label(input.quantity, value.typed_unit);
    return both.metric.ends_with(" " + unit) ? both.inch : both.metric;
}

void read_fields(const calc::Sheet& sheet, const calc::TypedInputs& typed, SheetForm& form) {
    calc::ReadInputs read = calc::read_inputs(sheet, typed);
    form.read_for = typed;
    form.trouble.clear();
    form.problems.clear();
    form.understood.clear();
    form.complete = read.problems.empty();
    for (std::size_t i = 0; i < sheet.inputs.size(); ++i) {
        const Input& input = sheet.inputs[i];
        const std::string& text = read.typed[input.id];
        form.understood.push_back(understood_text(input, text, read.values[i]));
        const auto problem = read.problems.find(input.id);
        if (problem == read.problems.end()) continue;
        // An empty field is not wrong yet.
        if (is_blank(text))
            form.understood.back() = "needed";
        else
            form.problems.insert(*problem);
    }
}

void calculate(const calc::Sheet& sheet, const calc::TypedInputs& typed, SheetForm& form,
               const SheetBench& bench) {
    form.answer_is_old = true;
    if (!form.complete) return;
    form.asked_at = ImGui::GetTime();
    bench.work.ask<calc::SheetRun>(form.coming, [&sheets = bench.sheets, id = sheet.id, typed] {
        return calc::try_sheet(sheets, id, typed);
    });
}

void take_run(SheetForm& form, calc::SheetRun run) {
    if (run.answer) {
        form.answer = shown_answer(std::move(*run.answer));
        form.answer_is_old = false;
        return;
    }
    form.problems = run.problems;
    if (run.failure && run.problems.empty()) form.trouble = run.failure->sentence;
}

void bring_up_to_date(const calc::Sheet& sheet, const calc::TypedInputs& typed, SheetForm& form,
                      const SheetBench& bench) {
    if (form.read_for != typed) {
        read_fields(sheet, typed, form);
        calculate(sheet, typed, form, bench);
    }
    auto run = form.coming->take();
    if (run && form.complete) take_run(form, std::move(*run));
}

// The label left of its field, over one line or two.
void label_beside(Page& page, const std::string& label, float width) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float tall =
        ImGui::CalcTextSize(label.c_str(), nullptr, false, width - page.px(Measure::kStep)).y;
    const float lift = std::max(0.0F, (page.px(Measure::kRow) - tall) / 2);
    ImGui::GetWindowDrawList()->AddText(nullptr, 0, ImVec2(at.x, std::round(at.y + lift)),
                                        ImGui::GetColorU32(ImU32(page.tone(Role::ink))),
                                        label.c_str(), nullptr, width - page.px(Measure::kStep));
    ImGui::Dummy(ImVec2(width, std::max(page.px(Measure::kRow), tall)));
    ImGui::SameLine(0, 0);
}

struct FieldPlace {
    const Input& input;
    const std::string& key;
    std::string_view understood;
    bool wrong = false;
    float label_width = 0; // pixels
};

bool line_field(Page& page, const FieldPlace& place, std::string& typed) {
    label_beside(page, place.input.label, place.label_width);
    const std::string unit = place.input.quantity.empty()
                                 ? std::string()
                                 : unit_label(place.input.quantity, place.input.unit);
    const bool number = place.input.shape == Shape::number;
    const float room = ImGui::GetContentRegionAvail().x / page.theme.scale;
    const float width = number ? std::min(132.0F, room - kUnitWidth) : std::min(260.0F, room);
    return text_field(page, place.key, typed,
                      {.unit = unit,
                       .other = place.wrong ? std::string_view() : place.understood,
                       .wrong = place.wrong,
                       .width = width})
        .edited;
}

std::string row_headings(const Input& input) {
    std::string said;
    for (const calc::Column& column : input.columns) {
        std::string heading = column.label;
        if (!column.unit.empty()) heading += ", " + unit_label(column.quantity, column.unit);
        said += (said.empty() ? "" : "   ") + (column.required ? heading : "(" + heading + ")");
    }
    return said;
}

bool area_field(Page& page, const FieldPlace& place, std::string& typed) {
    const Input& input = place.input;
    const bool table = input.shape == Shape::table;
    const std::string unit =
        input.quantity.empty() ? std::string() : unit_label(input.quantity, input.unit);
    gap(page, Measure::kHair);
    words(page, table || unit.empty() ? input.label : input.label + ", " + unit);
    if (table) fine_print(page, "a row each line:  " + row_headings(input));
    const auto written = std::ranges::count(typed, '\n') + 1;
    const auto wrapped = typed.size() / kLettersALine + 1;
    const int lines =
        std::clamp(static_cast<int>(table ? written + 1 : std::max<long>(written, long(wrapped))),
                   table ? 3 : 1, 9);
    return text_area(page, place.key, typed, lines,
                     {.hint = table ? "12 1/2 in  5/16 in" : "split by ;",
                      .other = place.wrong ? std::string_view() : place.understood,
                      .wrong = place.wrong})
        .edited;
}

bool choice_field(Page& page, const FieldPlace& place, std::string& typed) {
    const auto& choices = place.input.choices;
    int chosen = -1;
    for (std::size_t i = 0; i < choices.size() && chosen < 0 && !is_blank(typed); ++i)
        if (lower_ascii(choices[i]).starts_with(lower_ascii(trim(typed))))
            chosen = static_cast<int>(i);
    if (choices.size() > kChoicesBeside)
        words(page, place.input.label);
    else
        label_beside(page, place.input.label, place.label_width);
    ImGui::BeginGroup();
    const bool changed = choice(page, place.key, choices, chosen);
    ImGui::EndGroup();
    if (changed) typed = choices[std::size_t(chosen)];
    return changed;
}

bool one_field(Page& page, const FieldPlace& place, std::string& typed, const SheetForm& form) {
    bool edited = false;
    switch (place.input.shape) {
    case Shape::choice:
        edited = choice_field(page, place, typed);
        break;
    case Shape::list:
    case Shape::table:
        edited = area_field(page, place, typed);
        break;
    case Shape::number:
    case Shape::text:
        edited = line_field(page, place, typed);
        break;
    }
    const auto problem = form.problems.find(place.input.id);
    if (problem != form.problems.end()) {
        fine_print(page, problem->second, Role::red_lead);
        note(page, place.key + ".error", problem->second);
    }
    if (form.explains && !place.input.help.empty()) {
        fine_print(page, place.input.help);
        gap(page, Measure::kStep + Measure::kHair);
    }
    return edited;
}

bool fields(Page& page, const std::string& key, const calc::Sheet& sheet, calc::TypedInputs& typed,
            SheetForm& form) {
    bool edited = false;
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(page.px(Measure::kStep), page.px(6)));
    const float room = ImGui::GetContentRegionAvail().x;
    const float label_width = std::min(page.px(190), room - page.px(132 + kUnitWidth));
    for (std::size_t i = 0; i < sheet.inputs.size(); ++i) {
        const Input& input = sheet.inputs[i];
        std::string& text = typed.try_emplace(input.id, input.preset).first->second;
        if (!calc::is_asked(sheet, input, typed)) continue;
        const std::string field_key = key + "." + input.id;
        const std::string_view understood =
            i < form.understood.size() ? std::string_view(form.understood[i]) : std::string_view();
        edited |= one_field(page,
                            {input, field_key, understood, form.problems.contains(input.id),
                             std::max(page.px(80), label_width)},
                            text, form);
    }
    ImGui::PopStyleVar();
    if (button(page, key + ".explain",
               form.explains ? "fold the explanations" : "explain the fields",
               {.weight = Weight::quiet}))
        form.explains = !form.explains;
    return edited;
}

// What another sheet can go on with, each one press away.
void hands(Page& page, const std::string& key, SheetForm& form, const SheetBench& bench) {
    bool first = bench.hand_key;
    const std::string key_words = words_of(kHandOn);
    for (const calc::HandOver& hand : form.answer->hands) {
        const auto taker = bench.sheets.find_sheet(hand.sheet);
        if (!taker) continue;
        const ButtonLook look{.key_hint = first ? std::string_view(key_words) : std::string_view()};
        if (button(page, key + ".hand." + hand.sheet + "." + hand.input,
                   hand.typed + "  into " + taker->sheet->title, look) ||
            (first && pressed(kHandOn, true)))
            form.handed = hand;
        first = false;
    }
}

void results(Page& page, const std::string& key, SheetForm& form, const SheetBench& bench) {
    const bool late = form.coming->awaited() && ImGui::GetTime() - form.asked_at > kPatience;
    const bool old = form.answer_is_old && (late || !form.coming->awaited());
    if (!form.trouble.empty()) notice(page, key + ".trouble", Tell::stop, form.trouble);
    if (late) {
        fine_words(page, "being worked out");
        note(page, key + ".awaited", "being worked out");
    } else if (old && form.trouble.empty()) {
        const char* said = form.answer ? "The figures stand for what was typed before."
                                       : "It is worked out as soon as the fields can be read.";
        fine_print(page, said);
        note(page, key + ".old", said);
    }
    if (!form.answer) return;
    sheet_results(page, key + ".result", *form.answer, form.working_open, {.faded = old});
    if (!old) hands(page, key, form, bench);
}

} // namespace

bool sheet_form(Page& page, std::string_view key_given, const calc::Sheet& sheet,
                calc::TypedInputs& typed, SheetForm& form, const SheetBench& bench) {
    const std::string key(key_given);
    bring_up_to_date(sheet, typed, form, bench);
    const float room = ImGui::GetContentRegionAvail().x;
    const bool side_by_side = room >= page.px(kSideBySide);
    if (!side_by_side) {
        const bool edited = fields(page, key, sheet, typed, form);
        gap(page);
        results(page, key, form, bench);
        return edited;
    }
    // Two columns that grow with what stands in them.
    bool edited = false;
    if (!ImGui::BeginTable("two columns", 3)) return false;
    const float wide = std::clamp(room * 0.46F, page.px(kFieldsLeast), page.px(kFieldsMost));
    ImGui::TableSetupColumn("fields", ImGuiTableColumnFlags_WidthFixed, wide);
    ImGui::TableSetupColumn("between", ImGuiTableColumnFlags_WidthFixed, page.px(kBetween));
    ImGui::TableSetupColumn("results", ImGuiTableColumnFlags_WidthStretch);
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    edited = fields(page, key, sheet, typed, form);
    ImGui::TableSetColumnIndex(2);
    results(page, key, form, bench);
    ImGui::EndTable();
    return edited;
}

} // namespace fettle::ui
