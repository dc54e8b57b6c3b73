// What the entry being written speaks of by name: choosing it by a few letters, tying it, and
// seeing that no tie comes or goes in silence while the text is edited. UI thread only.
#pragma once

#include "base/names_in_text.h"
#include "ui/context.h"
#include "ui/frame/text_caret.h"
#include "ui/widgets/find_as_you_type.h"

#include <string>
#include <vector>

namespace fettle::ui {

// Worked sheets, parts, open tasks and photos, the newest first. Ids of the four are told apart.
Result<std::vector<Candidate>> what_can_be_put_in(const Context& context);

// Ties the chosen one to the draft, a worked sheet as a fresh one at its end; the name it has in
// the text. Nothing when the sheet is there no more.
struct Chosen {
    NameInText name;
    std::string words;
};
std::optional<Chosen> put_in_chosen(Context& context, const Candidate& candidate);

// The name in place of the letters from `from` to `to`: apart from the words around it, a worked
// sheet in a paragraph of its own.
TextCaret::Change put_for_letters(const std::string& text, std::size_t from, std::size_t to,
                                  const Chosen& chosen);

// Which names the text has had since the draft was opened.
struct NamesFollowed {
    std::string text; // as of the last frame
    std::vector<NameInText> now;
    std::vector<NameInText> left; // named no more, though still tied
    bool begun = false;
};
// No tie comes or goes with the letters of a text: what is named and not tied, such as after Ctrl
// V, and what is tied and named no more, is told.
void follow_names(const EntryDraft& draft, NamesFollowed& followed);
struct NamesToTell {
    std::vector<NameInText> untied, left;
    bool operator==(const NamesToTell&) const = default;
};
NamesToTell names_to_tell(const EntryDraft& draft, const NamesFollowed& followed);
struct NameTold {
    NameInText name;
    std::string sentence;
    bool can_be_tied = false;
};
// Nothing of a name whose record is gone.
std::vector<NameTold> told_of_names(const Context& context, const NamesToTell& names);
void tie_name(Context& context, const NameInText& name); // once
// It is taken out of the entry: its name becomes words alone, later sheets of its kind move up.
void take_name_out(Context& context, NamesFollowed& followed, const NameInText& name);

// The name of a sheet of the draft.
NameInText name_of_sheet(const EntryDraft& draft, std::size_t at);

} // namespace fettle::ui
