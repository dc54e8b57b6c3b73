// The whole room over a notebook of the test's own, driven headless: what a person would press and
// type, through the same queue as the real window.
#pragma once

#include "driver.h"
#include "notebook/fixture.h"
#include "ui/workroom.h"

#include <chrono>
#include <functional>
#include <memory>
#include <thread>

namespace fettle::ui::testing {

struct Workbench {
    calc::Catalogue& sheets;
    Notebook& book;
    Headless stage;
    std::unique_ptr<Workroom> room =
        std::make_unique<Workroom>(book, sheets, Workroom::Settings{.surface = Surface::none});
    Driver driver;

    Workbench(Notebook& notebook, calc::Catalogue& catalogue, float width = 1280,
              float height = 800)
        : sheets(catalogue),
          book(notebook),
          stage({}, width, height),
          driver(stage, [this](Page& page) { room->frame(page, stage.input()); }) {}

    // Frames go on until it holds; false after a minute, which no honest run needs.
    bool until(const std::function<bool()>& holds) {
        const auto end = std::chrono::steady_clock::now() + std::chrono::minutes(1);
        while (!holds()) {
            if (std::chrono::steady_clock::now() > end) return false;
            driver.settle(1);
            std::this_thread::sleep_for(std::chrono::milliseconds(2));
        }
        driver.settle();
        return true;
    }
    bool until_shown(const std::string& key) {
        return until([&] { return stage.reg().find(key) != nullptr; });
    }
    // The half second after which a draft is kept, in frames of a sixtieth.
    void pause() { driver.settle(40); }

    std::string said(const std::string& key) {
        const Noted* noted = stage.reg().find(key);
        return noted ? noted->value.empty() ? noted->label : noted->value : "";
    }
    void type_into(const std::string& key, const std::string& text) {
        driver.reveal(key);
        driver.click(key);
        driver.press({static_cast<int>(Key::a), true});
        driver.press(Key::del);
        driver.type(text);
    }
};

struct WorkroomTest : Desk {
    calc::Catalogue sheets{FETTLEBOOK_BIN_DIR "/fettlebook-calc", {FETTLEBOOK_PLUGIN_DIR}};
    std::unique_ptr<Workbench> bench = std::make_unique<Workbench>(book, sheets);

    Driver& driver() { return bench->driver; }
};

} // namespace fettle::ui::testing
