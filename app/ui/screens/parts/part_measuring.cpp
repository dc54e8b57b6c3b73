#include "ui/screens/parts/part_measuring.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"
#include "ui/widgets/typeset.h"
#include "ui/worked/chart_view.h"

#include <imgui.h>

#include <algorithm>
#include <array>

namespace fettle::ui {
namespace {

constexpr Chord kKeep{'K', true}; // Ctrl Enter writes the entry, wherever one is
constexpr float kChartsBeside = 620;
constexpr std::array kFigures = {"mean", "least", "greatest", "wear", "ovality", "taper"};
// How it was measured this time: no limits of a position.
constexpr std::array kOfTheDay = {"readings", "mating", "instrument", "uncertainty", "apart"};

Result<std::vector<ShownFeature>> read_features(const Notebook& book, PartId part) {
    auto features = desk::measured_features(book, part);
    if (!features) return features.failure();
    std::vector<ShownFeature> all;
    for (desk::MeasuredFeature& one : *features) {
        ShownFeature shown{std::move(one), {}, {}};
        if (!shown.of.measured.empty())
            shown.newest = shown_answer(shown.of.measured.front().answer);
        shown.over_time = desk::sizes_over_time(shown.of.measured);
        all.push_back(std::move(shown));
    }
    return all;
}

const std::vector<ShownFeature>& features_of(Context& context, const Part& part,
                                             PartMeasuring& state) {
    return state.features.of(context.book, part.id.value, [&](std::int64_t id) {
        return read_features(context.book, PartId{id});
    });
}

Role role_of(std::string_view verdict) {
    const auto decision = desk::decision_for(verdict);
    if (!decision) return Role::brass;
    if (*decision == Decision::reuse) return Role::verdigris;
    return *decision == Decision::repair ? Role::brass : Role::red_lead;
}

std::string words_of(const ShownAnswer& answer, std::string_view id) {
    const auto row = std::ranges::find(answer.rows, id, &calc::DisplayRow::id);
    return row == answer.rows.end() ? std::string() : row->metric;
}

void figures(Page& page, const std::string& key, const ShownAnswer& answer) {
    std::vector<FigureLine> lines;
    for (const char* id : kFigures) {
        const auto row = std::ranges::find(answer.rows, std::string(id), &calc::DisplayRow::id);
        if (row != answer.rows.end())
            lines.push_back({row->id, row->label, row->metric, row->inch});
    }
    figure_lines(page, key, lines);
}

// Over the places measured, and beside it over the days.
void charts(Page& page, const std::string& key, const ShownFeature& shown) {
    std::vector<const calc::AnsweredChart*> all;
    for (const calc::AnsweredChart& chart : shown.newest->answer.charts)
        all.push_back(&chart);
    if (shown.over_time) all.push_back(&*shown.over_time);
    const bool beside = all.size() > 1 && ImGui::GetContentRegionAvail().x > page.px(kChartsBeside);
    if (!ImGui::BeginTable((key + ".charts").c_str(), beside ? int(all.size()) : 1)) return;
    for (const calc::AnsweredChart* chart : all) {
        ImGui::TableNextColumn();
        chart_view(page, key + ".chart." + chart->chart.id, *chart);
    }
    ImGui::EndTable();
}

void take_over(Context& context, const Part& part, Decision decision) {
    Part changed = part;
    changed.decision = decision;
    context.went_well(set_part(context.book, changed));
}

// What the verdict speaks for is offered, never set by itself.
void offer(Page& page, Context& context, const Part& part, const std::string& key,
           std::string_view verdict, bool with_key) {
    const auto decision = desk::decision_for(verdict);
    if (!decision || *decision == part.decision) return;
    const ButtonLook look{.key_hint = with_key ? "D" : ""};
    const std::string label = "decide: " + std::string(word(*decision));
    if (button(page, key + ".decide", label, look) || (with_key && pressed({.key = 'D'})))
        take_over(context, part, *decision);
    ImGui::SameLine(0, page.px(Measure::kStep));
}

void earlier(Page& page, const std::string& key, const desk::MeasuredFeature& feature) {
    for (std::size_t i = 1; i < feature.measured.size(); ++i) {
        const Measurement& one = feature.measured[i].record;
        const std::string said = to_words(one.day) + "   " + one.verdict;
        fine_words(page, said, role_of(one.verdict));
        note(page, key + ".earlier." + std::to_string(i), said);
    }
}

void headline(Page& page, const std::string& key, const ShownFeature& shown) {
    const std::string verdict =
        shown.newest ? shown.of.measured.front().record.verdict : "not measured yet";
    words(page, shown.of.feature);
    ImGui::SameLine(0, page.px(Measure::kGap));
    words(page, verdict, shown.newest ? role_of(verdict) : Role::pencil);
    note(page, key, shown.of.feature, verdict);
    if (!shown.newest) return;
    ImGui::SameLine(0, page.px(Measure::kGap));
    words(page, to_words(shown.of.measured.front().record.day), Role::pencil);
    fine_print(page, words_of(*shown.newest, "because"));
    const std::string& remark = shown.of.measured.front().record.note;
    if (!remark.empty()) fine_print(page, remark, Role::ink);
}

void draw_feature(Page& page, Context& context, const Part& part, PartMeasuring& state,
                  const ShownFeature& shown, const std::string& key, bool first_offer) {
    headline(page, key, shown);
    bool& unfolded = state.unfolded[shown.of.feature];
    if (shown.newest) {
        offer(page, context, part, key, shown.of.measured.front().record.verdict, first_offer);
        if (button(page, key + ".all", unfolded ? "fold it" : "all of it",
                   {.weight = Weight::quiet}))
            unfolded = !unfolded;
        ImGui::SameLine(0, page.px(Measure::kStep));
    }
    if (button(page, key + ".again", shown.newest ? "measure again" : "measure it",
               {.weight = Weight::quiet}))
        begin_measuring(context, state, &shown);
    if (!shown.newest) return;
    if (unfolded) {
        bool working = true;
        sheet_results(page, key + ".result", *shown.newest, working, {.kept = true});
        if (shown.over_time) chart_view(page, key + ".chart.over_time", *shown.over_time);
        if (button(page, key + ".remove", "remove this measurement", {.weight = Weight::quiet}))
            context.went_well(
                remove_measurement(context.book, shown.of.measured.front().record.id));
    } else {
        figures(page, key, *shown.newest);
        gap(page);
        charts(page, key, shown);
    }
    earlier(page, key, shown.of);
    gap(page, Measure::kGap);
}

const calc::Sheet* measuring_sheet(const Context& context) {
    const auto found = context.sheets.find_sheet(desk::kMeasuringSheet);
    return found ? found->sheet : nullptr;
}

// Begins with what is known of the feature; readings already typed stay.
void begin_with(const calc::Sheet& sheet, PartMeasuring& state,
                const desk::MeasuredFeature* known) {
    const std::string readings = state.typed["readings"];
    state.typed = desk::begun_measurement(sheet, known);
    state.typed["readings"] = readings;
    state.begun_for = known ? known->feature : std::string();
}

void choose_feature(Page& page, const calc::Sheet& sheet, const std::vector<ShownFeature>& features,
                    PartMeasuring& state) {
    const FieldLook look{.label = "Feature",
                         .hint = "pin diameter, bore, lining",
                         .width = 320,
                         .take_focus = state.begins && state.feature.empty()};
    text_field(page, "part.measure.name", state.feature, look);
    Flow flow(page);
    int number = 0;
    for (const ShownFeature& one : features) {
        const ButtonLook quiet{.weight = Weight::quiet};
        flow.place_button(one.of.feature, quiet);
        if (button(page, "part.measure.known." + std::to_string(number++), one.of.feature, quiet))
            state.feature = one.of.feature;
    }
    for (const ShownFeature& one : features) {
        const bool named = lower_ascii(trim(state.feature)) == lower_ascii(one.of.feature);
        if (named && state.begun_for != one.of.feature) begin_with(sheet, state, &one.of);
    }
}

void keep(Context& context, SideWork& work, const Part& part, PartMeasuring& state) {
    const auto day = trim(state.day).empty() ? Result<Day>(today()) : parse_day(state.day);
    if (!day) {
        state.trouble = day.failure().sentence;
        return;
    }
    state.trouble.clear();
    work.ask<Result<desk::Measured>>(
        state.keeping,
        [&book = context.book, &sheets = context.sheets,
         readings = desk::Readings{part.id, state.feature, state.typed, *day, state.remark}] {
            return desk::measure(book, sheets, readings);
        });
}

void take_kept(Context& context, PartMeasuring& state) {
    const auto kept = state.keeping->take();
    if (!kept) return;
    if (context.went_well(*kept)) {
        state.open = false;
        state.typed.clear();
        return;
    }
    state.trouble = kept->failure().sentence;
    context.trouble.clear(); // it stands in the form
}

void keep_limits(Context& context, const Part& part, PartMeasuring& state) {
    PositionFeature limits{part.position, state.feature, state.typed};
    for (const char* id : kOfTheDay)
        limits.typed.erase(id);
    const Done written = desk::set_limits(context.book, context.sheets, limits);
    state.trouble = written ? std::string() : written.failure().sentence;
    if (written) context.went_well(written);
}

void acts(Page& page, Context& context, SideWork& work, const Part& part, PartMeasuring& state) {
    if (!state.trouble.empty()) notice(page, "part.measure.trouble", Tell::stop, state.trouble);
    Flow flow(page);
    const auto act = [&](std::string_view key, std::string_view label, const ButtonLook& look) {
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    const std::string hint = words_of(kKeep);
    if (act("part.measure.keep", "keep the measurement",
            {.weight = Weight::next, .key_hint = hint}) ||
        pressed(kKeep, true))
        keep(context, work, part, state);
    if (part.position && act("part.measure.limits", "keep the limits for " + part.position_name,
                             {.weight = Weight::quiet}))
        keep_limits(context, part, state);
    if (act("part.measure.leave", "leave", {.weight = Weight::quiet, .key_hint = "Esc"}) ||
        pressed({.key = static_cast<int>(Key::escape)}))
        state.open = false;
}

} // namespace

void begin_measuring(Context& context, PartMeasuring& state, const ShownFeature* known) {
    state.open = state.begins = true;
    state.feature = known ? known->of.feature : std::string();
    state.day.clear();
    state.remark.clear();
    state.trouble.clear();
    state.form = {};
    state.typed.clear();
    if (const calc::Sheet* sheet = measuring_sheet(context))
        begin_with(*sheet, state, known ? &known->of : nullptr);
}

void draw_measurements(Page& page, Context& context, const Part& part, PartMeasuring& state) {
    const auto& features = features_of(context, part, state);
    gap(page, Measure::kMargin);
    words(page, "Measurements");
    ImGui::SameLine(0, page.px(Measure::kStep));
    const auto measured = std::ranges::count_if(
        features, [](const ShownFeature& one) { return one.newest.has_value(); });
    words(page, std::to_string(measured), Role::pencil);
    rule(page);
    if (!state.features.failure().empty())
        notice(page, "part.measured.trouble", Tell::stop, state.features.failure());
    if (features.empty())
        fine_print(page, "Nothing measured yet: readings are held against limits and judged.");
    if (button(page, "part.measure", "measure", {.key_hint = "M"}) || pressed({.key = 'M'}))
        begin_measuring(context, state, features.size() == 1 ? &features.front() : nullptr);
    gap(page);
    int number = 0;
    bool offered = false;
    for (const ShownFeature& one : features) {
        const bool offers =
            one.newest && desk::decision_for(one.of.measured.front().record.verdict).has_value();
        draw_feature(page, context, part, state, one, "part.measured." + std::to_string(number++),
                     offers && !offered);
        offered = offered || offers;
    }
}

void draw_measuring(Page& page, Context& context, SideWork& work, const Part& part,
                    PartMeasuring& state) {
    take_kept(context, state);
    if (state.begins) ImGui::SetScrollY(0);
    const auto& features = features_of(context, part, state);
    heading(page, "Measure " + part.name);
    gap(page);
    const calc::Sheet* sheet = measuring_sheet(context);
    if (sheet == nullptr) {
        notice(page, "part.measure.trouble", Tell::stop,
               "The worked sheet fit.wear is not installed: nothing judges the readings.");
        if (button(page, "part.measure.leave", "leave", {.key_hint = "Esc"}) ||
            pressed({.key = static_cast<int>(Key::escape)}))
            state.open = false;
        return;
    }
    choose_feature(page, *sheet, features, state);
    const auto day = parse_day(state.day);
    date_field(page, "part.measure.day", state.day,
               {.label = "Measured on",
                .hint = "today",
                .other = day ? to_words(*day) : std::string(),
                .error = day || state.day.empty() ? std::string() : day.failure().sentence,
                .width = 160});
    text_field(page, "part.measure.note", state.remark, {.label = "Note", .width = 320});
    gap(page);
    acts(page, context, work, part, state);
    rule(page);
    gap(page);
    // The readings of a known feature are its first field, otherwise the feature's name is.
    if (state.begins && !state.feature.empty()) ImGui::SetKeyboardFocusHere();
    state.begins = false;
    sheet_form(page, "part.measure.sheet", *sheet, state.typed, state.form,
               {context.sheets, work, false});
}

} // namespace fettle::ui
