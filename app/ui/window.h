// The real window: GLFW, OpenGL 3 and a Scene. Sleeps while nothing changes, draws three more
// frames after each event (layout settles), and can be woken by worker threads. UI thread only,
// except Waker. The window must outlive every Texture made for Surface::opengl.
#pragma once

#include "base/result.h"
#include "ui/frame/scene.h"

#include <atomic>
#include <functional>
#include <memory>
#include <string>

struct GLFWwindow;
struct GLFWcursor;

namespace fettle::ui {

// Asks the window for a frame, from any thread. Shares its state with the window because a worker
// may still report after the window has closed; then nothing happens.
class Waker {
  public:
    void wake() const;

  private:
    friend class Window;
    struct Bell {
        std::atomic<bool> rung = false;
        std::atomic<bool> window_open = true;
    };
    std::shared_ptr<Bell> bell_ = std::make_shared<Bell>();
};

struct WindowWish {
    std::string title = "Fettlebook";
    int width = 1280, height = 800;
    Light light = Light::day;
    float text_scale = 1.0F; // the user's, on top of the monitor's
    bool maximised = false;
    bool visible = true;
};

class Window {
  public:
    using Draw = std::function<void(Page&)>;

    // Fails with a sentence when there is no display or no OpenGL 3.
    static Result<std::unique_ptr<Window>> open(const WindowWish& wish);
    ~Window();
    Window(const Window&) = delete;
    Window& operator=(const Window&) = delete;

    // Until the window is closed.
    void run(const Draw& draw);
    void close();
    void reopen(); // after close(), to run once more

    // Another frame soon, for what moves by itself.
    void ask_frame();
    void resize(int width, int height); // pixels of the screen
    void set_light(Light light);
    void set_text_scale(float scale); // kLeastScale to kMostScale
    float text_scale() const { return text_scale_; }
    // As the user has it: what a next window would open with.
    WindowWish as_left() const;
    Waker waker() const { return waker_; }
    InputQueue& input() { return stage_->input; }
    Scene& stage() { return *stage_; }
    long frames_drawn() const { return frames_drawn_; }

    // Draws until the layout is settled.
    void show_settled(const Draw& draw);
    // The same, and writes what was drawn as a PNG file.
    Done save_picture(const Draw& draw, const std::string& path);

  private:
    Window() = default;
    Done start(const WindowWish& wish);
    void install_callbacks();
    void install_clipboard();
    void wait();
    void paint(const Draw& draw);
    void show();
    void set_pointer_shape();
    void rescale();
    float wanted_scale() const;
    static Window& of(GLFWwindow* window);

    GLFWwindow* window_ = nullptr;
    GLFWcursor* shapes_[4] = {};
    std::unique_ptr<Scene> stage_;
    Waker waker_;
    float text_scale_ = 1.0F;
    int width_ = 0, height_ = 0; // pixels of the screen, when not maximised
    int frames_wanted_ = 3;
    bool scale_changed_ = false;
    bool renderer_started_ = false;
    double last_frame_ = 0;
    long frames_drawn_ = 0;
};

} // namespace fettle::ui
