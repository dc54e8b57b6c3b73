#include "ui/screens/photos/photo_intake.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <cstdlib>
#include <utility>

namespace fettle::ui {
namespace {

constexpr Chord kTakeIn{'I'}, kWatch{'W'};

void take_in(Context& context, IntakeState& state) {
    const auto path = path_of(state.path);
    std::error_code error;
    if (state.path.empty() || !std::filesystem::exists(path, error)) {
        state.path_error = "There is no file or folder \"" + state.path +
                           "\": type where the photos are, such as ~/Pictures.";
        return;
    }
    if (context.take_in) context.take_in({path});
    state.path.clear();
    state.path_error.clear();
    state.taking_in = false;
}

void watch(Context& context, IntakeState& state) {
    const auto folder = path_of(state.folder);
    std::error_code error;
    if (state.folder.empty() || !std::filesystem::is_directory(folder, error)) {
        state.folder_error = "There is no folder \"" + state.folder +
                             "\": type one that photos are copied to, such as ~/phone.";
        return;
    }
    if (context.watch) context.watch(folder);
    state.folder.clear();
    state.folder_error.clear();
    state.watching = false;
}

void folder_line(Page& page, Context& context, IntakeState& state) {
    const FieldChange field =
        text_field(page, "photos.folder", state.folder,
                   {.label = "a folder to be watched: type it, or drop it here",
                    .hint = "~/phone",
                    .error = state.folder_error,
                    .width = 360,
                    .take_focus = std::exchange(state.wants_caret, false)});
    if (field.edited) state.folder_error.clear();
    const bool go =
        button(page, "photos.folder.watch", "watch", {.weight = Weight::next, .key_hint = "Enter"});
    ImGui::SameLine(0, page.px(Measure::kGap));
    words_beside(page, "Esc leaves", Role::pencil, Face::fine);
    if (go || field.entered) watch(context, state);
}

} // namespace

std::filesystem::path path_of(const std::string& typed) {
    const char* home = std::getenv("HOME");
    if (home && typed == "~") return home;
    if (home && typed.starts_with("~/")) return std::filesystem::path(home) / typed.substr(2);
    return typed;
}

void ask_where(IntakeState& state) {
    state.taking_in = state.wants_caret = true;
    state.watching = false;
    state.path_error.clear();
}

void intake_acts(Page& page, Flow& flow, IntakeState& state, const Context& context) {
    const ButtonLook take{.weight = Weight::quiet, .key_hint = "I"};
    flow.place_button("take in", take);
    if (button(page, "photos.take_in", "take in", take) || pressed(kTakeIn)) ask_where(state);
    if (!context.watch || !context.watched.empty()) return;
    const ButtonLook look{.weight = Weight::quiet, .key_hint = "W"};
    flow.place_button("watch", look);
    if (button(page, "photos.watch", "watch", look) || pressed(kWatch)) {
        state.watching = state.wants_caret = true;
        state.taking_in = false;
        state.folder_error.clear();
    }
}

void watched_line(Page& page, Context& context) {
    if (context.watched.empty()) return;
    const std::string said = "Photos that appear in " + context.watched + " are taken in.";
    const float room = ImGui::GetContentRegionAvail().x - page.px(96);
    words_beside(page, cut_to(page, said, room, Face::fine), Role::verdigris, Face::fine);
    note(page, "photos.watched", said, context.watched);
    ImGui::SameLine(0, page.px(Measure::kGap));
    const bool stop =
        button(page, "photos.watched.stop", "stop", {.weight = Weight::quiet, .key_hint = "W"});
    if ((stop || pressed(kWatch)) && context.stop_watching) context.stop_watching();
}

void path_line(Page& page, Context& context, IntakeState& state) {
    const FieldChange field = text_field(page, "photos.path", state.path,
                                         {.label = "a photo or a folder of photos",
                                          .hint = "~/Pictures",
                                          .error = state.path_error,
                                          .width = 360,
                                          .take_focus = std::exchange(state.wants_caret, false)});
    if (field.edited) state.path_error.clear();
    const bool go = button(page, "photos.path.take_in", "take in",
                           {.weight = Weight::next, .key_hint = "Enter"});
    if (go || field.entered) take_in(context, state);
}

void intake_lines(Page& page, Context& context, IntakeState& state) {
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)}, true);
    if (state.taking_in) path_line(page, context, state);
    if (state.watching) folder_line(page, context, state);
    if (state.taking_in || state.watching) gap(page);
    if (escaped) state.taking_in = state.watching = false;
}

} // namespace fettle::ui
