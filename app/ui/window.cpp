#include "ui/window.h"

#include "ui/window_state.h"

#include <GLFW/glfw3.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>
#include <stb_image_write.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace fettle::ui {
namespace {

constexpr int kFollowUps = 3;         // windows settle their size within three frames
constexpr double kCaretBlink = 0.4;   // seconds; while text is written
constexpr double kLongSleep = 30.0;   // seconds; an event or a Waker ends it earlier
constexpr double kLongestStep = 0.25; // seconds that one frame may tell the widgets have passed

Failure no_window(std::string what) {
    const char* reason = nullptr;
    glfwGetError(&reason);
    return {FailureKind::io,
            std::move(what) + " The command line does the same work: fettlebook --help.",
            reason ? reason : ""};
}

enum Shape { kArrow, kText, kAcross, kHand };

int shape_of(ImGuiMouseCursor cursor) {
    switch (cursor) {
    case ImGuiMouseCursor_TextInput:
        return kText;
    case ImGuiMouseCursor_ResizeEW:
        return kAcross;
    case ImGuiMouseCursor_Hand:
        return kHand;
    default:
        return kArrow;
    }
}

} // namespace

void Waker::wake() const {
    bell_->rung = true;
    if (bell_->window_open) glfwPostEmptyEvent();
}

Result<std::unique_ptr<Window>> Window::open(const WindowWish& wish) {
    std::unique_ptr<Window> window(new Window);
    if (Done started = window->start(wish); !started) return started.failure();
    return window;
}

Done Window::start(const WindowWish& wish) {
    if (glfwInit() != GLFW_TRUE)
        return no_window(
            "There is no display to open a window on: set DISPLAY or sit at a desktop.");
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    glfwWindowHint(GLFW_SCALE_TO_MONITOR, GLFW_TRUE);
    glfwWindowHintString(GLFW_X11_CLASS_NAME, "fettlebook"); // StartupWMClass of the .desktop file
    glfwWindowHintString(GLFW_X11_INSTANCE_NAME, "fettlebook");
    glfwWindowHint(GLFW_VISIBLE, wish.visible ? GLFW_TRUE : GLFW_FALSE);
    glfwWindowHint(GLFW_MAXIMIZED, wish.maximised ? GLFW_TRUE : GLFW_FALSE);
    width_ = wish.width;
    height_ = wish.height;
    window_ = glfwCreateWindow(wish.width, wish.height, wish.title.c_str(), nullptr, nullptr);
    if (!window_)
        return no_window("The window could not be opened: OpenGL 3.3 is needed and was not given.");
    glfwMakeContextCurrent(window_);
    glfwSwapInterval(1);
    text_scale_ = std::clamp(wish.text_scale, kLeastScale, kMostScale);
    stage_ = std::make_unique<Scene>(Theme{wish.light, wanted_scale()});
    if (!ImGui_ImplOpenGL3_Init("#version 330"))
        return no_window("The window could not be drawn: OpenGL 3.3 is needed and was not given.");
    renderer_started_ = true;
    shapes_[kArrow] = glfwCreateStandardCursor(GLFW_ARROW_CURSOR);
    shapes_[kText] = glfwCreateStandardCursor(GLFW_IBEAM_CURSOR);
    shapes_[kAcross] = glfwCreateStandardCursor(GLFW_HRESIZE_CURSOR);
    shapes_[kHand] = glfwCreateStandardCursor(GLFW_HAND_CURSOR);
    install_callbacks();
    install_clipboard();
    stage_->letters_added = [] {
        ImGui_ImplOpenGL3_DestroyFontsTexture();
        ImGui_ImplOpenGL3_CreateFontsTexture();
    };
    last_frame_ = glfwGetTime();
    return done();
}

Window::~Window() {
    waker_.bell_->window_open = false;
    if (renderer_started_) ImGui_ImplOpenGL3_Shutdown();
    stage_.reset();
    for (GLFWcursor* shape : shapes_)
        if (shape) glfwDestroyCursor(shape);
    if (window_) glfwDestroyWindow(window_);
    glfwTerminate();
}

