// A position as typed: group, number, name, quantity, spec, each with what is wrong beside it.
#pragma once

#include "notebook/positions.h"
#include "ui/frame/page.h"

#include <array>
#include <string>

namespace fettle::ui {

struct PositionFields {
    std::string group, number, name, quantity = "1", spec;
    std::string quantity_error, error; // of the quantity; of the rest, below the number

    void fill(const Position& position);
    // Reads what was typed into the position; false when the quantity is none.
    bool read(Position& position);
};

struct PositionTyping {
    bool left = false; // a field was written to its end
    bool active = false;
    bool entered = false;
};
PositionTyping draw_position_fields(Page& page, std::string_view prefix, PositionFields& fields,
                                    bool take_focus);

} // namespace fettle::ui
