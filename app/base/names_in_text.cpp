#include "base/names_in_text.h"

#include "base/text.h"

#include <algorithm>
#include <charconv>
#include <utility>

namespace fettle {
namespace {

using Kind = NameInText::Kind;

constexpr std::pair<Kind, std::string_view> kSchemes[] = {
    {Kind::part, "part:"}, {Kind::task, "task:"}, {Kind::photo, "photo:"}, {Kind::sheet, "sheet:"}};

bool is_figure(char letter) {
    return letter >= '0' && letter <= '9';
}

bool is_letter_or_figure(char letter) {
    return is_figure(letter) || (letter >= 'a' && letter <= 'z') ||
           (letter >= 'A' && letter <= 'Z');
}

// Written in one way alone: figures without a nought before them.
std::optional<std::int64_t> counting_number(std::string_view text) {
    std::int64_t number = 0;
    const char* const end = text.data() + text.size();
    const auto [read_to, error] = std::from_chars(text.data(), end, number);
    if (error != std::errc() || read_to != end || text.front() == '0' || number < 1)
        return std::nullopt;
    return number;
}

bool is_sheet_id(std::string_view text) {
    return !text.empty() && std::ranges::all_of(text, [](char letter) {
        return is_figure(letter) || (letter >= 'a' && letter <= 'z') || letter == '_' ||
               letter == '.';
    });
}

std::optional<NameInText> sheet_named(std::string_view said) {
    const auto colon = said.find(':');
    const auto sheet = said.substr(0, colon);
    if (!is_sheet_id(sheet)) return std::nullopt;
    NameInText name{Kind::sheet, 1, std::string(sheet)};
    if (colon == std::string_view::npos) return name;
    const auto number = counting_number(said.substr(colon + 1));
    if (!number || *number < 2) return std::nullopt;
    name.number = *number;
    return name;
}

// Words that Markdown leaves as they are, on one line. A backtick cannot be shielded from one that
// stands before the name, so it becomes an apostrophe.
std::string shielded_words(std::string_view words) {
    std::string plain = safe_utf8(trim(words));
    for (char& letter : plain) {
        const auto byte = static_cast<unsigned char>(letter);
        if (byte < 0x20 || byte == 0x7f) letter = ' ';
        if (letter == '`') letter = '\'';
    }
    std::string safe;
    for (std::size_t at = 0; at < plain.size(); ++at) {
        const bool within = at > 0 && at + 1 < plain.size() && is_letter_or_figure(plain[at - 1]) &&
                            is_letter_or_figure(plain[at + 1]);
        const bool emphasis = plain[at] == '_' || plain[at] == '*';
        const bool always = std::string_view("\\[]<>&").find(plain[at]) != std::string_view::npos;
        if (always || (emphasis && !within)) safe += '\\';
        safe += plain[at];
    }
    return safe;
}

// Where a name stands in a text: [words](target).
struct Place {
    std::size_t from = 0, words_end = 0, to = 0; // of "[", of "]", behind ")"
    NameInText name;
};

std::optional<Place> place_before(std::string_view text, std::size_t from, std::size_t words_end) {
    if (words_end + 1 >= text.size() || text[words_end + 1] != '(') return std::nullopt;
    const auto close = text.find(')', words_end);
    if (close == std::string_view::npos) return std::nullopt;
    auto name = name_of_target(text.substr(words_end + 2, close - words_end - 2));
    if (!name) return std::nullopt;
    return Place{from, words_end, close + 1, std::move(*name)};
}

std::vector<Place> places_in(std::string_view text) {
    std::vector<Place> places;
    std::vector<std::size_t> open;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] == '\\') {
            ++at;
        } else if (text[at] == '[') {
            open.push_back(at);
        } else if (text[at] == ']' && !open.empty()) {
            auto place = place_before(text, open.back(), at);
            open.pop_back();
            if (!place) continue;
            at = place->to - 1;
            places.push_back(std::move(*place));
            open.clear(); // a link holds no other, and none goes round it
        }
    }
    return places;
}

// With the line ends around it where nothing else stands between them; one blank line stays.
std::optional<Place> whole_line(std::string_view text, Place place) {
    const bool begins = place.from == 0 || text[place.from - 1] == '\n';
    const bool ends = place.to == text.size() || text[place.to] == '\n';
    if (!begins || !ends) return std::nullopt;
    for (int line_ends = 0; line_ends < 2 && place.to < text.size() && text[place.to] == '\n';
         ++line_ends)
        ++place.to;
    if (place.to == text.size())
        while (place.from > 0 && text[place.from - 1] == '\n')
            --place.from;
    return place;
}

