// Frames with no X and no OpenGL: everything is laid out and answers to input, nothing is painted.
// For tests and for whoever wants to know what a screen says. Same Scene as the real window.
#pragma once

#include "ui/frame/scene.h"

namespace fettle::ui {

class Headless {
  public:
    explicit Headless(Theme theme = {}, float width = 1280, float height = 800);

    // Draws one frame, 1/60 s after the last unless told otherwise. True: input is left over.
    bool frame(const std::function<void(Page&)>& draw, float seconds = 1.0F / 60);

    void resize(float width, float height);
    Scene& stage() { return stage_; }
    InputQueue& input() { return stage_.input; }
    const Register& reg() const { return stage_.reg; }

  private:
    Scene stage_;
    float width_, height_;
};

} // namespace fettle::ui
