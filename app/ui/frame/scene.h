// One Dear ImGui context with all that a frame needs: input queue, theme, fonts, register. The
// window and the headless frames of the tests both stand on it and add only where the pixels go.
// Owns the context; UI thread only; one Scene is current at a time (the last one made).
#pragma once

#include "ui/frame/input_queue.h"
#include "ui/frame/page.h"

#include <functional>
#include <string>

struct ImGuiContext;

namespace fettle::ui {

class Scene {
  public:
    explicit Scene(Theme theme);
    ~Scene();
    Scene(const Scene&) = delete;
    Scene& operator=(const Scene&) = delete;

    // Style and fonts for another scale or light. The caller uploads the new font atlas.
    void set_theme(Theme theme);
    const Theme& theme() const { return theme_; }
    const Fonts& fonts() const { return fonts_; }

    InputQueue input;
    Register reg;

    // Feeds input, draws one frame over the whole area and ends it (ImGui::Render). True: input is
    // left over, or something moved, and another frame is wanted.
    bool frame(float width, float height, float seconds, const std::function<void(Page&)>& draw);

    // Called before a frame for which letters were added to the atlas of fonts, to upload it anew.
    std::function<void()> letters_added;

    // The words a system clipboard would hold; the window exchanges them with the real one.
    std::string clipboard;

  private:
    bool wants_letters() const;
    void set_letters();

    ImGuiContext* context_;
    Theme theme_;
    Fonts fonts_;
    std::set<std::uint16_t> far_letters_; // that the atlas was asked for
    std::map<std::string, SoftWrap, std::less<>> wraps_;
};

} // namespace fettle::ui
