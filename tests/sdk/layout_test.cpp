// The layout of contract version 1, pinned: a library built against it years ago must still load.
#include "fettle_plugin.h"

#include <doctest/doctest.h>

#include <cstddef>

TEST_CASE("members of the first edition stay where libraries built years ago have them") {
    if (sizeof(void*) != 8) return;
    CHECK(offsetof(fettle_column, digits) == 44);
    CHECK(offsetof(fettle_input, preset) == 48);
    CHECK(offsetof(fettle_input, columns) == 96);
    CHECK(offsetof(fettle_output, source) == 56);
    CHECK(offsetof(fettle_sink, refuse) == 56);
    CHECK(offsetof(fettle_sheet, compute) == 104);
    CHECK(offsetof(fettle_plugin, sheets) == 40);
    CHECK(sizeof(fettle_table) == 40);
    CHECK(sizeof(fettle_value) == 40);
    CHECK(sizeof(fettle_cell) == 24);
    CHECK(sizeof(fettle_plugin) == 48);
}

TEST_CASE("members of the second edition stand behind them and stay there too") {
    if (sizeof(void*) != 8) return;
    CHECK(offsetof(fettle_column, choice_count) == 48);
    CHECK(sizeof(fettle_column) == 64);
    CHECK(offsetof(fettle_input, when) == 104);
    CHECK(sizeof(fettle_input) == 128);
    CHECK(offsetof(fettle_output, hands_to) == 64);
    CHECK(sizeof(fettle_output) == 72);
    CHECK(offsetof(fettle_sink, series) == 64);
    CHECK(sizeof(fettle_sink) == 80);
    CHECK(offsetof(fettle_sheet, smooth) == 112);
    CHECK(sizeof(fettle_sheet) == 128);
    CHECK(sizeof(fettle_axis) == 40);
    CHECK(sizeof(fettle_chart) == 48);
    CHECK(sizeof(fettle_point) == 16);
}
