// Plugins that break the contract in every way we could think of: each has its own sentence, and
// the next calculation of another plugin works.
#include "base/sanitized.h"
#include "calc/plugin_folder.h"
#include "calc/run_sheet.h"

#include <fstream>

using namespace fettle;
using namespace fettle::calc;
using namespace std::chrono_literals;

namespace {

struct Fault {
    const char* name; // of the fault, and of the library
    const char* sentence_part;
};

// A crash shows as its signal; a sanitizer catches the signal and leaves with a code instead.
bool tells(const std::string& sentence, const std::string& part) {
    if (part != "crashed") return contains(sentence, part);
    return contains(sentence, "it crashed: Segmentation fault") ||
           contains(sentence, "it stopped by itself with code 1");
}

void check_echo_works(Catalogue& catalogue) {
    auto answer = run_sheet(catalogue, "echo.back", {{"text", "still here"}});
    REQUIRE(answer.ok());
    CHECK(contains(answer->outputs[0].text, "text still here"));
}

void check_refused(std::initializer_list<Fault> faults) {
    const PluginFolder folder;
    folder.add("echo");
    for (const auto& fault : faults)
        folder.add("misbehaves", fault.name);
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    for (const auto& [name, part] : faults) {
        const std::string file = std::string(name) + ".so";
        const std::string reason = reason_for(catalogue, file);
        CAPTURE(std::string(name));
        CAPTURE(reason);
        CHECK(reason.starts_with("The plugin " + file + " is refused: "));
        CHECK(tells(reason, part));
        CHECK(reason.find("..") == std::string::npos);
    }
    CHECK(catalogue.plugins().size() == 1);
    check_echo_works(catalogue);
}

void check_failing(std::initializer_list<Fault> faults, const CallLimits& limits = patient()) {
    const PluginFolder folder;
    folder.add("echo");
    for (const auto& fault : faults)
        folder.add("misbehaves", fault.name);
    std::ofstream(folder.path() / "kept") << "kept";
    Catalogue catalogue(kWorker, {folder.path()}, limits);
    REQUIRE(catalogue.refused().empty());
    for (const auto& [name, part] : faults) {
        const std::string sheet = std::string(name) + ".square";
        CAPTURE(std::string(name));
        for (int again = 0; again < 2; ++again) { // the process has been started anew
            auto answer = run_sheet(catalogue, sheet, {});
            REQUIRE_FALSE(answer.ok());
            const Failure& failure = answer.failure();
            CAPTURE(failure.sentence);
            CHECK(failure.kind == FailureKind::plugin);
            CHECK(failure.sentence.starts_with("The plugin " + std::string(name) + " failed in " +
                                               sheet + ": "));
            CHECK(tells(failure.sentence, part));
        }
        check_echo_works(catalogue);
    }
    CHECK(std::filesystem::exists(folder.path() / "kept"));
    CHECK_FALSE(std::filesystem::exists(folder.path() / "written"));
    CHECK_FALSE(std::filesystem::exists(folder.path() / "made"));
}

} // namespace

TEST_CASE("under an ordinary name the misbehaving plugin behaves") {
    const PluginFolder folder;
    folder.add("misbehaves", "good");
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    REQUIRE(catalogue.refused().empty());
    auto answer = run_sheet(catalogue, "good.square", {{"length", "20"}});
    REQUIRE(answer.ok());
    CHECK(*output_si(*answer, "area") == doctest::Approx(0.0004)); // (20 mm)²
}

TEST_CASE("a plugin that dies or throws while being loaded or described is refused") {
    check_refused({{"crash_at_load", "crashed"},
                   // ThreadSanitizer gives a code of its own.
                   {"leave_at_load", kSeeksRaces ? "it stopped by itself with code "
                                                 : "it stopped by itself with code 9"},
                   {"crash_at_describe", "crashed"},
                   {"throw_at_describe", "it threw an exception while being loaded: thrown on"}});
}

TEST_CASE("a plugin of another version of the contract is refused, naming both versions") {
    check_refused({{"serves_none", "does not serve the version asked for, and this program speaks "
                                   "version 1"},
                   {"serves_seven", "it serves version 7 of the plugin contract, and this program "
                                    "speaks version 1"},
                   {"newer_version", "version 9 of the plugin contract, which is newer, and this "
                                     "program speaks version 1"},
                   {"older_version", "version 0 of the plugin contract, which is older"}});
}

