#include "ui/frame/scene.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cfloat>

namespace fettle::ui {
namespace {

constexpr ImGuiWindowFlags kWholeArea =
    ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
    ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoScrollWithMouse;

const char* clipboard_text(void* user) {
    return static_cast<Scene*>(user)->clipboard.c_str();
}

void set_clipboard_text(void* user, const char* text) {
    static_cast<Scene*>(user)->clipboard = text ? text : "";
}

} // namespace

Scene::Scene(Theme theme) : context_(ImGui::CreateContext()) {
    ImGui::SetCurrentContext(context_);
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.LogFilename = nullptr;
    io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
    io.BackendFlags |= ImGuiBackendFlags_HasMouseCursors;
    io.MousePos = ImVec2(-FLT_MAX, -FLT_MAX);
    io.ClipboardUserData = this;
    io.GetClipboardTextFn = clipboard_text;
    io.SetClipboardTextFn = set_clipboard_text;
    map_keys(io);
    set_theme(theme);
}

Scene::~Scene() {
    ImGui::DestroyContext(context_);
}

void Scene::set_theme(Theme theme) {
    const bool rescale = !fonts_.body || theme.scale != theme_.scale;
    theme_ = theme;
    apply(theme_, ImGui::GetStyle());
    if (rescale) set_letters();
}

void Scene::set_letters() {
    far_letters_ = reg.far_letters();
    fonts_ = build_fonts(*ImGui::GetIO().Fonts, theme_.scale, far_letters_);
    ImGui::GetIO().FontDefault = fonts_.body;
}

// Not again for letters that no face holds.
bool Scene::wants_letters() const {
    return reg.far_letters().size() > far_letters_.size() &&
           std::ranges::any_of(reg.far_letters(), [this](std::uint16_t letter) {
               return !far_letters_.contains(letter) &&
                      fonts_.body->FindGlyphNoFallback(letter) == nullptr;
           });
}

bool Scene::frame(float width, float height, float seconds,
                  const std::function<void(Page&)>& draw) {
    ImGui::SetCurrentContext(context_);
    if (wants_letters()) {
        set_letters();
        if (letters_added) letters_added();
    }
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = ImVec2(width, height);
    io.DeltaTime = std::max(seconds, 1.0e-4F);
    const bool left_over = input.feed(io);
    ImGui::NewFrame();
    reg.begin_frame();
    ImGui::SetNextWindowPos(ImVec2(0, 0));
    ImGui::SetNextWindowSize(io.DisplaySize);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(0, 0));
    ImGui::Begin("room", nullptr, kWholeArea);
    ImGui::PopStyleVar();
    Page page{theme_, fonts_, reg, wraps_};
    draw(page);
    ImGui::End();
    ImGui::Render();
    return left_over || wants_letters();
}

} // namespace fettle::ui
