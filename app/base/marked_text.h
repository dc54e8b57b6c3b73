// Marked text: what is written in an entry, with the marks of Markdown (CommonMark 0.30, read by
// md4c), as blocks that the window, the book and the command line set each in their way. Pure;
// knows no screen.
//
// A log is not an essay, and much of it was written before it had marks. So, other than CommonMark
// says: a line that the writer ended stays ended; numbers of lists stay as they were typed; dashes
// or equals signs below words make no heading of them; indented lines are no code; a * between
// letters or figures, as in 20*30, is no mark; what a link leads to stands beside its words and is
// nothing to press, unless it is a name (names_in_text.h); HTML and its entities are words like any
// others; [label]: defines nothing. No letter and no figure that was typed is ever left out, but
// for where names lead to.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

struct TextRun {
    std::string text; // UTF-8 without control characters but tabs and line ends, which stay ended
    bool strong = false, emphasis = false, code = false;
    std::string leads_to = {}; // "part:12"; empty: nowhere
    bool operator==(const TextRun&) const = default;
};

struct TextBlock {
    enum class Kind { paragraph, heading, code, rule, quote, item };
    Kind kind = Kind::paragraph;
    std::vector<TextRun> runs = {};     // of a paragraph, a heading, code
    int level = 0;                      // of a heading, 1 to 6
    std::string mark = {};              // of an item: "•", "+", "2." or "2)"
    std::vector<TextBlock> inside = {}; // of a quote, never empty, or an item
    bool operator==(const TextBlock&) const = default;
};

// Quotes and items stand within each other this deep at most; what is deeper goes into the deepest.
inline constexpr int kDeepestBlock = 8;

std::vector<TextBlock> blocks_of(std::string_view marked);

// The words of one block's runs.
std::string words_of_runs(const std::vector<TextRun>& runs);

// The words alone, the marks of items before theirs. Blocks begin new lines, without blank ones
// between; what is within an item or a quote is indented.
std::string words_of_marked(std::string_view marked);

// The first line of that, for where an entry is one line among others.
std::string first_line_of_marked(std::string_view marked);

} // namespace fettle
