// Choosing a part, a task, a position, a maker by typing a few letters of its tag or name. The
// first match is taken with Enter, another with the arrows or the pointer. Knows no notebook: it is
// given what there is to choose from, the likeliest first.
#pragma once

#include "ui/frame/page.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::ui {

struct Candidate {
    std::int64_t id = 0;
    std::string tag; // short code; may be empty
    std::string name;
    std::string kind; // shown at the right: "task", "lately tied"
    // Which beginnings its words have, a bit for each (more than one beginning has it); 0: not
    // noted. Spares looking at the letters of most where there are a hundred thousand.
    std::uint64_t beginnings = 0;
};
// Notes them. Tag and name stay as they are from then on.
void note_beginnings(Candidate& candidate);

// The candidates that fit what was typed: each typed word begins the tag or a word of the name.
// Those whose tag is typed in full come first, then those whose tag it begins, then as they stand.
std::vector<std::size_t> matching(const std::vector<Candidate>& from, std::string_view typed,
                                  std::size_t most);

// One match: the tag, then the name, in columns; the one Enter takes has a bar at its side.
bool match_row(Page& page, const std::string& key, const Candidate& candidate, bool chosen);

// What a person is in the middle of.
struct FindLine {
    std::string typed;
    int at = 0;        // the match that Enter takes
    bool open = false; // matches are shown
    bool take_focus = false;
    bool awaits_caret = false; // asked for, and not come yet

    void begin() { *this = {.open = true, .take_focus = true}; }
};

struct FindLook {
    std::string_view label = {};
    std::string_view hint = {};
    std::string_view error = {};
    std::string_view key_hint = {}; // beside the label
    std::string_view keys = {};     // what else can be pressed, below the matches
    int most = 6;                   // matches shown
    bool as_typed = false;          // what was typed is an answer of its own: a new maker
    bool blank_takes = false;       // Enter on a blank line takes the first; else it takes nothing
    float width = 0;
};

struct FindAnswer {
    std::optional<std::int64_t> taken; // the candidate's id
    bool entered_as_typed = false;     // Enter on words that match nothing, where that is allowed
    bool given_up = false;             // Esc
    bool edited = false;
};

// The field has the key `key`, its matches `key.match.0`, `key.match.1` ...
FindAnswer find_as_you_type(Page& page, std::string_view key, FindLine& line,
                            const std::vector<Candidate>& from, const FindLook& look = {});
// The same, asking for the candidates only while matches are shown: for those that are costly to
// read. What it gives must last until this returns.
using Candidates = std::function<const std::vector<Candidate>&()>;
FindAnswer find_as_you_type(Page& page, std::string_view key, FindLine& line,
                            const Candidates& from, const FindLook& look = {});

} // namespace fettle::ui
