#include "cli/man_page.h"

#include "base/text.h"

#include <cctype>

namespace fettle::cli {
namespace {

// Text for roff: a hyphen that belongs to an option stays one, `code` is bold, no line is a
// request.
std::string plain(std::string_view text) {
    std::string roff;
    bool bold = false;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char letter = text[at];
        const char before = at == 0 ? '\n' : text[at - 1];
        if (letter == '\\')
            roff += "\\e";
        else if (letter == '`')
            roff += (bold = !bold) ? "\\fB" : "\\fR";
        else if (letter == '-' && std::isalnum(static_cast<unsigned char>(before)) == 0)
            roff += "\\-";
        else if ((letter == '.' || letter == '\'') && before == '\n')
            roff += std::string("\\&") + letter;
        else
            roff += letter;
    }
    return roff;
}

// Every hyphen of a name is typed, so none may become a dash.
std::string typed(const std::string& name) {
    std::string roff;
    for (const char letter : name)
        roff += letter == '-' ? "\\-" : letter == '\\' ? "\\e" : std::string(1, letter);
    return roff;
}

std::string bold(const std::string& name) {
    return "\\fB" + typed(name) + "\\fR";
}
std::string italic(const std::string& name) {
    return "\\fI" + typed(name) + "\\fR";
}

std::string entry_of(const OptionWords& option) {
    const bool positional = !option.name.starts_with('-');
    std::string head = positional ? italic(option.name) : bold(option.name);
    if (!positional && !option.value.empty()) head += ' ' + italic(option.value);
    return ".TP\n" + head + '\n' + plain(option.about) + ".\n";
}

std::string usage_of(const VerbWords& verb, const std::string& path) {
    std::string usage = ".P\n" + bold(path);
    for (const auto& positional : verb.positionals) {
        const std::string name = italic(positional.name) + (positional.repeated ? "\\ ..." : "");
        usage += positional.required ? ' ' + name : " [" + name + ']';
    }
    for (const auto& option : verb.options)
        if (option.required) usage += ' ' + bold(option.name) + ' ' + italic(option.value);
    return usage + '\n';
}

bool is_help(const OptionWords& option) {
    return option.name == "--help";
}

// A verb that does something is a section; one that only leads to others hands its name down.
void add_sections(std::string& page, const VerbWords& verb, const std::string& above) {
    const std::string path = above + ' ' + verb.name;
    for (const auto& below : verb.verbs)
        add_sections(page, below, path);
    if (!verb.verbs.empty()) return;
    page += ".SS " + typed(path.substr(path.find(' ') + 1)) + '\n' + plain(verb.about) + ".\n" +
            usage_of(verb, path);
    for (const auto& positional : verb.positionals)
        page += entry_of(positional);
    for (const auto& option : verb.options)
        if (!is_help(option)) page += entry_of(option);
    if (!verb.more.empty()) page += ".P\n" + plain(verb.more) + '\n';
}

} // namespace

std::string man_page_of(const VerbWords& program) {
    std::string page = ".SH OPTIONS\n";
    for (const auto& positional : program.positionals)
        page += entry_of(positional);
    for (const auto& option : program.options)
        page += entry_of(option);
    page += ".P\n" + bold("--notebook") + ", " + bold("--json") + " and " + bold("--help") +
            " may stand behind any verb.\n.SH VERBS\n";
    for (const auto& verb : program.verbs)
        add_sections(page, verb, program.name);
    return page;
}

} // namespace fettle::cli
