#include "desk/measuring.h"

#include "base/text.h"
#include "calc/run_sheet.h"
#include "desk/worked.h"
#include "notebook/parts.h"

#include <algorithm>
#include <chrono>

namespace fettle::desk {
namespace {

constexpr std::string_view kReadings = "readings";

MeasuredFeature& feature_in(std::vector<MeasuredFeature>& features, const std::string& name) {
    for (MeasuredFeature& one : features)
        if (lower_ascii(one.feature) == lower_ascii(name)) return one;
    features.push_back({name, {}, {}});
    return features.back();
}

// Its verdict, in the sheet's word.
std::string verdict_of(const calc::Answer& answer) {
    for (const calc::AnsweredOutput& one : answer.outputs)
        if (one.output.id == "verdict") return one.text;
    return {};
}

const calc::AnsweredInput* input_of(const calc::Answer& answer, std::string_view id) {
    for (const calc::AnsweredInput& one : answer.inputs)
        if (one.input.id == id) return &one;
    return nullptr;
}

double seconds_between(Day first, Day last) {
    const auto days = std::chrono::sys_days(last) - std::chrono::sys_days(first);
    return std::chrono::duration<double>(days).count();
}

void draw_limit(const calc::Answer& newest, const char* id, double until,
                calc::AnsweredChart& chart) {
    const auto* limit = input_of(newest, id);
    if (limit == nullptr || !limit->value.given) return;
    chart.series.push_back({lower_ascii(limit->input.label),
                            calc::Look::dashed,
                            {{0, limit->value.number}, {until, limit->value.number}}});
}

} // namespace

Result<std::vector<MeasuredFeature>> measured_features(const Notebook& notebook, PartId id) {
    const auto part = part_by_id(notebook, id);
    if (!part) return part.failure();
    std::vector<MeasuredFeature> features;
    if (part->position) {
        const auto limits = list_features(notebook, part->position);
        if (!limits) return limits.failure();
        for (const PositionFeature& one : *limits)
            feature_in(features, one.feature).limits = one.typed;
    }
    auto kept = list_measurements(notebook, id);
    if (!kept) return kept.failure();
    for (Measurement& one : *kept) {
        auto answer = answer_of({.id = {},
                                 .entry = {},
                                 .sheet = one.sheet,
                                 .plugin_version = one.plugin_version,
                                 .answer = one.answer});
        if (!answer) return answer.failure();
        feature_in(features, one.feature).measured.push_back({std::move(one), std::move(*answer)});
    }
    std::ranges::sort(features, {},
                      [](const MeasuredFeature& one) { return lower_ascii(one.feature); });
    return features;
}

const MeasuredFeature* feature_named(const std::vector<MeasuredFeature>& features,
                                     std::string_view name) {
    const std::string wanted = lower_ascii(trim(name));
    const auto found = std::ranges::find_if(
        features, [&](const MeasuredFeature& one) { return lower_ascii(one.feature) == wanted; });
    return found == features.end() ? nullptr : &*found;
}

calc::TypedInputs begun_measurement(const calc::Sheet& sheet, const MeasuredFeature* known) {
    calc::TypedInputs typed;
    const auto take = [&](const calc::TypedInputs& from) {
        for (const auto& [id, text] : from)
            if (auto place = typed.find(id); place != typed.end()) place->second = text;
    };
    for (const calc::Input& input : sheet.inputs)
        typed[input.id] = input.choices.empty() ? std::string() : input.choices.front();
    if (known == nullptr) return typed;
    if (!known->measured.empty()) take(calc::typed_inputs(known->measured.front().answer));
    take(known->limits);
    typed[std::string(kReadings)].clear();
    return typed;
}

Result<Measured> measure(Notebook& notebook, calc::Catalogue& sheets, const Readings& readings) {
    const auto found = sheets.find_sheet(kMeasuringSheet);
    if (!found) return found.failure();
    const auto features = measured_features(notebook, readings.part);
    if (!features) return features.failure();
    const MeasuredFeature* known = feature_named(*features, readings.feature);
    calc::TypedInputs all = readings.typed;
    const calc::TypedInputs begun = begun_measurement(*found->sheet, known);
    all.insert(begun.begin(), begun.end()); // what was typed goes before
    auto answer = calc::run_sheet(sheets, kMeasuringSheet, all);
    if (!answer) return answer.failure();
    const WorkedResult whole = to_record(*answer);
    Measurement record{.id = {},
                       .part = readings.part,
                       .feature = known ? known->feature : readings.feature,
                       .day = readings.day,
                       .sheet = whole.sheet,
                       .plugin_version = whole.plugin_version,
                       .answer = whole.answer,
                       .verdict = verdict_of(*answer),
                       .note = readings.note};
    const auto kept = keep_measurement(notebook, record);
    if (!kept) return kept.failure();
    record.id = *kept;
    return Measured{std::move(record), std::move(*answer)};
}

Done set_limits(Notebook& notebook, const calc::Catalogue& sheets, const PositionFeature& limits) {
    const auto found = sheets.find_sheet(kMeasuringSheet);
    if (!found) return found.failure();
    auto known = list_features(notebook, limits.position);
    if (!known) return known.failure();
    PositionFeature written{limits.position, limits.feature, {}};
    for (const PositionFeature& one : *known)
        if (lower_ascii(one.feature) == lower_ascii(trim(limits.feature))) written = one;
    for (const auto& [id, text] : limits.typed) {
        const calc::Input* input = calc::find_by_id(found->sheet->inputs, id);
        if (input == nullptr || id == kReadings) {
            std::string accepted;
            for (const calc::Input& one : found->sheet->inputs)
                if (one.id != kReadings) accepted += (accepted.empty() ? "" : ", ") + one.id;
            return Failure{FailureKind::invalid,
                           "\"" + id + "\" is no limit: accepted are " + accepted + "."};
        }
        written.typed.erase(id);
        if (trim(text).empty()) continue;
        if (const auto read = calc::read_input(*input, text); !read) return read.failure();
        written.typed[id] = text;
    }
    return keep_feature(notebook, written);
}

std::optional<Decision> decision_for(std::string_view verdict) {
    for (const Decision decision : {Decision::reuse, Decision::repair, Decision::replace})
        if (verdict == word(decision)) return decision;
    return std::nullopt;
}

std::optional<calc::AnsweredChart> sizes_over_time(const std::vector<Measured>& newest_first) {
    if (newest_first.size() < 2) return std::nullopt;
    const Day first = newest_first.back().record.day;
    const calc::Answer& newest = newest_first.front().answer;
    const double until = seconds_between(first, newest_first.front().record.day);
    if (until <= 0) return std::nullopt;
    const auto* kind = input_of(newest, "feature");
    const bool bore = kind != nullptr && kind->value.text.starts_with("bore");
    const char* worst = bore ? "greatest" : "least";
    calc::AnsweredChart chart;
    chart.chart = {.id = "over_time",
                   .label = "Over time",
                   .to_scale = false,
                   .x = {"Since " + to_words(first), "time", "d", ""},
                   .y = {"Size", "length", "mm", "in"}};
    chart.series = {{"mean", calc::Look::line, {}}, {worst, calc::Look::dots, {}}};
    for (auto one = newest_first.rbegin(); one != newest_first.rend(); ++one) {
        const double at = seconds_between(first, one->record.day);
        if (const auto mean = calc::output_si(one->answer, "mean"))
            chart.series[0].points.push_back({at, *mean});
        if (const auto size = calc::output_si(one->answer, worst))
            chart.series[1].points.push_back({at, *size});
    }
    for (const char* limit : {"new_lower", "new_upper", "wear_limit"})
        draw_limit(newest, limit, until, chart);
    return chart;
}

} // namespace fettle::desk
