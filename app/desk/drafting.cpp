#include "desk/drafting.h"

#include "base/names_in_text.h"
#include "base/quantity.h"
#include "calc/run_sheet.h"
#include "desk/worked.h"

#include <algorithm>
#include <charconv>
#include <numeric>

namespace fettle::desk {
namespace {

Failure no_hours(const std::string& text) {
    return {FailureKind::invalid, "\"" + text +
                                      "\" in Hours is no time: accepted are hours such as 2, 1.5, "
                                      "1 1/2 or 1:30, or minutes such as 90 min."};
}

bool whole_number(std::string_view text, int& number) {
    auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    return error == std::errc() && end == text.data() + text.size() && number >= 0;
}

Result<Day> day_of(const EntryDraft& draft) {
    if (draft.day.empty()) return today();
    return parse_day(draft.day);
}

// The kept result of this sheet with these very inputs, to be left as it is.
const WorkedResult* untouched(const Entry& before, const DraftSheet& sheet) {
    auto same = std::ranges::find_if(before.results, [&](const WorkedResult& result) {
        if (result.sheet != sheet.sheet) return false;
        auto answer = answer_of(result);
        return answer && !answer->failed && calc::typed_inputs(*answer) == sheet.inputs;
    });
    return same == before.results.end() ? nullptr : &*same;
}

Done work_sheets(calc::Catalogue& sheets, const EntryDraft& draft, const Entry& before,
                 Entry& entry) {
    for (const auto& sheet : draft.sheets) {
        if (auto kept = untouched(before, sheet)) {
            entry.results.push_back(*kept);
            continue;
        }
        const auto run = calc::try_sheet(sheets, sheet.sheet, sheet.inputs);
        if (const auto& kept = run.answer ? run.answer : run.failed) {
            entry.results.push_back(to_record(*kept));
            continue;
        }
        auto failure = *run.failure;
        failure.sentence = "The sheet " + sheet.sheet + " has no result yet: " + failure.sentence;
        return failure;
    }
    return done();
}

// Which of its kind each result is, counted in the order given.
std::vector<std::int64_t> numbers_in(const std::vector<WorkedResult>& results,
                                     const std::vector<std::size_t>& order) {
    std::vector<std::int64_t> numbers(results.size());
    std::map<std::string, std::int64_t> counted;
    for (const std::size_t at : order)
        numbers[at] = ++counted[results[at].sheet];
    return numbers;
}

// The notebook has results that stayed as they were before fresh ones: what the text names moves.
std::string named_as_kept(const std::string& text, const std::vector<WorkedResult>& results) {
    std::vector<std::size_t> order(results.size());
    std::iota(order.begin(), order.end(), 0U);
    const auto typed = numbers_in(results, order);
    std::ranges::stable_sort(order, {}, [&](std::size_t at) {
        const WorkedResultId id = results[at].id;
        return std::pair(!id, id.value);
    });
    const auto kept = numbers_in(results, order);
    return renamed(text, [&](NameInText name) -> std::optional<NameInText> {
        for (std::size_t at = 0; at < results.size(); ++at)
            if (name.kind == NameInText::Kind::sheet && results[at].sheet == name.sheet &&
                typed[at] == name.number) {
                name.number = kept[at];
                break;
            }
        return name;
    });
}

} // namespace

Result<std::optional<double>> parse_hours(const std::string& text) {
    if (text.find_first_not_of(' ') == std::string::npos) return std::optional<double>();
    const auto colon = text.find(':');
    if (colon != std::string::npos) {
        int hours = 0, minutes = 0;
        if (!whole_number(std::string_view(text).substr(0, colon), hours) ||
            !whole_number(std::string_view(text).substr(colon + 1), minutes) || minutes > 59)
            return no_hours(text);
        return std::optional<double>(hours + minutes / 60.0);
    }
    auto time = parse_quantity(text, "time", "h");
    if (!time || time->si < 0) return no_hours(text);
    return std::optional<double>(time->si / 3600);
}

Result<EntryId> write_draft(Notebook& notebook, calc::Catalogue& sheets, const EntryDraft& draft) {
    Entry before;
    if (draft.editing) {
        auto kept = entry_by_id(notebook, draft.editing);
        if (!kept) return kept.failure();
        before = std::move(*kept);
    }
    auto day = day_of(draft);
    if (!day) return day.failure();
    auto hours = parse_hours(draft.hours);
    if (!hours) return hours.failure();
    Entry entry{.id = draft.editing,
                .day = *day,
                .hours = *hours,
                .text = draft.text,
                .parts = draft.parts,
                .tasks = draft.tasks,
                .photos = draft.photos};
    if (auto worked = work_sheets(sheets, draft, before, entry); !worked) return worked.failure();
    entry.text = named_as_kept(draft.text, entry.results);
    auto id = write_entry(notebook, entry);
    if (!id) return id;
    if (auto dropped = drop_draft(notebook); !dropped) return dropped.failure();
    return id;
}

Result<EntryDraft> draft_of(const Notebook& notebook, EntryId id) {
    auto entry = entry_by_id(notebook, id);
    if (!entry) return entry.failure();
    EntryDraft draft{.editing = id,
                     .day = to_iso(entry->day),
                     .hours = entry->hours ? format_number(*entry->hours, 6) : std::string(),
                     .text = entry->text,
                     .parts = entry->parts,
                     .tasks = entry->tasks,
                     .photos = entry->photos};
    for (const auto& result : entry->results) {
        auto answer = answer_of(result);
        if (!answer) return answer.failure();
        draft.sheets.push_back({result.sheet, calc::typed_inputs(*answer)});
    }
    return draft;
}

} // namespace fettle::desk
