// The marked text of an entry as HTML and as Markdown, made anew of its blocks: whatever was typed
// stays within its entry and is nothing but text. Headings begin at `level`, below those of the
// book.
#pragma once

#include "base/marked_text.h"

#include <span>

namespace fettle::desk {

// Elements without attributes of the writer's, everything else escaped. Names lead to anchors of
// the same page.
std::string html_of(std::span<const TextBlock> blocks, int level);

// CommonMark 0.30 without HTML, links or images; ends with a line end, empty for no blocks.
std::string markdown_of(std::span<const TextBlock> blocks, int level);

} // namespace fettle::desk
