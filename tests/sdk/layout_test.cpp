// The layout of contract version 1, pinned: a library built against it years ago must still load.
#include "fettle_plugin.h"

#include <doctest/doctest.h>

#include <cstddef>

TEST_CASE("the structs of contract version 1 keep their size and order on 64-bit machines") {
    if (sizeof(void*) != 8) return;
    CHECK(sizeof(fettle_column) == 48);
    CHECK(sizeof(fettle_input) == 104);
    CHECK(sizeof(fettle_output) == 64);
    CHECK(sizeof(fettle_table) == 40);
    CHECK(sizeof(fettle_value) == 40);
    CHECK(sizeof(fettle_cell) == 24);
    CHECK(sizeof(fettle_sink) == 64);
    CHECK(sizeof(fettle_sheet) == 112);
    CHECK(sizeof(fettle_plugin) == 48);
    CHECK(offsetof(fettle_input, preset) == 48);
    CHECK(offsetof(fettle_sheet, compute) == 104);
    CHECK(offsetof(fettle_plugin, sheets) == 40);
}
