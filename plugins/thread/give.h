// What the adapters of this plugin share: values into the sink, mixed rows.
#pragma once

#include "describe.hpp"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fettle::thread {

using Cell = std::variant<double, std::string>;

inline void give_number(const fettle_sink* sink, const char* id, std::optional<double> si) {
    if (si) sink->number(sink->context, id, *si);
}

inline void give_text(const fettle_sink* sink, const char* id, const std::string& words) {
    if (!words.empty()) sink->text(sink->context, id, words.c_str());
}

inline void give_cells(const fettle_sink* sink, const char* table, const std::vector<Cell>& row) {
    std::vector<fettle_cell> cells;
    for (const Cell& cell : row) {
        const auto* words = std::get_if<std::string>(&cell);
        cells.push_back({sizeof(fettle_cell), words == nullptr ? std::get<double>(cell) : 0,
                         words == nullptr ? nullptr : words->c_str()});
    }
    sink->row(sink->context, table, cells.data(), static_cast<std::uint32_t>(cells.size()));
}

} // namespace fettle::thread
