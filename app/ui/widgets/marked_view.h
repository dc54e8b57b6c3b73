// Marked text as it stands on a screen: headings, lists with their marks in front, quotes behind a
// bar, code on a sheet of its own; strong words, emphasis and code each in their face. Runs that
// lead somewhere can be pressed.
#pragma once

#include "base/marked_text.h"
#include "ui/frame/page.h"

#include <optional>

namespace fettle::ui {

// At the reading width. Notes paragraphs, headings, code and marks of items under `key.0`,
// `key.1` ... from the top, labelled "paragraph", "heading 1", "code", "quoted paragraph", "item";
// what can be pressed under `key.name.0` ..., a line each. Gives where the pressed one leads to.
std::optional<std::string> marked_text(Page& page, std::string_view key,
                                       const std::vector<TextBlock>& blocks);

} // namespace fettle::ui
