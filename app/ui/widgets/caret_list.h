// Choosing by a few letters what stands at the caret, while the caret stays in the text: the
// letters go into the text as any others, a small list below them shows what they fit, Enter takes
// one, Esc leaves what was typed. Knows no notebook. UI thread only.
#pragma once

#include "ui/frame/text_caret.h"
#include "ui/widgets/find_as_you_type.h"

#include <optional>
#include <string>

namespace fettle::ui {

struct CaretList {
    bool open = false;
    bool fresh = false;        // not drawn yet
    bool awaits_caret = false; // asked for, and the caret is not in the text yet
    std::size_t from = 0;      // bytes of the text before the letters typed for it
    int at = 0;                // the match that Enter takes
    int count = 0;             // matches shown in the last frame
    bool enter = false;        // pressed in this frame
};

// Opens it at the word that the caret stands behind.
void open_caret_list(CaretList& list, const std::string& text, const TextCaret& caret);
// Before the field is drawn: Enter, Esc and the arrows up and down are the list's while it is open.
// True when Esc has closed it: a field lets go of the caret then, and should be given it again.
bool hear_caret_list(CaretList& list);
// After the field was drawn, over it. Matches have the keys `key.match.0`, ... What was taken
// stands for the letters from list.from to caret.at.
std::optional<std::int64_t> draw_caret_list(Page& page, std::string_view key, CaretList& list,
                                            const std::string& text, const TextCaret& caret,
                                            const Candidates& from);

} // namespace fettle::ui
