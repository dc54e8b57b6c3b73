#include "ui/screens/photos/photo_out.h"

#include "base/text.h"
#include "ui/beside/out_job.h"
#include "ui/frame/input_queue.h"
#include "ui/screens/photos/photo_intake.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <utility>

namespace fettle::ui {
namespace {

void give_out(Context& context, GiveOutState& state, const std::vector<PhotoId>& photos) {
    if (trim(state.folder).empty()) {
        state.error = "Type the folder the copies go into, such as ~/out; it is made when missing.";
        return;
    }
    const auto folder = path_of(std::string(trim(state.folder)));
    std::error_code error;
    if (std::filesystem::exists(folder, error) && !std::filesystem::is_directory(folder, error)) {
        state.error = "\"" + state.folder + "\" is a file: type a folder, such as ~/out.";
        return;
    }
    if (context.give_out)
        context.give_out({photos, std::filesystem::absolute(folder), state.with_place});
    state.open = false;
}

} // namespace

void give_out_line(Page& page, Context& context, GiveOutState& state,
                   const std::vector<PhotoId>& photos) {
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)}, true);
    const std::string which =
        photos.size() == 1 ? "1 photo" : std::to_string(photos.size()) + " photos";
    const FieldChange field = text_field(page, "photos.out.folder", state.folder,
                                         {.label = "a folder for the copies of " + which,
                                          .hint = "~/out",
                                          .error = state.error,
                                          .width = 360,
                                          .take_focus = std::exchange(state.wants_caret, false)});
    if (field.edited) state.error.clear();
    check(page, "photos.out.place", "tell where they were taken", state.with_place);
    fine_print(page, "Each copy gets a sidecar (XMP) with what it is tied to and its marks; the "
                     "originals stay as they are.");
    Flow flow(page, Measure::kGap);
    const ButtonLook go{.weight = Weight::next, .key_hint = "Enter"};
    flow.place_button("copy", go);
    const bool copy = button(page, "photos.out.copy", "copy", go);
    const ButtonLook beside{.weight = Weight::quiet};
    flow.place_button("only sidecars, beside originals left in place", beside);
    if (button(page, "photos.out.beside", "only sidecars, beside originals left in place",
               beside)) {
        if (context.give_out) context.give_out({photos, {}, state.with_place});
        state.open = false;
    }
    const char* keys = "Esc leaves";
    flow.place_words(keys, Face::fine);
    words_beside(page, keys, Role::pencil, Face::fine);
    if (copy || field.entered) give_out(context, state, photos);
    if (escaped) state.open = false;
    gap(page);
}

} // namespace fettle::ui
