// A small page in the real window, for window_test: tells where its widgets are, and what came of
// it.
//   window_probe form FOLDER   writes FOLDER/places, then FOLDER/result when Save is pressed
//   window_probe idle FOLDER   writes to FOLDER/result how many frames one idle second took
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/window.h"

#include <chrono>
#include <fstream>
#include <iostream>
#include <thread>

using namespace fettle::ui;

namespace {

void write_places(const Register& reg, const std::string& path) {
    std::ofstream out(path + ".new");
    for (const std::string& key : reg.keys()) {
        const Rect at = reg.find(key)->shown();
        out << key << ' ' << static_cast<int>((at.left + at.right) / 2) << ' '
            << static_cast<int>((at.top + at.bottom) / 2) << '\n';
    }
    out.close();
    std::rename((path + ".new").c_str(), path.c_str());
}

void run_form(Window& window, const std::string& folder) {
    std::string name;
    int presses = 0;
    window.run([&](Page& page) {
        text_field(page, "name", name, {.label = "name", .width = 300});
        if (button(page, "count", "Count")) ++presses;
        if (button(page, "save", "Save", {.weight = Weight::next})) {
            std::ofstream(folder + "/result") << name << '\n' << presses << '\n';
            window.close();
        }
        if (window.frames_drawn() == 2) write_places(page.reg, folder + "/places");
    });
}

void run_idle(Window& window, const std::string& folder) {
    using namespace std::chrono_literals;
    std::string name;
    std::atomic<long> drawn = 0;
    std::atomic<bool> finished = false;
    std::thread clock([&, waker = window.waker()] {
        std::this_thread::sleep_for(1s);
        const long before = drawn;
        std::this_thread::sleep_for(1s);
        std::ofstream(folder + "/result") << drawn - before << '\n';
        finished = true;
        waker.wake();
    });
    window.run([&](Page& page) {
        // With the caret blinking: the busiest kind of idle.
        text_field(page, "name", name, {.take_focus = drawn == 0});
        ++drawn;
        if (finished) window.close();
    });
    clock.join();
}

} // namespace

int main(int count, char** arguments) {
    if (count != 3) return 2;
    auto window = Window::open({.title = "window probe", .width = 800, .height = 500});
    if (!window) {
        std::cerr << window.failure().sentence << '\n';
        return 1;
    }
    if (std::string(arguments[1]) == "form")
        run_form(**window, arguments[2]);
    else
        run_idle(**window, arguments[2]);
    return 0;
}
