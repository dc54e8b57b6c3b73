// The Markdown of an entry as the Log and the book set it: paragraphs, headings, list items. Marks
// of emphasis and links are taken off, their words stay. Pure; knows no screen.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

struct TextBlock {
    enum class Kind { paragraph, heading, item };
    Kind kind = Kind::paragraph;
    std::string text;
    std::string mark; // of an item: "•" or "2."
    bool operator==(const TextBlock&) const = default;
};

// A line that the writer ended stays ended: a log is no running text.
std::vector<TextBlock> blocks_of(std::string_view markdown);

} // namespace fettle
