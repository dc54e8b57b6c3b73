// What each table of the notebook holds, column by column, in words: the schema as it is given out
// with the data, and what data must be like to be taken in. A test holds it against the database.
// Plain constants; any thread.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace fettle {

enum class Holds {
    id,        // the record's own number
    reference, // the number of another record
    whole,     // a whole number of up to 64 bits
    count,     // a whole number of up to 32 bits
    positive,  // the same, at least 1
    flag,      // 1 or 0
    number,    // a number with a fraction
    minor,     // an amount of money in the currency's smallest unit
    currency,  // ISO 4217
    word,      // one of a list
    day,       // ISO 8601, YYYY-MM-DD
    moment,    // ISO 8601 with clock, sub-second and offset where known
    json,
    hash, // XXH3-128, 32 hexadecimal digits
    file, // of a photo
    text,
};

inline constexpr bool kAlways = true, kMaybe = false;

struct ColumnSaid {
    std::string_view name;
    Holds holds;
    bool always; // false: may be nothing
    std::string_view meaning;
    std::string_view detail = {};                         // the unit; of a reference: the table
    const std::vector<std::string>& (*words)() = nullptr; // of a word
};

struct TableSaid {
    std::string_view name;
    std::string_view meaning;
    std::span<const ColumnSaid> columns; // in the database's order
};

// INTEGER, REAL or TEXT.
std::string_view stored_as(Holds holds);
// "whole number", "day (ISO 8601, YYYY-MM-DD)" ...
std::string_view in_words(Holds holds);

// Every table that is the user's record or in the making, each after those it refers to where that
// can be.
const std::vector<TableSaid>& described_tables();
const TableSaid* described_table(std::string_view name); // null: none of that name

// Tables that are not given out: they say how the record came about, or what this copy and the one
// on the other machine know of each other, and hold for one database alone. A backup has them.
inline constexpr std::array<std::string_view, 7> kKeptBack = {
    "history", "here", "sides", "states", "stamps", "same_rows", "differences"};

} // namespace fettle
