#include "ui/app.h"

#include "desk/places.h"
#include "ui/first_page.h"
#include "ui/window.h"
#include "ui/window_state.h"
#include "ui/workroom.h"

#include <algorithm>
#include <functional>
#include <iostream>
#include <string>

namespace fettle::ui {
namespace {

const std::vector<std::pair<int, int>> kUsualSizes = {{1280, 800}, {1920, 1080}};

int tell(const Failure& failure) {
    std::cerr << failure.sentence << '\n';
    return 1;
}

// The page that offers to make a notebook; none when the window was closed instead.
std::optional<Notebook> first_page(Window& window, const std::filesystem::path& folder) {
    std::optional<Notebook> made;
    FirstPageState state;
    window.run([&](Page& page) {
        auto fresh = draw_first_page(page, folder, state);
        if (!fresh) return;
        made.emplace(std::move(*fresh));
        window.close();
    });
    return made;
}

// Where it is kept how the window was left; blank when the user has no such place.
std::filesystem::path state_file() {
    const auto folder = desk::state_folder();
    return folder.empty() ? folder : folder / "window.json";
}

// Gives how the room was left.
RoomState run_room(Window& window, Notebook& book, const RoomState& state) {
    calc::Catalogue sheets(desk::calc_program(), desk::plugin_folders());
    Workroom room(book, sheets,
                  {.wake = [waker = window.waker()] { waker.wake(); }, .state = state});
    window.run([&](Page& page) {
        room.frame(page, window.input());
        const RoomState wanted = room.state();
        if (wanted.light != page.theme.light) window.set_light(wanted.light);
        if (wanted.text_scale != window.text_scale()) window.set_text_scale(wanted.text_scale);
    });
    return room.state();
}

void keep_as_left(const Window& window, const RoomState& room) {
    const WindowWish left = window.as_left();
    keep_window_state(state_file(), {left.width, left.height, left.maximised, room});
}

int run_open(const AppWish& wish) {
    auto book = Notebook::open(wish.notebook_folder, store::Access::write);
    const bool absent = !book && book.failure().kind == FailureKind::not_found;
    if (!book && !absent) return tell(book.failure());
    const WindowState left = read_window_state(state_file());
    auto window = Window::open({.width = left.width,
                                .height = left.height,
                                .light = left.room.light,
                                .text_scale = left.room.text_scale,
                                .maximised = left.maximised});
    if (!window) return tell(absent ? book.failure() : window.failure());
    std::optional<Notebook> made;
    if (absent) {
        auto fresh = first_page(**window, wish.notebook_folder);
        if (!fresh) return 0;
        made.emplace(std::move(*fresh));
        (*window)->reopen();
    }
    const RoomState room = run_room(**window, made ? *made : *book, left.room);
    if (!state_file().empty()) keep_as_left(**window, room);
    return 0;
}

// What is drawn first asks for its photos and calculations; the second time they are there.
Done draw_picture(Window& window, Workroom& room, const std::filesystem::path& file) {
    const auto draw = [&](Page& page) { room.frame(page, window.input()); };
    window.show_settled(draw);
    room.settle();
    return window.save_picture(draw, file);
}

// One that shows what a task can wait for.
TaskId waiting_task(const Notebook& book) {
    const auto tasks = list_tasks(book, today());
    if (!tasks) return {};
    const auto waits =
        std::ranges::find_if(*tasks, [](const TaskStanding& one) { return one.waits.size() > 1; });
    return waits == tasks->end() ? TaskId{} : waits->task.id;
}

Done draw_all(Window& window, Workroom& room, const Notebook& book, const calc::Catalogue& sheets,
              const std::function<std::filesystem::path(const std::string&)>& file) {
    for (const std::string& screen : room.screen_keys()) {
        room.show({screen});
        if (Done drawn = draw_picture(window, room, file(screen)); !drawn) return drawn;
    }
    room.show_tasks(true);
    if (Done drawn = draw_picture(window, room, file("tasks-picture")); !drawn) return drawn;
    if (const TaskId waiting = waiting_task(book)) {
        room.show({"tasks", waiting.value});
        if (Done drawn = draw_picture(window, room, file("task")); !drawn) return drawn;
    }
    room.show_tasks(false);
    for (const auto& [name, place] : room.further_places()) {
        room.show(place);
        if (Done drawn = draw_picture(window, room, file(name)); !drawn) return drawn;
    }
    room.show({.screen = "parts", .view = "parts"});
    room.show({.screen = "marks", .view = "marks"});
    for (const calc::Plugin& plugin : sheets.plugins())
        for (const calc::Sheet& sheet : plugin.sheets) {
            room.open_sheet(sheet.id);
            if (Done drawn = draw_picture(window, room, file("sheet-" + sheet.id)); !drawn)
                return drawn;
        }
    room.open_sheet({});
    room.show({.screen = "bench", .view = "today"});
    return done();
}

// One window for all of them: some displays start afresh when their last window goes.
Done draw_pictures(Notebook& book, const AppWish& wish) {
    calc::Catalogue sheets(desk::calc_program(), desk::plugin_folders());
    auto window = Window::open({.text_scale = wish.letters, .visible = false});
    if (!window) return window.failure();
    Workroom room(book, sheets, {.state = {.text_scale = wish.letters}});
    for (const Light light : {Light::day, Light::night})
        for (const auto& [width, height] : wish.sizes.empty() ? kUsualSizes : wish.sizes) {
            (*window)->set_light(light);
            (*window)->resize(width, height);
            const std::string ending = (light == Light::day ? "-" : "-dark-") +
                                       std::to_string(width) + "x" + std::to_string(height) +
                                       ".png";
            const auto file = [&](const std::string& name) {
                return *wish.pictures / (name + ending);
            };
            if (Done drawn = draw_all(**window, room, book, sheets, file); !drawn) return drawn;
        }
    return done();
}

int run_pictures(const AppWish& wish) {
    auto book = Notebook::open(wish.notebook_folder, store::Access::write);
    if (!book) return tell(book.failure());
    std::error_code error;
    std::filesystem::create_directories(*wish.pictures, error);
    const Done drawn = draw_pictures(*book, wish);
    return drawn ? 0 : tell(drawn.failure());
}

} // namespace

int run_window(const AppWish& wish) {
    return wish.pictures ? run_pictures(wish) : run_open(wish);
}

} // namespace fettle::ui
