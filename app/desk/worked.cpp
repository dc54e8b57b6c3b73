#include "desk/worked.h"

#include "calc/run_sheet.h"

#include <nlohmann/json.hpp>

namespace fettle::desk {

WorkedResult to_record(const calc::Answer& answer) {
    WorkedResult record;
    record.sheet = answer.sheet_id;
    record.plugin_version = answer.plugin_version;
    record.answer = calc::to_json(answer).dump();
    return record;
}

Result<calc::Answer> answer_of(const WorkedResult& record) {
    auto json = nlohmann::json::parse(record.answer, nullptr, false);
    if (json.is_discarded())
        return Failure{FailureKind::damaged,
                       "The worked result " + record.sheet + " kept here cannot be read."};
    return calc::from_json(json);
}

namespace {

// What was typed, and what the sheet is begun with at that place.
Result<calc::TypedInputs> typed_at(const Notebook& notebook, calc::Catalogue& sheets,
                                   std::string_view sheet, const calc::TypedInputs& typed,
                                   const SheetPlace& place) {
    const auto found = sheets.find_sheet(sheet);
    if (!found) return found.failure();
    const auto begun = begun_inputs(notebook, *found->sheet, place);
    if (!begun) return begun.failure();
    calc::TypedInputs all = typed;
    all.insert(begun->begin(), begun->end()); // what was typed goes before
    return all;
}

} // namespace

Result<calc::Answer> work_at(const Notebook& notebook, calc::Catalogue& sheets,
                             std::string_view sheet, const calc::TypedInputs& typed,
                             const SheetPlace& place) {
    const auto all = typed_at(notebook, sheets, sheet, typed, place);
    return all ? calc::run_sheet(sheets, sheet, *all) : Result<calc::Answer>(all.failure());
}

Result<calc::Answer> work_on_entry(Notebook& notebook, calc::Catalogue& sheets, EntryId entry,
                                   std::string_view sheet, const calc::TypedInputs& typed) {
    // Not calculated in vain, and the sentence comes first: is the entry there?
    const auto there = entry_by_id(notebook, entry);
    if (!there) return there.failure();
    const auto all = typed_at(notebook, sheets, sheet, typed, {there->day, there->tasks});
    if (!all) return all.failure();
    const auto run = calc::try_sheet(sheets, sheet, *all);
    const auto& kept = run.answer ? run.answer : run.failed;
    if (!kept) return *run.failure;
    if (auto added = add_result(notebook, entry, to_record(*kept)); !added) return added.failure();
    return *kept;
}

Result<RunAgain> run_again(calc::Catalogue& sheets, const WorkedResult& record) {
    auto kept = answer_of(record);
    if (!kept) return kept.failure();
    calc::SheetRun run = calc::try_again(sheets, *kept);
    if (run.failure) return *run.failure;
    const bool same = calc::agree(*kept, *run.answer);
    return RunAgain{std::move(*kept), std::move(*run.answer), same};
}

} // namespace fettle::desk
