#include "notebook/described.h"

#include "notebook/described_within.h"

#include <algorithm>

namespace fettle {

std::string_view stored_as(Holds holds) {
    switch (holds) {
    case Holds::id:
    case Holds::reference:
    case Holds::whole:
    case Holds::count:
    case Holds::positive:
    case Holds::flag:
    case Holds::minor:
        return "INTEGER";
    case Holds::number:
        return "REAL";
    default:
        return "TEXT";
    }
}

std::string_view in_words(Holds holds) {
    switch (holds) {
    case Holds::id:
        return "number of the record";
    case Holds::reference:
        return "number of a record";
    case Holds::whole:
    case Holds::count:
        return "whole number";
    case Holds::positive:
        return "whole number, at least 1";
    case Holds::flag:
        return "1 for yes, 0 for no";
    case Holds::number:
        return "number";
    case Holds::minor:
        return "amount in the smallest unit of its currency (pence, cents)";
    case Holds::currency:
        return "currency, three capital letters of ISO 4217";
    case Holds::word:
        return "one of these words";
    case Holds::day:
        return "day, ISO 8601 (YYYY-MM-DD)";
    case Holds::moment:
        return "time, ISO 8601, sub-second and offset where known";
    case Holds::json:
        return "JSON (RFC 8259) as text";
    case Holds::hash:
        return "XXH3-128, 32 hexadecimal digits";
    case Holds::file:
        return "path";
    case Holds::text:
        break;
    }
    return "text";
}

const std::vector<TableSaid>& described_tables() {
    static const std::vector<TableSaid> tables = [] {
        std::vector<TableSaid> all;
        for (const auto& some : {described_rebuild(), described_seen(), described_dealings()})
            all.insert(all.end(), some.begin(), some.end());
        return all;
    }();
    return tables;
}

const TableSaid* described_table(std::string_view name) {
    const auto& tables = described_tables();
    const auto found = std::ranges::find(tables, name, &TableSaid::name);
    return found == tables.end() ? nullptr : &*found;
}

} // namespace fettle
