#include "ui/screens/photos/photo_clocks.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>
#include <cstdio>

namespace fettle::ui {
namespace {

using std::chrono::milliseconds;

std::string span_words(milliseconds span) {
    const std::chrono::hh_mm_ss clock(
        std::chrono::round<std::chrono::seconds>(std::chrono::abs(span)));
    char text[48];
    std::snprintf(text, sizeof text, "%ld:%02ld:%02ld", long(clock.hours().count()),
                  long(clock.minutes().count()), long(clock.seconds().count()));
    return text;
}

// As a time ends in it: "+01:00".
std::string zone_words(const std::optional<std::chrono::minutes>& zone) {
    if (!zone) return {};
    Moment moment;
    moment.offset = zone;
    return to_iso(moment).substr(std::string_view("1970-01-01T00:00:00").size());
}

// "2026-03-07 19:42:05"
std::string second_words(const Moment& moment) {
    std::string said = to_iso(moment).substr(0, std::string_view("1970-01-01T00:00:00").size());
    said[10] = ' ';
    return said;
}

bool is_by(const Photo& photo, const std::string& make, const std::string& model) {
    return photo.camera_make == make && photo.camera_model == model;
}

const Camera* looked_at(const std::vector<Camera>& cameras, const ClocksState& state) {
    const auto found = std::ranges::find_if(cameras, [&](const Camera& camera) {
        return camera.make == state.make && camera.model == state.model;
    });
    return found == cameras.end() ? nullptr : &*found;
}

// The camera follows the photo under the keyboard's frame.
void follow(Context& context, ClocksState& state, const std::vector<Camera>& cameras,
            const std::vector<PhotoId>& chosen) {
    const PhotoId photo = chosen.empty() ? PhotoId{} : chosen.front();
    if (photo && photo != state.followed) {
        state.followed = photo;
        if (const auto read = photo_by_id(context.book, photo);
            read && !read->camera_model.empty()) {
            state.make = read->camera_make;
            state.model = read->camera_model;
        }
    }
    if (!looked_at(cameras, state) && !cameras.empty()) {
        state.make = cameras.front().make;
        state.model = cameras.front().model;
    }
}

// The chosen photos of one camera that have a time by it, or those of others.
std::vector<Photo> chosen_photos(const Notebook& book, const ClocksQuestion& asked, bool by_it) {
    std::vector<Photo> photos;
    for (const PhotoId id : asked.chosen)
        if (auto photo = photo_by_id(book, id))
            if (is_by(*photo, asked.make, asked.model) == by_it &&
                (!by_it || photo->taken_by_camera))
                photos.push_back(std::move(*photo));
    return photos;
}

std::string effect_of(const Camera& camera, const Clock& clock, const std::optional<Photo>& photo) {
    const milliseconds by = camera.clock.ahead - clock.ahead; // later when positive
    std::string said =
        std::to_string(camera.photos) + (camera.photos == 1 ? " photo moves " : " photos move ");
    if (by.count() == 0)
        said = "No time moves";
    else
        said += (by.count() > 0 ? "on " : "back ") + span_words(by);
    if (by.count() != 0 && photo && photo->taken_by_camera && photo->taken)
        said += ": " + second_words(*photo->taken) + " becomes " +
                second_words(put_right(*photo->taken_by_camera, clock));
    if (clock.zone != camera.clock.zone)
        said += clock.zone ? "; the zone is " + zone_words(clock.zone) : "; no zone is known";
    return said + ".";
}

// Reads the zone and the photos into the clock; the failure's words go below the field.
Done put_together(const Notebook& book, const Camera& camera, const ClocksQuestion& asked,
                  ClockPlan& plan, Clock& clock, const std::vector<Photo>& own,
                  const std::vector<Photo>& others) {
    plan.field = "zone";
    if (const std::string zone(trim(asked.zone)); !zone.empty()) {
        const auto moment = parse_moment("2026-01-01T00:00" + zone);
        if (!moment || !moment->offset)
            return Failure{FailureKind::invalid, "The zone " + fettle::quoted(zone) +
                                                     " cannot be read: hours and minutes east of "
                                                     "Greenwich are accepted, such as +01:00."};
        clock.zone = moment->offset;
    } else {
        clock.zone.reset();
    }
    plan.field = plan.same_moment ? "same" : "showed";
    if (plan.same_moment) {
        const auto ahead = ahead_by_same_moment(book, camera, own.front().id, others.front().id);
        if (!ahead) return ahead.failure();
        clock.ahead = *ahead;
    } else if (!trim(asked.showed).empty()) {
        if (own.empty())
            return Failure{FailureKind::invalid, "Choose the photo of the clock among those by " +
                                                     camera.name() + " first."};
        const auto ahead = ahead_by_clock_photo(book, camera, own.front().id, asked.showed);
        if (!ahead) return ahead.failure();
        clock.ahead = *ahead;
    }
    return done();
}

ClockPlan plan_of(const Notebook& book, const Camera& camera, const ClocksQuestion& asked) {
    ClockPlan plan;
    Clock clock = camera.clock;
    const auto own = chosen_photos(book, asked, true), others = chosen_photos(book, asked, false);
    plan.same_moment = trim(asked.showed).empty() && !own.empty() && !others.empty();
    plan.chosen = own.empty() ? "Choose a photo by " + camera.name() + " that shows a clock."
                              : "The camera wrote " + second_words(*own.front().taken_by_camera) +
                                    " into the chosen photo" +
                                    (own.size() > 1 ? "; the first of those chosen counts." : ".");
    if (const Done read = put_together(book, camera, asked, plan, clock, own, others); !read) {
        plan.error = read.failure().sentence;
        return plan;
    }
    if (clock == camera.clock) return plan;
    plan.clock = clock;
    plan.effect = effect_of(camera, clock, own.empty() ? std::nullopt : std::optional(own.front()));
    return plan;
}

void camera_rows(Page& page, ClocksState& state, const std::vector<Camera>& cameras) {
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
    for (std::size_t i = 0; i < cameras.size(); ++i) {
        const Camera& camera = cameras[i];
        std::string aside = ahead_words(camera.clock.ahead);
        if (camera.clock.zone) aside += ", zone " + zone_words(camera.clock.zone);
        const std::string label = camera.name() + "   " + std::to_string(camera.photos) +
                                  (camera.photos == 1 ? " photo" : " photos");
        if (!row(page, "clocks.camera." + std::to_string(i),
                 {.label = label,
                  .aside = aside,
                  .selected = camera.make == state.make && camera.model == state.model,
                  .height = Measure::kTarget}))
            continue;
        state.make = camera.make;
        state.model = camera.model;
        state.zone = zone_words(camera.clock.zone);
    }
    ImGui::PopStyleVar();
}

void apply(Context& context, ClocksState& state, const Camera& camera, const Clock& clock) {
    if (!context.went_well(set_clock(context.book, camera, clock))) return;
    state.showed.clear();
    state.zone = zone_words(clock.zone);
}

void put_right_fields(Page& page, Context& context, ClocksState& state, const Camera& camera,
                      const ClocksQuestion& asked) {
    const ClockPlan plan = state.plan.of(context.book, asked, [&](const ClocksQuestion& fresh) {
        return Result<ClockPlan>(plan_of(context.book, camera, fresh));
    });
    fine_print(page, plan.chosen);
    note(page, "clocks.chosen", plan.chosen);
    const auto error_of = [&plan](std::string_view field) {
        return !plan.error.empty() && plan.field == field ? std::string_view(plan.error)
                                                          : std::string_view();
    };
    const FieldChange showed = text_field(page, "clocks.showed", state.showed,
                                          {.label = "what the clock in it showed",
                                           .hint = "19:42:05",
                                           .error = error_of("showed"),
                                           .width = 260,
                                           .take_focus = std::exchange(state.wants_caret, false)});
    const FieldChange zone =
        text_field(page, "clocks.zone", state.zone,
                   {.label = "zone its clock is set to, where photos do not say",
                    .hint = "+01:00",
                    .error = error_of("zone"),
                    .width = 260});
    const std::string said =
        !plan.effect.empty() ? plan.effect
        : !error_of("same").empty()
            ? plan.error
            : "Or choose two photos of the same moment, one by a camera whose clock is right.";
    fine_print(page, (plan.same_moment && plan.clock ? "Two photos of one moment: " : "") + said,
               plan.clock ? Role::ink : Role::pencil);
    note(page, "clocks.effect", said);
    const bool can = plan.clock.has_value();
    const bool go = button(page, "clocks.set", "put right",
                           {.weight = Weight::next, .key_hint = "Enter", .enabled = can});
    if ((go || showed.entered || zone.entered) && can) apply(context, state, camera, *plan.clock);
    if (camera.clock == Clock{}) return;
    ImGui::SameLine(0, page.px(Measure::kGap));
    if (button(page, "clocks.as_written", "as the camera wrote them", {.weight = Weight::quiet}))
        apply(context, state, camera, {});
}

} // namespace

std::string ahead_words(milliseconds ahead) {
    if (std::chrono::abs(ahead) < milliseconds(500)) return "clock right";
    return "clock " + span_words(ahead) + (ahead.count() > 0 ? " ahead" : " behind");
}

void draw_clocks(Page& page, Context& context, ClocksState& state,
                 const std::vector<PhotoId>& chosen) {
    const auto& cameras =
        state.cameras.of(context.book, 0, [&](int) { return list_cameras(context.book); });
    const std::string before = state.make + '\n' + state.model;
    follow(context, state, cameras, chosen);
    if (cameras.empty()) {
        fine_print(page, "No photo here names the camera that took it.");
        note(page, "clocks.none", "no camera");
        return;
    }
    const Camera* camera = looked_at(cameras, state);
    if (before != state.make + '\n' + state.model) state.zone = zone_words(camera->clock.zone);
    camera_rows(page, state, cameras);
    camera = looked_at(cameras, state);
    gap(page);
    put_right_fields(page, context, state, *camera,
                     {state.make, state.model, chosen, state.showed, state.zone});
}

} // namespace fettle::ui
