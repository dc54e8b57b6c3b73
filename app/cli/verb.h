// What every verb is made of: a Wish (its options as typed) and an act that makes a Report of it.
// One file a subject holds both; verbs.h lists them. Knows the domain's acts, never SQL or screens.
// A Line lives for one run of the program, on its main thread.
#pragma once

#include "base/result.h"
#include "cli/print.h"
#include "notebook/notebook.h"

#include <CLI/CLI.hpp>

#include <filesystem>
#include <functional>
#include <memory>
#include <ostream>
#include <string>

namespace fettle::cli {

// What a verb is given besides its own options.
struct Call {
    std::filesystem::path notebook;
    std::istream& in;
    std::ostream& err; // progress, and what had to be left out; the report itself goes elsewhere
    bool err_is_terminal = false;

    Result<Notebook> for_reading() const { return opened(store::Access::read); }
    Result<Notebook> for_writing() const { return opened(store::Access::write); }
    // And tells how it was found, if that is to be told.
    Result<Notebook> opened(store::Access access) const {
        auto book = Notebook::open(notebook, access);
        if (book && !book->opening_notice().empty()) err << book->opening_notice() << '\n';
        return book;
    }
};

// The same answer twice: one of the two is printed.
struct Report {
    std::string text; // for a person, in whole lines
    Json json;
    bool failed = false; // done as far as it went; why stands on stderr already
};

// The command line: its grammar, and the verb that was found in it.
struct Line {
    CLI::App app;
    std::function<Result<Report>(const Call&)> chosen;
};

// Adds a verb. `declare` ties its options to the members of a Wish; a Wish with a check() may
// refuse combinations that the grammar cannot express, by throwing CLI::ValidationError.
template <class Wish>
void add_verb(Line& line, CLI::App& above, const std::string& name, const std::string& about,
              void (*declare)(CLI::App&, Wish&), Result<Report> (*act)(const Call&, const Wish&)) {
    auto* verb = above.add_subcommand(name, about);
    verb->group("Verbs");
    // Shared, because CLI11 keeps references into it and copies of its callback.
    auto wish = std::make_shared<Wish>();
    declare(*verb, *wish);
    verb->callback([&line, wish, act] {
        if constexpr (requires { wish->check(); }) wish->check();
        line.chosen = [wish, act](const Call& call) { return act(call, *wish); };
    });
}

// A verb that is only the first word of several.
inline CLI::App& add_group(Line& line, const std::string& name, const std::string& about) {
    auto* group = line.app.add_subcommand(name, about);
    group->group("Verbs");
    group->require_subcommand(1);
    return *group;
}

// Progress as one line that overwrites itself; for terminals only, a log file is spared it.
inline constexpr const char* kClearedLine = "\r\x1b[K";
inline auto progress_line(std::ostream& err) {
    return [&err](std::size_t done, std::size_t total, const std::string& name) {
        err << kClearedLine << done << " of " << total << "  " << one_line(name) << std::flush;
    };
}

// An option that may be given several times, once for each value.
inline CLI::Option* add_repeated(CLI::App& verb, const std::string& name,
                                 std::vector<std::string>& values, const std::string& about) {
    return verb.add_option(name, values, about)->allow_extra_args(false);
}

} // namespace fettle::cli
