#include "temp_folder.h"
#include "ui/window_state.h"

#include <doctest/doctest.h>

using namespace fettle::ui;

TEST_CASE("how the window was left is there again, in a folder made for it") {
    const TempFolder folder;
    const auto file = folder / "state/fettlebook/window.json";
    keep_window_state(
        file,
        {.width = 1500,
         .height = 900,
         .maximised = true,
         .room = {.light = Light::night,
                  .text_scale = 1.25F,
                  .screen = "photos",
                  .entry_open = false,
                  .entry_width = 410.5F,
                  .tables = {{"parts",
                              {.by = "name", .downwards = true, .changed = {"maker", "place"}}}}}});
    const WindowState state = read_window_state(file);
    CHECK(state.width == 1500);
    CHECK(state.height == 900);
    CHECK(state.maximised);
    CHECK(state.room.light == Light::night);
    CHECK(state.room.text_scale == 1.25F);
    CHECK(state.room.screen == "photos");
    CHECK_FALSE(state.room.entry_open);
    CHECK(state.room.entry_width == 410.5F);
    REQUIRE(state.room.tables.contains("parts"));
    const TableState& parts = state.room.tables.at("parts");
    CHECK(parts.by == "name");
    CHECK(parts.downwards);
    CHECK(parts.changed == std::set<std::string>{"maker", "place"});
}

TEST_CASE("a window whose state is not there, broken or beyond bounds opens as one can work in") {
    const TempFolder folder;
    const auto file = folder / "window.json";
    const auto as_first = [&] {
        const WindowState state = read_window_state(file);
        return state.width == 1280 && state.height == 800 && !state.maximised &&
               state.room.light == Light::day && state.room.text_scale == 1 &&
               state.room.screen.empty() && state.room.entry_open && state.room.entry_width == 0;
    };
    CHECK(as_first());
    for (const auto* text :
         {"", "{", "[1, 2]", "12", "{\"width\": \"wide\", \"dark\": 3}",
          "{\"tables\": {\"parts\": {\"by\": 3, \"changed\": [1, {}]}, \"money\": 4}}"}) {
        write_file(file, text);
        CHECK_MESSAGE(as_first(), text);
    }
    write_file(file, "{\"width\": 1e99, \"height\": -5, \"text_scale\": 0, \"entry_width\": -1}");
    const WindowState state = read_window_state(file);
    CHECK(state.width == 16384);
    CHECK(state.height == 400);
    CHECK(state.room.text_scale == kLeastScale);
    CHECK(state.room.entry_width == 0);
}