template <class Do>
void for_each_run(std::vector<TextBlock>& blocks, const Do& act) {
    for (TextBlock& block : blocks) {
        for (TextRun& run : block.runs)
            act(run);
        for_each_run(block.inside, act);
    }
}

void add_names(const std::vector<TextBlock>& blocks, std::vector<NameInText>& names) {
    for (const TextBlock& block : blocks) {
        for (const TextRun& run : block.runs)
            if (const auto name = name_of_target(run.leads_to);
                name && std::ranges::find(names, *name) == names.end())
                names.push_back(*name);
        add_names(block.inside, names);
    }
}

// The sheet of an entry that a name means.
std::optional<std::size_t> sheet_meant(const NameInText& name,
                                       const std::vector<SheetNamed>& sheets) {
    if (name.kind != Kind::sheet) return std::nullopt;
    std::int64_t number = 0;
    for (std::size_t at = 0; at < sheets.size(); ++at)
        if (sheets[at].sheet == name.sheet && ++number == name.number) return at;
    return std::nullopt;
}

} // namespace

std::string target_of(const NameInText& name) {
    const auto scheme =
        std::ranges::find(kSchemes, name.kind, &std::pair<Kind, std::string_view>::first);
    std::string target(scheme->second);
    if (name.kind != Kind::sheet) return target + std::to_string(name.number);
    target += name.sheet;
    return name.number > 1 ? target + ":" + std::to_string(name.number) : target;
}

std::optional<NameInText> name_of_target(std::string_view target) {
    for (const auto& [kind, scheme] : kSchemes) {
        if (!target.starts_with(scheme)) continue;
        const auto said = target.substr(scheme.size());
        if (kind == Kind::sheet) return sheet_named(said);
        if (const auto number = counting_number(said)) return NameInText{kind, *number};
    }
    return std::nullopt;
}

std::string mark_of(const NameInText& name, std::string_view words) {
    const std::string target = target_of(name);
    const std::string said = shielded_words(words);
    return "[" + (said.empty() ? target : said) + "](" + target + ")";
}

std::vector<NameInText> names_in(std::string_view marked) {
    std::vector<NameInText> names;
    add_names(blocks_of(marked), names);
    return names;
}

std::string renamed(std::string_view marked, const Renaming& becomes) {
    std::string text;
    std::size_t told = 0;
    for (const Place& place : places_in(marked)) {
        const auto words = marked.substr(place.from + 1, place.words_end - place.from - 1);
        const auto name = becomes(place.name);
        const auto gone =
            !name && place.name.kind == Kind::sheet ? whole_line(marked, place) : std::nullopt;
        const Place& span = gone ? *gone : place;
        text += marked.substr(told, std::max(span.from, told) - told);
        if (name)
            text += "[" + std::string(words) + "](" + target_of(*name) + ")";
        else if (!gone)
            text += words;
        told = span.to;
    }
    return text + std::string(marked.substr(told));
}

void lead_runs(std::vector<TextBlock>& blocks,
               const std::function<std::string(const std::string&)>& becomes) {
    for_each_run(blocks, [&](TextRun& run) {
        if (!run.leads_to.empty()) run.leads_to = becomes(run.leads_to);
    });
}

CutText cut_at_sheets(std::vector<TextBlock> blocks, const std::vector<SheetNamed>& sheets) {
    CutText cut;
    std::vector<bool> placed(sheets.size());
    bool goes_on = false; // into the piece that was begun
    for (TextBlock& block : blocks) {
        std::vector<NameInText> names;
        add_names({block}, names);
        std::vector<std::size_t> below;
        for (const NameInText& name : names)
            if (const auto at = sheet_meant(name, sheets); at && !placed[*at]) {
                placed[*at] = true;
                below.push_back(*at);
            }
        if (!std::exchange(goes_on, below.empty())) cut.pieces.emplace_back();
        const bool gives_way = below.size() == 1 && block.kind == TextBlock::Kind::paragraph &&
                               words_of_runs(block.runs) == sheets[below.front()].title;
        if (!gives_way) cut.pieces.back().blocks.push_back(std::move(block));
        cut.pieces.back().sheets = std::move(below);
    }
    for (std::size_t at = 0; at < sheets.size(); ++at)
        if (!placed[at]) cut.unplaced.push_back(at);
    return cut;
}

} // namespace fettle