Window& Window::of(GLFWwindow* window) {
    return *static_cast<Window*>(glfwGetWindowUserPointer(window));
}

void Window::install_callbacks() {
    glfwSetWindowUserPointer(window_, this);
    glfwSetCursorPosCallback(window_, [](GLFWwindow* w, double x, double y) {
        int wide = 1, high = 1, pixels_wide = 1, pixels_high = 1;
        glfwGetWindowSize(w, &wide, &high);
        glfwGetFramebufferSize(w, &pixels_wide, &pixels_high);
        of(w).input().push(PointerMove{static_cast<float>(x * pixels_wide / std::max(1, wide)),
                                       static_cast<float>(y * pixels_high / std::max(1, high))});
    });
    glfwSetMouseButtonCallback(window_, [](GLFWwindow* w, int button, int action, int) {
        of(w).input().push(PointerButton{button, action == GLFW_PRESS});
    });
    glfwSetScrollCallback(window_, [](GLFWwindow* w, double across, double along) {
        of(w).input().push(Wheel{static_cast<float>(across), static_cast<float>(along)});
    });
    glfwSetKeyCallback(window_, [](GLFWwindow* w, int key, int, int action, int) {
        if (action != GLFW_REPEAT)
            of(w).input().push(KeyStroke{static_cast<Key>(key), action == GLFW_PRESS});
        else
            of(w).ask_frame(); // Dear ImGui counts repeats itself, by time
    });
    glfwSetCharCallback(window_, [](GLFWwindow* w, unsigned code_point) {
        of(w).input().push(Character{code_point});
    });
    glfwSetDropCallback(window_, [](GLFWwindow* w, int count, const char** paths) {
        of(w).input().push(FilesDropped{std::vector<std::string>(paths, paths + count)});
    });
    glfwSetWindowFocusCallback(
        window_, [](GLFWwindow* w, int gained) { of(w).input().push(Focus{gained == GLFW_TRUE}); });
    glfwSetCursorEnterCallback(window_, [](GLFWwindow* w, int entered) {
        if (entered == GLFW_FALSE) of(w).input().push(PointerMove{-1.0e6F, -1.0e6F});
    });
    glfwSetWindowRefreshCallback(window_, [](GLFWwindow* w) { of(w).ask_frame(); });
    glfwSetWindowSizeCallback(window_, [](GLFWwindow* w, int width, int height) {
        if (glfwGetWindowAttrib(w, GLFW_MAXIMIZED) == GLFW_TRUE) return;
        of(w).width_ = width;
        of(w).height_ = height;
    });
    glfwSetFramebufferSizeCallback(window_, [](GLFWwindow* w, int, int) { of(w).ask_frame(); });
    glfwSetWindowContentScaleCallback(window_, [](GLFWwindow* w, float, float) {
        of(w).scale_changed_ = true;
        of(w).ask_frame();
    });
}

void Window::install_clipboard() {
    ImGuiIO& io = ImGui::GetIO();
    io.ClipboardUserData = window_;
    io.GetClipboardTextFn = [](void* w) {
        return glfwGetClipboardString(static_cast<GLFWwindow*>(w));
    };
    io.SetClipboardTextFn = [](void* w, const char* text) {
        glfwSetClipboardString(static_cast<GLFWwindow*>(w), text);
    };
}

float Window::wanted_scale() const {
    float across = 1, along = 1;
    glfwGetWindowContentScale(window_, &across, &along);
    return std::max(0.5F, across) * text_scale_;
}

void Window::rescale() {
    scale_changed_ = false;
    Theme theme = stage_->theme();
    theme.scale = wanted_scale();
    ImGui_ImplOpenGL3_DestroyFontsTexture();
    stage_->set_theme(theme);
    ImGui_ImplOpenGL3_CreateFontsTexture();
}

void Window::resize(int width, int height) {
    glfwSetWindowSize(window_, width, height);
    ask_frame();
}

