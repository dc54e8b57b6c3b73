#include "driver.h"

#include "ui/frame_times.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <stdexcept>

namespace fettle::ui::testing {

void Driver::settle(int frames) {
    for (int i = 0; i < frames; ++i)
        FrameTimes::all().of([this] { return stage_.frame(draw_); });
}

void Driver::drain() {
    while (FrameTimes::all().of([this] { return stage_.frame(draw_); })) {
    }
    settle();
}

const Noted& Driver::expect_visible(const std::string& key) {
    const Noted* noted = stage_.reg().find(key);
    if (!noted) throw std::runtime_error("nothing on the screen has the key " + key);
    if (!noted->visible()) throw std::runtime_error(key + " is scrolled or cut out of sight");
    if (noted->frames < 2) throw std::runtime_error(key + " has not stood still for two frames");
    return *noted;
}

const Noted& Driver::expect_enabled(const std::string& key) {
    const Noted& noted = expect_visible(key);
    if (!noted.enabled) throw std::runtime_error(key + " cannot be used at the moment");
    return noted;
}

bool Driver::shows(const std::string& key) const {
    const Noted* noted = stage_.reg().find(key);
    return noted && noted->visible();
}

void Driver::move_to(const std::string& key) {
    const Rect shown = expect_enabled(key).shown();
    stage_.input().push(
        PointerMove{(shown.left + shown.right) / 2, (shown.top + shown.bottom) / 2});
}

void Driver::click(const std::string& key) {
    move_to(key);
    stage_.input().push(PointerButton{0, true});
    stage_.input().push(PointerButton{0, false});
    drain();
}

void Driver::type(const std::string& utf8) {
    for (const char* at = utf8.c_str(); *at != '\0';) {
        unsigned code_point = 0;
        at += ImTextCharFromUtf8(&code_point, at, utf8.c_str() + utf8.size());
        stage_.input().push(Character{code_point});
    }
    drain();
}

void Driver::press(const Chord& chord) {
    const auto stroke = [this](Key key, bool wanted, bool down) {
        if (wanted) stage_.input().push(KeyStroke{key, down});
    };
    stroke(Key::left_ctrl, chord.ctrl, true);
    stroke(Key::left_shift, chord.shift, true);
    stroke(Key::left_alt, chord.alt, true);
    stroke(static_cast<Key>(chord.key), true, true);
    stroke(static_cast<Key>(chord.key), true, false);
    stroke(Key::left_alt, chord.alt, false);
    stroke(Key::left_shift, chord.shift, false);
    stroke(Key::left_ctrl, chord.ctrl, false);
    drain();
}

void Driver::wheel(const std::string& key, float along) {
    move_to(key);
    drain();
    stage_.input().push(Wheel{0, along});
    drain();
}

void Driver::drag(const std::string& key, float across, float along) {
    const Rect shown = expect_enabled(key).shown();
    const float x = (shown.left + shown.right) / 2, y = (shown.top + shown.bottom) / 2;
    stage_.input().push(PointerMove{x, y});
    stage_.input().push(PointerButton{0, true});
    for (int i = 1; i <= 4; ++i) {
        const float share = static_cast<float>(i) / 4;
        stage_.input().push(PointerMove{x + across * share, y + along * share});
        drain();
    }
    stage_.input().push(PointerButton{0, false});
    drain();
}

void Driver::reveal(const std::string& key) {
    stage_.stage().reg.ask_reveal(key);
    settle(4);
}

void Driver::scroll_to(const std::string& list, int row_number) {
    stage_.stage().reg.ask_row(list, row_number);
    settle(4);
}

} // namespace fettle::ui::testing
