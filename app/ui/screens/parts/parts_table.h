// The parts as rows of a table: its columns, what stands in them, and the orders they give.
#pragma once

#include "notebook/parts.h"
#include "ui/widgets/table.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::ui {

// The first is the tag.
std::span<const TableColumn> part_columns();

struct PartCell {
    std::string text;
    Role role = Role::pencil;
};
PartCell part_cell(const Part& part, std::string_view column);

// Puts places in `parts` into the order of a column; parts that have nothing there come last, those
// alike stay as they were.
void order_parts(std::vector<std::size_t>& places, const std::vector<Part>& parts,
                 std::string_view column, bool downwards);

} // namespace fettle::ui
