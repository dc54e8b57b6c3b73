// Small typeset tables: figures in two systems, and rows of cells under headings. Columns are as
// wide as what stands in them; what does not fit goes on to the next line, never out of sight.
#pragma once

#include "ui/widgets/readings.h"

#include <string>
#include <string_view>
#include <vector>

namespace fettle::ui {

struct FigureLine {
    std::string id;
    std::string label;
    std::string metric;
    std::string inch; // empty: inches add nothing
};
// Each line notes itself as `key.ID`, its value "24.4 N·m  18.0 lbf·ft".
void figure_lines(Page& page, std::string_view key, const std::vector<FigureLine>& lines);

struct CellTable {
    std::string_view label;
    const std::vector<std::string>& headings;
    const std::vector<std::vector<std::string>>& rows;
    const std::vector<std::string>& inch_headings;          // beside `headings`; may be empty
    const std::vector<std::vector<std::string>>& inch_rows; // small below the rows; may be empty
};
// Each row notes itself as `key.0`, `key.1` ..., its value the cells with two blanks between.
void cell_table(Page& page, std::string_view key, const CellTable& table);

} // namespace fettle::ui
