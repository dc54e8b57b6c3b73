// A worked sheet from what was typed to its answer: the one call that the window, the command line
// and a stored result being run again all make.
#pragma once

#include "base/result.h"
#include "calc/answer.h"
#include "calc/catalogue.h"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string_view>

namespace fettle::calc {

// Inputs that are not named take their preset. Fails with not_found (no such sheet), invalid (the
// first field that cannot be read), refused (the plugin says why) or plugin (it misbehaved).
Result<Answer> run_sheet(Catalogue& catalogue, std::string_view sheet_id, const TypedInputs& typed);

// The same for a form: all fields' problems at once, each to be shown beside its field. A refusal
// that blames one input stands there too. Without an answer, `failure` says why in one sentence;
// where that was the plugin's fault, `failed` is what can be kept: the inputs and that sentence.
struct SheetRun {
    std::optional<Answer> answer;
    std::optional<Answer> failed;
    Problems problems;
    std::optional<Failure> failure;
};
SheetRun try_sheet(Catalogue& catalogue, std::string_view sheet_id, const TypedInputs& typed);

// The answer in what a plugin's process wrote, which may be anything. Fails with plugin.
Result<Answer> read_answer(const FoundSheet& found, const ReadInputs& read,
                           const nlohmann::json& written);

// A kept answer worked once more with the plugin of today, from what was typed then. Inputs that
// the sheet no longer has are left out; those it has gained take their preset.
SheetRun try_again(Catalogue& catalogue, const Answer& kept);

} // namespace fettle::calc
