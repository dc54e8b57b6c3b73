#include "cli/completions.h"

#include "base/text.h"

#include <algorithm>
#include <functional>

namespace fettle::cli {
namespace {

constexpr const char* kHead = "# Written from the program's own grammar when it is built.\n";

std::string single_quoted(const std::string& text) {
    std::string quoted = "'";
    for (const char letter : text)
        quoted += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
    return quoted + '\'';
}

// The first line of what is said of it; a menu has no room for more.
std::string short_about(const std::string& about) {
    return about.substr(0, about.find('\n'));
}

// --notebook and --json, which may stand behind every verb.
std::vector<OptionWords> inherited(const VerbWords& program) {
    std::vector<OptionWords> options;
    for (const auto& option : program.options)
        if (option.name == "--notebook" || option.name == "--json") options.push_back(option);
    return options;
}

using Visit = std::function<void(const std::string& path, const VerbWords& verb)>;

// Every verb with the words that lead to it ("part add"), the program itself with none; each with
// all options that may stand behind it.
void walk(const VerbWords& verb, const std::string& path, const std::vector<OptionWords>& further,
          const Visit& visit) {
    VerbWords whole = verb;
    if (!path.empty()) whole.options.insert(whole.options.end(), further.begin(), further.end());
    visit(path, whole);
    for (const auto& below : verb.verbs)
        walk(below, path.empty() ? below.name : path + ' ' + below.name, further, visit);
}

void walk(const VerbWords& program, const Visit& visit) {
    walk(program, "", inherited(program), visit);
}

template <class List>
std::string names_of(const List& list) {
    std::vector<std::string> names;
    for (const auto& each : list)
        names.push_back(each.name);
    return join(names, " ");
}

// What the positionals of a verb may be completed with.
Takes positionals_take(const VerbWords& verb) {
    for (const auto& positional : verb.positionals)
        if (positional.takes == Takes::file || positional.takes == Takes::folder)
            return positional.takes;
    return Takes::nothing;
}

std::string marker(const OptionWords& option) {
    switch (option.takes) {
    case Takes::choice:
        return join(option.choices, " ");
    case Takes::file:
        return "@file";
    case Takes::folder:
        return "@folder";
    default:
        return "@text";
    }
}

// Sets `verbs`, `options`, `words` for the verb reached, or `takes` for an option of it.
constexpr const char* kBashWalk = R"(
_fettlebook_values() {
  case $1 in
    @text) ;;
    @file) compopt -o filenames; mapfile -t COMPREPLY < <(compgen -f -- "$2") ;;
    @folder) compopt -o filenames; mapfile -t COMPREPLY < <(compgen -d -- "$2") ;;
    *) mapfile -t COMPREPLY < <(compgen -W "$1" -- "$2") ;;
  esac
}

_fettlebook() {
  local current=${COMP_WORDS[COMP_CWORD]} path='' word at value takes verbs options words
  COMPREPLY=()
  for ((at = 1; at < COMP_CWORD; at++)); do
    word=${COMP_WORDS[at]}
    if [[ $word == -* ]]; then
      _fettlebook_takes "$path $word" || continue
      value=$((at + 1))
      [[ ${COMP_WORDS[value]} == = ]] && ((value < COMP_CWORD)) && value=$((value + 1))
      if ((value >= COMP_CWORD)); then
        [[ $current == = ]] && current=''
        _fettlebook_values "$takes" "$current"
        return
      fi
      at=$value
    elif _fettlebook_verb "${path:+$path }$word"; then
      path=${path:+$path }$word
    fi
  done
  _fettlebook_verb "$path"
  if [[ $current == -* ]]; then
    _fettlebook_values "$options" "$current"
    return
  fi
  _fettlebook_values "$words" "$current"
  mapfile -t -O ${#COMPREPLY[@]} COMPREPLY < <(compgen -W "$verbs" -- "$current")
}

complete -F _fettlebook fettlebook
)";

std::string zsh_action(const OptionWords& option) {
    switch (option.takes) {
    case Takes::choice:
        return '(' + join(option.choices, " ") + ')';
    case Takes::file:
        return "_files";
    case Takes::folder:
        return "_files -/";
    default:
        return " ";
    }
}

// Colons and brackets divide the specifications of _arguments.
std::string zsh_escaped(const std::string& text) {
    std::string escaped;
    for (const char letter : text) {
        if (letter == ':' || letter == '[' || letter == ']' || letter == '\\') escaped += '\\';
        escaped += letter;
    }
    return escaped;
}

std::string zsh_function(const std::string& path) {
    std::string name = "_fettlebook" + (path.empty() ? "" : '_' + path);
    std::ranges::replace(name, ' ', '_');
    return name;
}

std::string zsh_option(const OptionWords& option) {
    std::string spec = (option.repeated ? "*" : "") + option.name;
    spec += '[' + zsh_escaped(short_about(option.about)) + ']';
    if (option.takes != Takes::nothing)
        spec += ':' + zsh_escaped(option.value) + ':' + zsh_action(option);
    return "    " + single_quoted(spec) + " \\\n";
}

std::string zsh_positionals(const VerbWords& verb) {
    std::string specs;
    for (const auto& positional : verb.positionals)
        specs += "    " +
                 single_quoted((positional.repeated   ? "*:"
                                : positional.required ? ":"
                                                      : "::") +
                               zsh_escaped(positional.value) + ':' + zsh_action(positional)) +
                 " \\\n";
    return specs;
}

