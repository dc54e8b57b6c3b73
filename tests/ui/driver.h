// Drives a screen by the keys of its widgets, through the same input queue as the real window.
// A step that cannot be done throws a sentence naming the key, so a test fails where it went wrong.
#pragma once

#include "ui/frame/headless.h"

#include <functional>
#include <string>

namespace fettle::ui::testing {

class Driver {
  public:
    using Draw = std::function<void(Page&)>;
    Driver(Headless& stage, Draw draw) : stage_(stage), draw_(std::move(draw)) { settle(); }

    void settle(int frames = 3);        // lets the layout come to rest
    void drain();                       // until all input has been taken
    void click(const std::string& key); // the middle of what is seen of it
    void type(const std::string& utf8); // as characters
    void press(const Chord& chord);
    void press(Key key) { press(Chord{static_cast<int>(key)}); }
    void wheel(const std::string& key, float along);
    void drag(const std::string& key, float across, float along);
    void reveal(const std::string& key);                     // a widget scrolled out of sight
    void scroll_to(const std::string& list, int row_number); // a row not drawn at all

    // Visible, enabled or not, and standing still for two frames; throws otherwise.
    const Noted& expect_visible(const std::string& key);
    std::string value(const std::string& key) { return expect_visible(key).value; }
    bool shows(const std::string& key) const;

  private:
    const Noted& expect_enabled(const std::string& key);
    void move_to(const std::string& key);

    Headless& stage_;
    Draw draw_;
};

} // namespace fettle::ui::testing
