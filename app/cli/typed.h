// Arguments as typed, read into what the domain's acts take. What cannot be read gives the sentence
// that goes to stderr.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"
#include "notebook/parts.h"
#include "notebook/vehicles.h"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fettle::cli {

// `noun` is a word of the glossary: photo, task, entry.
Result<std::int64_t> parse_record_number(const std::string& noun, const std::string& text);

template <class RecordId>
Result<RecordId> parse_id(const std::string& noun, const std::string& text) {
    auto number = parse_record_number(noun, text);
    if (!number) return number.failure();
    return RecordId{*number};
}

template <class RecordId>
Result<std::vector<RecordId>> parse_ids(const std::string& noun,
                                        const std::vector<std::string>& texts) {
    std::vector<RecordId> ids;
    for (const auto& text : texts) {
        auto id = parse_id<RecordId>(noun, text);
        if (!id) return id.failure();
        ids.push_back(*id);
    }
    return ids;
}

// Blank gives none.
Result<std::optional<Day>> parse_day_or_none(const std::string& text);
Result<Day> parse_day_or_today(const std::string& text);

// "name=value", split at the first or the last equals sign. `example` goes into the sentence.
enum class SplitAt { first, last };
Result<std::pair<std::string, std::string>> parse_pair(const std::string& text, SplitAt where,
                                                       const std::string& example);

// Several of these, split at the first; a name given twice is refused.
Result<std::map<std::string, std::string>> typed_pairs(const std::vector<std::string>& texts,
                                                       const std::string& example);

// "H7", or "K2=6" for pieces of a lot; 0 pieces where none are named.
struct TaggedPieces {
    PartId part;
    int pieces = 0;
};
Result<TaggedPieces> parse_tagged_pieces(const Notebook& notebook, const std::string& text);

Result<std::vector<PartId>> parts_tagged(const Notebook& notebook,
                                         const std::vector<std::string>& tags);
// By name; without one the first, which each notebook is made with.
Result<Vehicle> vehicle_or_first(const Notebook& notebook, const std::string& name);
// No id for a blank tag.
Result<PartId> part_or_none(const Notebook& notebook, const std::string& tag);

} // namespace fettle::cli