// The verbs below one, and what is completed behind each.
std::string zsh_below(const std::string& path, const VerbWords& verb) {
    std::string text = "  case $state in\n    verb)\n      local -a verbs=(\n";
    for (const auto& below : verb.verbs)
        text += "        " +
                single_quoted(zsh_escaped(below.name) + ':' + short_about(below.about)) + '\n';
    text += "      )\n      _describe -t verbs verb verbs && ret=0\n";
    if (positionals_take(verb) == Takes::folder) text += "      _files -/ && ret=0\n";
    text += "      ;;\n    rest)\n      case $words[1] in\n";
    for (const auto& below : verb.verbs) {
        const std::string name = path.empty() ? below.name : path + ' ' + below.name;
        text += "        " + below.name + ") " + zsh_function(name) + " && ret=0 ;;\n";
    }
    return text + "      esac\n      ;;\n  esac\n  return ret\n";
}

// What "-a" of a completion of fish offers, and whether files may stand there.
std::string fish_values(const OptionWords& option) {
    switch (option.takes) {
    case Takes::nothing:
        return "";
    case Takes::choice:
        return " -x -a " + single_quoted(join(option.choices, " "));
    case Takes::file:
        return " -r -F";
    case Takes::folder:
        return " -x -a '(__fish_complete_directories)'";
    default:
        return " -x";
    }
}

constexpr const char* kFishWalk = R"(
function __fettlebook_path
    set -l path
    set -l skip 0
    set -l words (commandline -opc)
    for word in $words[2..]
        if test $skip = 1
            set skip 0
        else if string match -q -- '-*' $word
            contains -- (string join -- ' ' $path $word) $__fettlebook_valued; and set skip 1
        else if contains -- (string join -- ' ' $path $word) $__fettlebook_verbs
            set -a path $word
        end
    end
    string join -- ' ' $path
end

function __fettlebook_at
    set -l path (__fettlebook_path)
    test "$path" = "$argv[1]"
end

complete -c fettlebook -f
)";

std::string fish_line(const std::string& path, const std::string& what, const std::string& about) {
    const std::string condition =
        single_quoted("__fettlebook_at \"" + path + '"'); // no quote or dollar in a verb
    return "complete -c fettlebook -n " + condition + what +
           (about.empty() ? "" : " -d " + single_quoted(short_about(about))) + '\n';
}

std::string fish_lines(const std::string& path, const VerbWords& verb) {
    std::string lines;
    for (const auto& below : verb.verbs)
        lines += fish_line(path, " -a " + below.name, below.about);
    for (const auto& option : verb.options)
        lines +=
            fish_line(path, " -l " + option.name.substr(2) + fish_values(option), option.about);
    if (positionals_take(verb) == Takes::file) lines += fish_line(path, " -F", "");
    if (positionals_take(verb) == Takes::folder)
        lines += fish_line(path, " -a '(__fish_complete_directories)'", "");
    return lines;
}

} // namespace

std::string bash_completion(const VerbWords& program) {
    std::string verbs, takes;
    walk(program, [&](const std::string& path, const VerbWords& verb) {
        const Takes positional = positionals_take(verb);
        verbs += "    " + single_quoted(path) + ") verbs=" + single_quoted(names_of(verb.verbs)) +
                 " options=" + single_quoted(names_of(verb.options)) + " words=" +
                 (positional == Takes::file     ? "@file"
                  : positional == Takes::folder ? "@folder"
                                                : "@text") +
                 " ;;\n";
        for (const auto& option : verb.options)
            if (option.takes != Takes::nothing)
                takes += "    " + single_quoted(path + ' ' + option.name) +
                         ") takes=" + single_quoted(marker(option)) + " ;;\n";
    });
    return "# bash completion for fettlebook                         -*- shell-script -*-\n" +
           std::string(kHead) + "\n_fettlebook_verb() {\n  case $1 in\n" + verbs +
           "    *) return 1 ;;\n  esac\n}\n\n_fettlebook_takes() {\n  case $1 in\n" + takes +
           "    *) return 1 ;;\n  esac\n}\n" + kBashWalk;
}

std::string zsh_completion(const VerbWords& program) {
    std::string text = "#compdef fettlebook\n" + std::string(kHead);
    walk(program, [&](const std::string& path, const VerbWords& verb) {
        text += "\n" + zsh_function(path) + "() {\n";
        text += "  local ret=1 curcontext=$curcontext state line\n  local -A opt_args\n";
        text += "  _arguments -C \\\n";
        for (const auto& option : verb.options)
            text += zsh_option(option);
        text += verb.verbs.empty()
                    ? zsh_positionals(verb) + "    && ret=0\n  return ret\n"
                    : "    ': :->verb' '*:: :->rest' && ret=0\n" + zsh_below(path, verb);
        text += "}\n";
    });
    return text + "\n_fettlebook \"$@\"\n";
}

std::string fish_completion(const VerbWords& program) {
    std::string verbs, valued, lines;
    walk(program, [&](const std::string& path, const VerbWords& verb) {
        if (!path.empty()) verbs += ' ' + single_quoted(path);
        for (const auto& option : verb.options)
            if (option.takes != Takes::nothing)
                valued +=
                    ' ' + single_quoted(path.empty() ? option.name : path + ' ' + option.name);
        lines += fish_lines(path, verb);
    });
    return "# fish completion for fettlebook\n" + std::string(kHead) +
           "\nset -g __fettlebook_verbs" + verbs + "\nset -g __fettlebook_valued" + valued + '\n' +
           kFishWalk + lines;
}

} // namespace fettle::cli