void Window::set_light(Light light) {
    Theme theme = stage_->theme();
    theme.light = light;
    stage_->set_theme(theme);
    ask_frame();
}

void Window::set_text_scale(float scale) {
    text_scale_ = std::clamp(scale, kLeastScale, kMostScale);
    scale_changed_ = true;
    ask_frame();
}

WindowWish Window::as_left() const {
    return {.width = width_,
            .height = height_,
            .light = stage_->theme().light,
            .text_scale = text_scale_,
            .maximised = glfwGetWindowAttrib(window_, GLFW_MAXIMIZED) == GLFW_TRUE};
}

void Window::ask_frame() {
    frames_wanted_ = kFollowUps;
}
void Window::close() {
    glfwSetWindowShouldClose(window_, GLFW_TRUE);
}

void Window::reopen() {
    glfwSetWindowShouldClose(window_, GLFW_FALSE);
    ask_frame();
}

void Window::run(const Draw& draw) {
    // What was typed before it was closed still counts.
    while (glfwWindowShouldClose(window_) == GLFW_FALSE || !input().empty()) {
        wait();
        if (frames_wanted_ == 0) continue;
        --frames_wanted_;
        paint(draw);
        show();
    }
}

// Returns at once while frames are wanted; otherwise sleeps until an event, a bell or the caret.
void Window::wait() {
    const bool writing = ImGui::GetIO().WantTextInput;
    if (frames_wanted_ > 0)
        glfwPollEvents();
    else
        glfwWaitEventsTimeout(writing ? kCaretBlink : kLongSleep);
    if (!input().empty() || waker_.bell_->rung.exchange(false)) ask_frame();
    if (writing && frames_wanted_ == 0 && glfwGetTime() - last_frame_ >= kCaretBlink)
        frames_wanted_ = 1;
}

void Window::paint(const Draw& draw) {
    if (scale_changed_) rescale();
    int width = 0, height = 0;
    glfwGetFramebufferSize(window_, &width, &height);
    const double now = glfwGetTime();
    const double step = std::min(now - last_frame_, kLongestStep);
    last_frame_ = now;
    ImGui_ImplOpenGL3_NewFrame();
    const bool left_over = stage_->frame(static_cast<float>(width), static_cast<float>(height),
                                         static_cast<float>(step), draw);
    if (left_over) ask_frame();
    set_pointer_shape();
    const Colour paper = stage_->theme().colour(Role::paper);
    glViewport(0, 0, width, height);
    glClearColor(paper.r / 255.0F, paper.g / 255.0F, paper.b / 255.0F, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    ++frames_drawn_;
}

void Window::show() {
    glfwSwapBuffers(window_);
}

void Window::set_pointer_shape() {
    glfwSetCursor(window_, shapes_[shape_of(ImGui::GetMouseCursor())]);
}

void Window::show_settled(const Draw& draw) {
    for (int i = 0; i < kFollowUps; ++i) {
        glfwPollEvents();
        paint(draw);
        show();
    }
}

Done Window::save_picture(const Draw& draw, const std::string& path) {
    show_settled(draw);
    glfwPollEvents();
    paint(draw);
    int width = 0, height = 0;
    glfwGetFramebufferSize(window_, &width, &height);
    std::vector<unsigned char> pixels(std::size_t(width) * std::size_t(height) * 3);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE, pixels.data());
    show();
    // Flat colours and letters: trying every filter on every row costs most and saves nothing.
    stbi_write_force_png_filter = 0;
    // OpenGL counts rows from the bottom: start at the last one and walk backwards.
    const int row = width * 3;
    const unsigned char* top =
        pixels.data() + std::size_t(row) * std::size_t(std::max(0, height - 1));
    if (height <= 0 || stbi_write_png(path.c_str(), width, height, 3, top, -row) == 0)
        return Failure{FailureKind::io, "The picture of the window could not be written to " +
                                            path + ": choose a folder that can be written to."};
    return done();
}

} // namespace fettle::ui
