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

Result<calc::Answer> work_on_entry(Notebook& notebook, calc::Catalogue& sheets, EntryId entry,
                                   std::string_view sheet, const calc::TypedInputs& typed) {
    // Not calculated in vain, and the sentence comes first: is the entry there?
    if (auto there = entry_by_id(notebook, entry); !there) return there.failure();
    auto answer = calc::run_sheet(sheets, sheet, typed);
    if (!answer) return answer;
    if (auto kept = add_result(notebook, entry, to_record(*answer)); !kept) return kept.failure();
    return answer;
}

Result<RunAgain> run_again(calc::Catalogue& sheets, const WorkedResult& record) {
    auto kept = answer_of(record);
    if (!kept) return kept.failure();
    auto fresh = calc::run_sheet(sheets, kept->sheet_id, calc::typed_inputs(*kept));
    if (!fresh) return fresh.failure();
    const bool same = calc::agree(*kept, *fresh);
    return RunAgain{std::move(*kept), std::move(*fresh), same};
}

} // namespace fettle::desk
