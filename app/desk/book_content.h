// What a build book says, before anybody decides how it looks: chapters of blocks with their texts,
// photos, tables and charts. The PDF, the HTML, the Markdown and the pages on the screen are all
// made of this, so that they tell the same. Knows no notebook. Values; any thread.
#pragma once

#include "base/ids.h"
#include "base/marked_text.h"
#include "calc/answer.h"
#include "calc/plot_bars.h"
#include "notebook/marks.h"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace fettle::desk {

struct Words {
    enum class Kind { body, fine, working };
    std::string text; // line ends are kept
    Kind kind = Kind::body;
};

// The marked text of an entry. What its names lead to is an anchor of the book.
struct Written {
    std::vector<TextBlock> blocks;
};

struct Title {
    int level = 2; // 2: within a chapter, 3: within that
    std::string text;
    std::string anchor = {}; // what leads here; empty: nothing does
};

// Beside what follows: a day, hours, what it is about. Printed in the margin.
struct Aside {
    std::string head;
    std::vector<std::string> lines;
};

struct Facts {
    std::vector<std::pair<std::string, std::string>> lines; // what it is, what is said of it
};

struct TableOf {
    std::string label; // may be empty
    std::vector<std::string> headings;
    std::vector<std::vector<std::string>> rows;
    std::vector<std::vector<std::string>> small; // below each row, or empty: the same in inches
    std::vector<double> shares;                  // of the width; empty: by what stands in them
};

struct Shot {
    PhotoId photo{};
    std::string caption;
    std::string shows = {}; // for who cannot see it; never empty when it comes from a notebook
    std::optional<Region> part = {}; // nothing: all of it
    std::string anchor = {};         // what leads here; empty: nothing does
};

struct Shots {
    std::vector<Shot> shots;
};

// Two photos of one thing, side by side at one height.
struct BeforeAfter {
    Shot before, after;
};

struct Notice {
    calc::NoteLevel level = calc::NoteLevel::info;
    std::string text;
};

struct Drawing {
    calc::Drawn chart;
};

// A worked sheet begins, and ends: what is between belongs together.
struct SheetEdge {
    bool begins = true;
    std::string title = {};
    std::string by = {}; // "shim.stack, Shims 1.0"
};

using Block = std::variant<Words, Written, Title, Aside, Facts, TableOf, Shots, BeforeAfter, Notice,
                           Drawing, SheetEdge>;

struct Chapter {
    std::string anchor; // letters, digits and `-`
    std::string title;
    std::vector<Block> blocks;
};

struct BookPhoto {
    std::filesystem::path file;
    std::string name;          // as it came; for telling what cannot be read
    int width = 0, height = 0; // upright
};

struct BookContent {
    std::string title;   // "Quernmore Drover"
    std::string subject; // "Build book", "Part H7"
    std::string lines;   // below it: maker and year
    std::string period;  // "7 Mar 2026 to 4 Apr 2026"
    std::string made;    // "made 5 Apr 2026"
    std::optional<Shot> cover;
    std::vector<std::pair<std::string, std::string>> figures; // "38 h", "of work"
    std::vector<Chapter> chapters;
    std::map<PhotoId, BookPhoto> photos; // those that shots name
};

} // namespace fettle::desk
