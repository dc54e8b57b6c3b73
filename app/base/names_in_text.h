// Names in marked text: what an entry speaks of, named where it speaks of it. A name is a link of
// Markdown that other programs read as well: [H7 spring hanger](part:12). A worked sheet is named
// by its id and, from the second of a kind in the entry on, by its number: (sheet:shim.stack:2).
// Pure.
#pragma once

#include "base/marked_text.h"

#include <cstdint>
#include <functional>
#include <optional>

namespace fettle {

struct NameInText {
    enum class Kind { part, task, photo, sheet };
    Kind kind = Kind::part;
    std::int64_t number = 0; // the record's id; of a sheet: which of its kind in the entry, from 1
    std::string sheet = {};  // "shim.stack"; empty for what is no sheet
    bool operator==(const NameInText&) const = default;
};

// "part:12", "task:3", "photo:33", "sheet:shim.stack:2", and back: nothing for what leads
// elsewhere.
std::string target_of(const NameInText& name);
std::optional<NameInText> name_of_target(std::string_view target);

// The name as it is put into a text. `words` on one line, whatever stands in them; blank: the
// target.
std::string mark_of(const NameInText& name, std::string_view words);

// In their order, each once.
std::vector<NameInText> names_in(std::string_view marked);

// The text with other names in it: nothing leaves the words alone, and of a worked sheet that is
// alone in its line leaves nothing.
using Renaming = std::function<std::optional<NameInText>(const NameInText&)>;
std::string renamed(std::string_view marked, const Renaming& becomes);

// Has the runs lead elsewhere; empty: nowhere.
void lead_runs(std::vector<TextBlock>& blocks,
               const std::function<std::string(const std::string&)>& becomes);

// A text cut where the worked sheets of its entry stand: below the block that names them first.
struct SheetNamed {
    std::string sheet; // "shim.stack"
    std::string title; // a paragraph of these words alone gives way to the sheet
};
struct CutText {
    struct Piece {
        std::vector<TextBlock> blocks;
        std::vector<std::size_t> sheets; // that stand below it, by their place in the entry
    };
    std::vector<Piece> pieces;
    std::vector<std::size_t> unplaced; // that the text does not name
};
CutText cut_at_sheets(std::vector<TextBlock> blocks, const std::vector<SheetNamed>& sheets);

} // namespace fettle
