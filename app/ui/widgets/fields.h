// What can be written in: fields with their label above, what they accept and what was understood
// below. Text stays exactly as typed; reading it is the caller's job, on every edit.
// A wrong field says so beside itself, in words.
#pragma once

#include "ui/frame/page.h"
#include "ui/frame/text_caret.h"

#include <string>

namespace fettle::ui {

struct FieldLook {
    std::string_view label = {};    // above the field
    std::string_view hint = {};     // inside while it is empty
    std::string_view unit = {};     // beside it
    std::string_view other = {};    // below: the same value in the other system, or as understood
    std::string_view error = {};    // below instead: what is wrong and what is accepted
    bool wrong = false;             // marked as wrong; the caller says elsewhere why
    std::string_view key_hint = {}; // beside the label
    float width = 0;                // before scaling, without unit; 0: what is left of the line
    bool enabled = true;
    bool take_focus = false; // in this frame only
};

struct FieldChange {
    bool edited = false;  // the text differs from the last frame's
    bool entered = false; // Enter ended the writing
    bool left = false;    // the writing ended after edits, however
    bool active = false;  // being written in
};

FieldChange text_field(Page& page, std::string_view key, std::string& text,
                       const FieldLook& look = {});

// Several lines; `lines` is its height in lines of text. Enter starts a new line, Ctrl Enter ends.
// `caret` is told where the caret stands, and may bring words to be put there.
FieldChange text_area(Page& page, std::string_view key, std::string& text, int lines,
                      const FieldLook& look = {}, TextCaret* caret = nullptr);

// A value with its unit: what was typed, the unit beside it, the other system or the error below.
FieldChange field_with_unit(Page& page, std::string_view key, std::string& typed,
                            const FieldLook& look);

// A day: the text as typed, `look.other` the day as understood ("Sat 7 Mar 2026"), and the words
// "today" and "yesterday" to press.
FieldChange date_field(Page& page, std::string_view key, std::string& typed, const FieldLook& look);

} // namespace fettle::ui