TEST_CASE("a description with short structs, null pointers or wild counts is refused") {
    check_refused({{"short_plugin", "its description in 16 bytes; 48 are needed"},
                   {"tiny_plugin", "too short to be read"},
                   {"short_sheet", "gives sheets number 1 in 16 bytes; 112 are needed"},
                   {"short_input", "gives inputs of short_input.square number 1 in 96 bytes"},
                   {"short_column", "in 0 bytes; 48 are needed"},
                   {"null_name", "null pointer for its name"},
                   {"null_sheets", "null pointer for the sheets"},
                   {"null_sheet", "null pointer for sheets number 1"},
                   {"null_input", "null pointer for inputs of null_input.square number 2"},
                   {"null_label", "null pointer for the label of inputs of null_label.square"},
                   {"null_inputs", "null pointer for the inputs of null_inputs.square"},
                   {"null_compute", "null pointer for the compute function"},
                   {"many_sheets", "it declares 1000 sheets; at most 64"},
                   {"many_inputs", "it declares 1000 inputs of many_inputs.square; at most 200"},
                   {"no_sheets", "it offers no worked sheets"},
                   {"long_title", "text of more than 10000 bytes for the title"},
                   {"not_utf8", "not valid UTF-8 for the label"}});
}

TEST_CASE("a description that contradicts itself is refused") {
    check_refused(
        {{"same_sheets", "two of one id: sheet \"same_sheets.square\""},
         {"same_inputs", "two of one id: input \"length\""},
         {"malformed_id", "an input with the id \"Overall Width\""},
         {"foreign_sheet", "a sheet with the id \"shim.square\""},
         {"other_name", "calls itself \"somebody_else\", but its file is named "
                        "\"other_name\""},
         {"unknown_quantity", "the kind of quantity \"lenght\", which does not exist"},
         {"foreign_unit", "\"N\", which is no unit of length"},
         {"foreign_inch", "\"in\", which is no unit of area"},
         {"unknown_shape", "input width, has an unknown shape"},
         {"table_output", "output area, has a shape that an output cannot have"},
         {"no_digits", "0 significant digits"},
         {"unreadable_preset", "\"ten\" in Length (length)"},
         {"preset_too_large", "\"2 m\" in Length (length): 2000 mm is out of bounds"},
         {"crossed_bounds", "a least value above its greatest"},
         {"infinite_bound", "an infinite bound for inputs of infinite_bound.square number 1"},
         {"no_choices", "offers no choices"}});
}

TEST_CASE("a file that is no library, or no plugin, is refused") {
    const PluginFolder folder;
    folder.add("echo");
    folder.add("no_entry");
    std::ofstream(folder.path() / "text.so") << "not a library at all\n";
    std::ofstream(folder.path() / "empty.so").flush();
    std::ofstream(folder.path() / "notes.txt") << "not looked at\n";
    std::filesystem::create_directory(folder.path() / "folder.so");
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    CHECK(contains(reason_for(catalogue, "no_entry.so"), "no function fettle_plugin_describe"));
    CHECK(contains(reason_for(catalogue, "text.so"), "the system cannot load it as a library"));
    CHECK(contains(reason_for(catalogue, "empty.so"), "the system cannot load it as a library"));
    CHECK(contains(reason_for(catalogue, "folder.so"), "the system cannot load it as a library"));
    CHECK(catalogue.refused().size() == 4);
    check_echo_works(catalogue);
}

TEST_CASE("a calculation that crashes, aborts, leaves or throws costs that calculation alone") {
    check_failing({{"crash_at_compute", "crashed"},
                   {"abort_at_compute", "it crashed: Aborted"},
                   {"leave_at_compute", "it stopped by itself with code 9"},
                   {"throw_at_compute", "it threw an exception: thrown on purpose"},
                   {"throw_a_number", "it threw an exception."}});
}

TEST_CASE("a calculation that asks for 100 GB is stopped by the limit on its process") {
    // AddressSanitizer refuses it by itself, and ends the process.
    check_failing(
        {{"wild_allocation", kSanitized ? "it stopped by itself with code 1"
                                        : "it asked for more memory than it is allowed"}});
}

// The limit on address space is left out under AddressSanitizer, which needs terabytes of it.
#if !defined(FETTLE_SANITIZED)
TEST_CASE("a calculation that eats memory bit by bit, or all of its stack, is stopped") {
    CallLimits limits = patient();
    limits.address_space_bytes = 256ull << 20;
    check_failing(
        {{"eats_memory", "it asked for more memory than it is allowed"}, {"eats_stack", "crashed"}},
        limits);
}
#endif

TEST_CASE("a calculation that reaches for files, programs, threads or the network is stopped") {
    check_failing({{"writes_a_file", "it tried to open the file /"},
                   {"removes_a_file", "it tried to change the file /"},
                   {"makes_a_folder", "it tried to change the file /"},
                   {"runs_a_program", "it tried what it may not (to start a process or thread, "},
                   {"uses_the_network", "it tried to use the network, which it may not"},
                   {"signals_its_caller", "it tried to reach into another process"}});
    if (!kSeeksRaces)
        check_failing(
            {{"multiplies", "it tried to start another process or thread, which it may not, and "
                            "was stopped"},
             {"starts_a_thread", "it tried what it may not (to start a process or thread, "}});
    // AddressSanitizer's reports read files.
    if (!kSanitized)
        check_failing(
            {{"opens_a_file", "it tried to open the file /etc/hostname, which it may not, "
                              "and was stopped"}});
}

