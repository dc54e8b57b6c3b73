#include "cli/verb.h"
#include "cli/verbs.h"

namespace fettle::cli {
namespace {

struct NoWish {};

Result<Report> undo(const Call& call, const NoWish&) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto words = notebook->undo();
    if (!words) return words.failure();
    return Report{one_line("undone: " + *words) + '\n', {{"undone", *words}}};
}

Result<Report> redo(const Call& call, const NoWish&) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto words = notebook->redo();
    if (!words) return words.failure();
    return Report{one_line("redone: " + *words) + '\n', {{"redone", *words}}};
}

} // namespace

void add_history(Line& line) {
    add_verb<NoWish>(
        line, line.app, "undo", "Take the last step back",
        [](CLI::App& verb, NoWish&) { verb.footer("JSON: {undone}, the words of the step."); },
        undo);
    add_verb<NoWish>(
        line, line.app, "redo", "Do the step again that was last taken back",
        [](CLI::App& verb, NoWish&) { verb.footer("JSON: {redone}, the words of the step."); },
        redo);
}

} // namespace fettle::cli
