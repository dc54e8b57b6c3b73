#include "notebook/bench.h"

#include "base/marked_text.h"
#include "base/text.h"
#include "cli/records.h"
#include "cli/task_report.h"
#include "cli/verbs.h"
#include "desk/drafting.h"
#include "notebook/drafts.h"
#include "notebook/weather.h"

namespace fettle::cli {
namespace {

struct BenchWish {
    std::string hours, temperature;
};

void declare_bench(CLI::App& verb, BenchWish& wish) {
    verb.add_option("--hours", wish.hours, "Keep how long one has today")->option_text("HOURS");
    verb.add_option("--temperature", wish.temperature, "Keep how warm it is today")
        ->option_text("T");
    verb.footer(
        std::string("What can be done now, what waits, and what needs a look.\n"
                    "JSON: {hours, temperature_c, ready, waits, out, look}; ready and "
                    "waits are lists of\n") +
        kTaskFields +
        ";\nready with fits; out a list of {consignment, firm, purpose, state, standing}; "
        "look {overdue, packed,\narrivals [{consignment, part, firm, on}], seen "
        "[{consignment, photo, parts}], untied_photos,\nruns_to_confirm, draft}, overdue and "
        "packed as out; draft is the text of the entry not written\nyet.");
}

Done keep_day(Notebook& notebook, const BenchWish& wish) {
    if (!wish.hours.empty()) {
        auto hours = desk::parse_hours(wish.hours);
        if (!hours) return hours.failure();
        if (auto kept = set_hours_of_day(notebook, today(), *hours); !kept) return kept;
    }
    if (wish.temperature.empty()) return done();
    auto celsius = parse_celsius(wish.temperature);
    if (!celsius) return celsius.failure();
    auto weather = weather_on(notebook, today());
    if (!weather) return weather.failure();
    weather->temperature_c = *celsius;
    return set_weather(notebook, today(), *weather);
}

Json fields_on_bench(const Consignment& one) {
    static constexpr const char* kStates[] = {"packed", "out", "overdue", "over"};
    return {{"consignment", one.id.value},
            {"firm", one.firm},
            {"purpose", one.purpose},
            {"state", kStates[static_cast<int>(one.state(today()))]},
            {"standing", standing_words(one, today())}};
}

// The consignments in one state, as lines and as JSON.
Json consignments_in(const OnBench& bench, ConsignmentState state, Columns& lines) {
    Json list = Json::array();
    for (const Consignment& one : bench.consignments) {
        if (one.state(today()) != state) continue;
        lines.row({"consignment " + std::to_string(one.id.value), one.firm + ", " + one.purpose,
                   standing_words(one, today())});
        list.push_back(fields_on_bench(one));
    }
    return list;
}

Json tasks_ready(const OnBench& bench, const Names& names, Columns& lines) {
    Json list = Json::array();
    for (const NextTask& next : what_next(bench.tasks, bench.hours)) {
        const TaskStanding& standing = *next.standing;
        lines.row({"task " + std::to_string(standing.task.id.value), standing.task.title,
                   hours_in_words(standing.left_hours), unlocks_in_words(standing),
                   next.fits ? "" : "longer than there is time"});
        Json fields = to_json(standing, names);
        fields["fits"] = next.fits;
        list.push_back(std::move(fields));
    }
    return list;
}

Json tasks_waiting(const OnBench& bench, const Names& names, Columns& lines) {
    Json list = Json::array();
    for (const TaskStanding& standing : bench.tasks) {
        if (standing.waits.empty()) continue;
        lines.row({"task " + std::to_string(standing.task.id.value), standing.task.title,
                   waits_in_words(standing)});
        list.push_back(to_json(standing, names));
    }
    return list;
}

Json needs_a_look(const OnBench& bench, const EntryDraft& draft, Columns& lines) {
    Json look;
    look["draft"] = draft.text;
    if (!draft.blank()) lines.row({"draft", first_line_of_marked(draft.text)});
    look["overdue"] = consignments_in(bench, ConsignmentState::overdue, lines);
    look["packed"] = consignments_in(bench, ConsignmentState::packed, lines);
    look["seen"] = Json::array();
    for (const SeenArrival& seen : bench.seen) {
        lines.row({"photo " + std::to_string(seen.photo.value),
                   "shows " + join(seen.tags, ", ") + ", awaited with consignment " +
                       std::to_string(seen.consignment.value)});
        look["seen"].push_back({{"consignment", seen.consignment.value},
                                {"photo", seen.photo.value},
                                {"parts", seen.tags}});
    }
    look["arrivals"] = Json::array();
    for (const Arrival& arrival : bench.arrivals) {
        lines.row(
            {arrival.tag, arrival.name, "came from " + arrival.firm + ' ' + to_words(arrival.on)});
        look["arrivals"].push_back({{"consignment", arrival.consignment.value},
                                    {"part", arrival.tag},
                                    {"firm", arrival.firm},
                                    {"on", to_iso(arrival.on)}});
    }
    if (bench.runs_to_confirm > 0)
        lines.row({"photos", std::to_string(bench.runs_to_confirm) + " runs to confirm"});
    if (bench.untied_photos > 0)
        lines.row({"photos", std::to_string(bench.untied_photos) + " tied to nothing"});
    look["untied_photos"] = bench.untied_photos;
    look["runs_to_confirm"] = bench.runs_to_confirm;
    return look;
}

std::string headed(const std::string& head, const Columns& lines, const std::string& none) {
    return head + '\n' + (lines.empty() ? "  " + none + '\n' : lines.text(2));
}

Result<Report> show_bench(const Call& call, const BenchWish& wish) {
    const bool keeps = !wish.hours.empty() || !wish.temperature.empty();
    auto notebook = keeps ? call.for_writing() : call.for_reading();
    if (!notebook) return notebook.failure();
    if (auto kept = keep_day(*notebook, wish); !kept) return kept.failure();
    auto bench = on_bench(*notebook, today());
    if (!bench) return bench.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    auto draft = kept_draft(*notebook);
    if (!draft) return draft.failure();
    Columns ready, waits, look;
    const auto figure = [](const std::optional<double>& value) {
        return value ? Json(*value) : Json(nullptr);
    };
    Json json = {{"hours", figure(bench->hours)},
                 {"temperature_c", figure(bench->temperature_c)},
                 {"ready", tasks_ready(*bench, *names, ready)},
                 {"out", consignments_in(*bench, ConsignmentState::out, waits)},
                 {"waits", tasks_waiting(*bench, *names, waits)},
                 {"look", needs_a_look(*bench, *draft, look)}};
    return Report{headed("can be done now", ready, "nothing") + headed("waits", waits, "nothing") +
                      headed("needs a look", look, "nothing"),
                  std::move(json)};
}

} // namespace

void add_bench(Line& line) {
    add_verb(line, line.app, "bench", "What can be done now, what waits, what needs a look",
             declare_bench, show_bench);
}

} // namespace fettle::cli