TEST_CASE("a calculation cannot hide what it tries, nor answer in the worker's place") {
    check_failing({{"opens_unseen", "to open a file or to use the network), and was stopped"},
                   {"answers_noise", "its answer could not be read"},
                   {"answers_itself", "its answer cannot be read"},
                   {"fails_itself", "its answer cannot be read"},
                   {"claims_much", "its answer could not be read"},
                   {"floods", "its answer cannot be read"}});
    if (!kSeeksRaces) // under which the signal that stops it finds the plugin within a lock
        check_failing({{"opens_and_shrugs", "it tried to open the file /"}});
    if (!kSanitized) // which writes into what is closed
        check_failing({{"closes_everything", "it stopped by itself with code 1"}});
}

TEST_CASE("a library that writes or multiplies while it is loaded is refused") {
    check_refused({{"writes_at_load", "it tried to open the file /"}});
    if (!kSeeksRaces)
        check_refused({{"multiplies_at_load", "it tried to start another process or thread"}});
}

TEST_CASE("an answer that breaks the declaration fails and names the place") {
    check_failing({{"nan_output", "its output Area (area) is not a number"},
                   {"infinite_output", "its output Area (area) is infinite"},
                   {"unknown_output", "an output \"arae\" that it does not declare"},
                   {"number_as_text", "a number into the text output Remark (remark)"},
                   {"null_text", "a null pointer as the output \"remark\""},
                   {"null_id", "a null pointer as the id of an output"},
                   {"long_text", "more than 10000 bytes as the output \"remark\""},
                   {"unknown_level", "a note of the level 5"},
                   {"wrong_row", "a row of 3 cells into the table Sides (sides), which has 2"},
                   {"infinite_cell", "column Side of the table Sides is infinite"},
                   {"null_row", "a null pointer as the cells of the table Sides"},
                   {"unknown_table", "a table \"edges\" that it does not declare"},
                   {"many_rows", "more than 100000 table rows"},
                   {"many_lines", "more than 10000 lines of working"},
                   {"says_nothing", "said that it was done and gave no answer"},
                   {"unknown_code", "the unknown code 77"},
                   {"refuses_silently", "refused the inputs without saying why"},
                   {"refuses_unknown", "refused the input \"depth\", which it does not declare"}});
}

TEST_CASE("a calculation that hands over less than it says costs that calculation alone") {
    check_failing({{"text_without_end", "crashed"},
                   {"too_few_points", "crashed"},
                   {"too_few_cells", "crashed"},
                   {"wild_points", "it drew more than 100000 points into charts"},
                   {"wild_row", "a row of 4000000000 cells into the table Sides (sides)"}});
}

TEST_CASE("text that is no UTF-8 is shown with a sign in place of what cannot be read") {
    const PluginFolder folder;
    folder.add("misbehaves", "not_utf8_at_compute");
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    const auto answer = run_sheet(catalogue, "not_utf8_at_compute.square", {});
    REQUIRE(answer.ok());
    CHECK(answer->outputs[1].text == "\uFFFD(\uFFFD L½");
}

TEST_CASE("a sheet that failed with some inputs is right again with others") {
    const PluginFolder folder;
    folder.add("misbehaves", "fails_when_large");
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    for (int round = 0; round < 2; ++round) {
        CHECK_FALSE(run_sheet(catalogue, "fails_when_large.square", {{"length", "60"}}).ok());
        const auto answer = run_sheet(catalogue, "fails_when_large.square", {{"length", "20"}});
        REQUIRE(answer.ok());
        CHECK(*output_si(*answer, "area") == doctest::Approx(0.0004)); // (20 mm)²
    }
}

TEST_CASE("a calculation that never ends is stopped when patience is out") {
    CallLimits limits = patient();
    limits.compute = 1500ms;
    check_failing({{"loop_at_compute", "it gave no answer within 1500 ms and was stopped"}},
                  limits);
}

TEST_CASE("a library that never ends being loaded or described is refused when patience is out") {
    CallLimits limits = patient();
    limits.describe = 3s;
    const PluginFolder folder;
    folder.add("echo");
    folder.add("misbehaves", "loop_at_load");
    folder.add("misbehaves", "loop_at_describe");
    Catalogue catalogue(kWorker, {folder.path()}, limits);
    for (const char* file : {"loop_at_load.so", "loop_at_describe.so"})
        CHECK(contains(reason_for(catalogue, file), "it gave no answer within 3000 ms"));
    check_echo_works(catalogue);
}

TEST_CASE("a plugin's refusal reaches the field it blames and is no fault of the plugin") {
    const PluginFolder folder;
    folder.add("misbehaves", "refuses");
    Catalogue catalogue(kWorker, {folder.path()}, patient());
    const SheetRun run = try_sheet(catalogue, "refuses.square", {});
    CHECK_FALSE(run.answer);
    REQUIRE(run.failure);
    CHECK(run.failure->kind == FailureKind::refused);
    CHECK(run.failure->sentence == "Width (width): wider than the stock is not to be had.");
    CHECK(run.problems.at("width") == "wider than the stock is not to be had.");
}
