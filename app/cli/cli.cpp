#include "cli/cli.h"

#include "base/text.h"
#include "base/whole_number.h"
#include "cli/grammar.h"
#include "cli/verb.h"
#include "cli/verbs.h"

#include <algorithm>
#include <cstdlib>

namespace fettle::cli {
namespace {

namespace fs = std::filesystem;

constexpr const char* kAbout =
    "Fettlebook keeps the notebook of a rebuild: photos, parts, tasks, the build log and worked "
    "sheets.\nWithout a verb it opens the window.";
constexpr const char* kFooter =
    "Exit code: 0 done; 1 refused or failed, with one sentence on standard error; 2 not a "
    "command.\n"
    "`fettlebook VERB --help` tells more about a verb and the fields of its JSON.";

struct Globals {
    std::string notebook = ".";
    std::string folder;   // of `fettlebook DIR`
    std::string pictures; // of `fettlebook DIR --pictures OUT`
    std::vector<std::string> sizes;
    std::string letters = "100";
    bool json = false;
};

void declare_globals(CLI::App& app, Globals& globals) {
    app.name("fettlebook");
    app.description(kAbout);
    app.footer(kFooter);
    app.fallthrough(); // verbs inherit it: global options may stand behind the verb, too
    app.require_subcommand(0, 1);
    app.get_formatter()->label("SUBCOMMAND", "VERB");
    app.get_formatter()->label("TEXT", "");
    app.add_option("--notebook", globals.notebook,
                   "The notebook's folder; without it $FETTLEBOOK, else the current folder")
        ->option_text("DIR")
        ->envname("FETTLEBOOK");
    app.add_flag("--json", globals.json, "Print JSON instead of text");
    app.add_option("DIR", globals.folder,
                   "Without a verb: the notebook whose window to open, or its notebook.db");
    app.add_option("--pictures", globals.pictures,
                   "Without a verb: draw every screen into PNG files in this folder, and end")
        ->option_text("OUT");
    app.add_option("--size", globals.sizes,
                   "With --pictures: their size in pixels instead of 1280x800 and 1920x1080; again "
                   "for more")
        ->option_text("WIDTHxHEIGHT")
        ->allow_extra_args(false);
    app.add_option("--letters", globals.letters,
                   "With --pictures: the size of letters in percent, 80 to 250")
        ->option_text("PERCENT");
    app.set_version_flag("--version", FETTLEBOOK_VERSION, "Print the version and end");
}

void declare_verbs(Line& line) {
    add_start(line);
    add_take_in(line);
    add_watch(line);
    add_photos(line);
    add_tie(line);
    add_runs(line);
    add_clock(line);
    add_tags(line);
    add_export(line);
    add_positions(line);
    add_position_verbs(line);
    add_missing(line);
    add_parts(line);
    add_bench(line);
    add_rebuild(line);
    add_tasks(line);
    add_log(line);
    add_marks(line);
    add_makers(line);
    add_torch(line);
    add_measure(line);
    add_evidence(line);
    add_send(line);
    add_receive(line);
    add_costs(line);
    add_people(line);
    add_calc(line);
    add_book(line);
    add_find(line);
    add_history(line);
    add_keeping(line);
    add_salvage(line);
    add_data(line);
    add_two_machines(line);
    add_demo(line);
}

// The words of the verb the arguments have reached: "fettlebook part add".
std::string reached(const CLI::App& app) {
    std::string words = app.get_name();
    for (const CLI::App* at = &app; !at->get_subcommands().empty();) {
        at = at->get_subcommands().front();
        words += ' ' + at->get_name();
    }
    return words;
}

std::string usage_sentence(const CLI::App& app, const CLI::ParseError& error) {
    std::string what = one_line(error.what());
    const std::string words = reached(app);
    if (what == "A subcommand is required") what = "one more word is needed, such as add or list";
    return words + ": " + what + "; `" + words + " --help` tells what is accepted.";
}

// CLI11 takes [a,b] among several values for a list of two; a folder may well be called so.
std::vector<std::string> shielded(std::vector<std::string> arguments) {
    if (std::ranges::find(arguments, "take-in") == arguments.end() &&
        std::ranges::find(arguments, "watch") == arguments.end())
        return arguments;
    for (auto& argument : arguments)
        if (argument.starts_with('[') && argument.ends_with(']')) argument.insert(0, "./");
    return arguments;
}

// Sentences made for a place beside a field may come without their full stop.
int refuse(std::ostream& err, const std::string& sentence) {
    err << one_line(sentence) << (sentence.ends_with('.') ? "" : ".") << std::endl;
    return kRefused;
}

int print(const Result<Report>& report, bool json, const Streams& streams) {
    if (!report) return refuse(streams.err, report.failure().sentence);
    // No words of the record, nor names of files, are orders to a terminal.
    streams.out << (json ? dumped(report->json) : harmless(report->text)) << std::flush;
    if (!streams.out) return refuse(streams.err, "The report could not be written out.");
    return report->failed ? kRefused : kDone;
}

// File managers open a notebook by the one file in it that they know.
fs::path notebook_folder(const fs::path& typed) {
    std::error_code error;
    if (typed.filename() != "notebook.db" || !fs::is_regular_file(typed, error)) return typed;
    return typed.has_parent_path() ? typed.parent_path() : fs::path(".");
}

// Menus start programs in the home folder, which is no place for a notebook: it stands below it.
std::optional<fs::path> below_home(const Globals& globals) {
    const char* home = std::getenv("HOME");
    std::error_code error;
    if (!globals.folder.empty() || globals.notebook != "." || !home || *home != '/' ||
        !fs::equivalent(".", home, error) || fs::exists("notebook.db", error))
        return std::nullopt;
    return fs::path(home) / "Fettlebook";
}

// A folder, or a path where there is nothing yet: the window offers to make a notebook there.
bool may_hold_notebook(const fs::path& folder) {
    std::error_code error;
    return fs::is_directory(folder, error) ||
           (folder.has_parent_path() && !fs::exists(folder, error));
}

// "1280x800", from 640x480 to 7680x4320.
std::optional<std::pair<int, int>> picture_size(std::string_view typed) {
    const auto parts = split(typed, 'x');
    if (parts.size() != 2) return std::nullopt;
    const auto width = whole_number(parts[0]), height = whole_number(parts[1]);
    if (!width || !height || *width < 640 || *width > 7680 || *height < 480 || *height > 4320)
        return std::nullopt;
    return std::pair(*width, *height);
}

// How the pictures are wanted; a sentence when it cannot be so.
Done read_pictures(const Globals& globals, WindowWanted& window) {
    if (!globals.pictures.empty()) window.pictures = globals.pictures;
    for (const std::string& typed : globals.sizes) {
        const auto size = picture_size(typed);
        if (!size)
            return Failure{FailureKind::invalid, "--size " + fettle::quoted(typed) +
                                                     " is no size of pictures: give width and "
                                                     "height, such as 1280x800, from 640x480 to "
                                                     "7680x4320."};
        window.sizes.push_back(*size);
    }
    const auto letters = whole_number(globals.letters);
    if (!letters || *letters < 80 || *letters > 250)
        return Failure{FailureKind::invalid,
                       "--letters " + fettle::quoted(globals.letters) +
                           " is no size of letters: give percent, 80 to 250."};
    window.letters = *letters;
    return done();
}

Outcome open_window(const Globals& globals, const Streams& streams) {
    const auto below = below_home(globals);
    const fs::path folder =
        below ? *below
              : notebook_folder(globals.folder.empty() ? globals.notebook : globals.folder);
    WindowWanted window{.notebook = folder};
    if (const Done read = read_pictures(globals, window); !read) {
        streams.err << one_line(read.failure().sentence) << std::endl;
        return {kUsage, {}};
    }
    if (below || may_hold_notebook(folder)) return {kDone, window};
    streams.err << one_line("fettlebook: " + fettle::quoted(folder.native()) +
                            " is neither a verb nor a folder; `fettlebook --help` lists the verbs.")
                << std::endl;
    return {kUsage, {}};
}

} // namespace

VerbWords grammar() {
    Line line;
    Globals globals;
    declare_globals(line.app, globals);
    declare_verbs(line);
    return described(line.app);
}

Outcome run(const std::vector<std::string>& arguments, const Streams& streams) {
    Line line;
    Globals globals;
    try {
        declare_globals(line.app, globals);
        declare_verbs(line);
        auto reversed = shielded(arguments);
        std::ranges::reverse(reversed);
        line.app.parse(reversed);
        if (!line.chosen) return open_window(globals, streams);
        if (!globals.folder.empty()) throw CLI::ExtrasError({globals.folder});
        const Call call{notebook_folder(globals.notebook), streams.in, streams.err,
                        streams.err_is_terminal};
        return {print(line.chosen(call), globals.json, streams), {}};
    } catch (const CLI::CallForVersion&) {
        streams.out << "fettlebook " FETTLEBOOK_VERSION "\n" << std::flush;
        return {kDone, {}};
    } catch (const CLI::Success&) {
        streams.out << line.app.help() << std::flush;
        return {kDone, {}};
    } catch (const CLI::ParseError& error) {
        streams.err << usage_sentence(line.app, error) << std::endl;
        return {kUsage, {}};
    } catch (const std::exception& error) {
        return {refuse(streams.err,
                       "The verb could not be carried out: " + std::string(error.what()) + "."),
                {}};
    }
}

} // namespace fettle::cli
