// Taking in a parts list from a file: which column is which, what each row would do, what is wrong
// by row and column; then all of it or nothing.
#pragma once

#include "notebook/parts_list.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"

#include <string>

namespace fettle::ui {

struct PositionImport {
    bool open = false, begins = false;
    std::string path, trouble;
    bool windows_1252 = false;
    bool read = false; // `table` is that of the path
    CsvTable table;
    ListColumns columns;

    struct Question {
        VehicleId vehicle;
        ListColumns columns;
        int reading = 0;
        bool operator==(const Question&) const = default;
    };
    int readings = 0; // counts the files read
    Snapshot<ListPreview, Question> preview;

    void begin(const std::string& file = {}); // reads the file at once where one is named
};

// Until it is left or taken in; the list goes to this vehicle.
void draw_position_import(Page& page, Context& context, PositionImport& state,
                          const Vehicle& vehicle);

} // namespace fettle::ui
