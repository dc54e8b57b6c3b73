#include "base/text.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "notebook/clocks.h"

#include <cstdio>

namespace fettle::cli {
namespace {

struct ClockWish {
    std::string camera, photo, showed, same_as, zone;
    bool as_written = false;

    bool sets() const { return !photo.empty() || !zone.empty() || as_written; }
    void check() const {
        if (camera.empty() && (sets() || !showed.empty() || !same_as.empty()))
            throw CLI::ValidationError("The name of a camera is required");
        if (photo.empty() != (showed.empty() && same_as.empty()))
            throw CLI::ValidationError(
                "--photo takes either --showed or --same-as, and they take it");
        if (!showed.empty() && !same_as.empty())
            throw CLI::ValidationError("Only one of --showed and --same-as is accepted");
        if (as_written && (!photo.empty() || !zone.empty()))
            throw CLI::ValidationError("--as-written stands alone");
    }
};

void declare_clock(CLI::App& verb, ClockWish& wish) {
    verb.add_option("CAMERA", wish.camera, "The camera, as listed without one");
    verb.add_option("--photo", wish.photo,
                    "A photo this camera took of a clock, or at a known moment")
        ->option_text("PHOTO");
    verb.add_option("--showed", wish.showed,
                    "What the clock in it showed: 19:42:05, or 2026-03-07 19:42:05")
        ->option_text("TIME");
    verb.add_option("--same-as", wish.same_as,
                    "A photo of the same moment by a camera whose clock is right")
        ->option_text("PHOTO");
    verb.add_option("--zone", wish.zone, "The zone its clock is set to, such as +01:00")
        ->option_text("ZONE");
    verb.add_flag("--as-written", wish.as_written, "Take all times as the camera wrote them");
    verb.footer(
        "Puts the times of all photos of the camera right, of those still to come as well.\n"
        "JSON: {camera, photos, ahead_ms, zone}, without CAMERA a list of them; ahead_ms is by "
        "how much the\nclock is ahead.");
}

// As a time ends in it: "+01:00".
std::string zone_words(const std::optional<std::chrono::minutes>& zone) {
    Moment moment;
    moment.offset = zone;
    return to_iso(moment).substr(std::string_view("1970-01-01T00:00:00").size());
}

std::string ahead_words(std::chrono::milliseconds ahead) {
    if (ahead.count() == 0) return "right";
    const std::chrono::hh_mm_ss clock(std::chrono::abs(ahead));
    char text[48];
    std::snprintf(text, sizeof text, "%ld:%02ld:%02ld", long(clock.hours().count()),
                  long(clock.minutes().count()), long(clock.seconds().count()));
    return text + std::string(ahead.count() > 0 ? " ahead" : " behind");
}

Json to_json(const Camera& camera) {
    return {{"camera", camera.name()},
            {"photos", camera.photos},
            {"ahead_ms", camera.clock.ahead.count()},
            {"zone", zone_words(camera.clock.zone)}};
}

std::vector<std::string> camera_cells(const Camera& camera) {
    return {camera.name(), counted(std::size_t(camera.photos), "photo"),
            ahead_words(camera.clock.ahead), zone_words(camera.clock.zone)};
}

Result<std::chrono::minutes> parse_zone(const std::string& text) {
    // As the end of a time, which is read anyway.
    auto moment = parse_moment("2026-01-01T00:00" + text);
    if (moment && moment->offset) return *moment->offset;
    return Failure{FailureKind::invalid,
                   "The zone " + fettle::quoted(text) +
                       " cannot be read: accepted are hours and minutes east of Greenwich, such as "
                       "+01:00 or -05:00."};
}

Result<std::chrono::milliseconds> ahead_of(const Notebook& notebook, const Camera& camera,
                                           const ClockWish& wish) {
    auto photo = parse_id<PhotoId>("photo", wish.photo);
    if (!photo) return photo.failure();
    if (wish.same_as.empty()) return ahead_by_clock_photo(notebook, camera, *photo, wish.showed);
    auto right = parse_id<PhotoId>("photo", wish.same_as);
    if (!right) return right.failure();
    return ahead_by_same_moment(notebook, camera, *photo, *right);
}

Result<Report> all_cameras(const Notebook& notebook) {
    auto cameras = list_cameras(notebook);
    if (!cameras) return cameras.failure();
    Columns columns;
    Json json = Json::array();
    for (const auto& camera : *cameras) {
        columns.row(camera_cells(camera));
        json.push_back(to_json(camera));
    }
    return Report{columns.empty() ? "no cameras\n" : columns.text(), std::move(json)};
}

Result<Report> one_camera(const Notebook& notebook, const std::string& name) {
    auto camera = camera_called(notebook, name);
    if (!camera) return camera.failure();
    Columns columns;
    columns.row(camera_cells(*camera));
    return Report{columns.text(), to_json(*camera)};
}

Result<Report> put_clock(const Call& call, const ClockWish& wish) {
    auto notebook = wish.sets() ? call.for_writing() : call.for_reading();
    if (!notebook) return notebook.failure();
    if (wish.camera.empty()) return all_cameras(*notebook);
    if (wish.sets()) {
        auto camera = camera_called(*notebook, wish.camera);
        if (!camera) return camera.failure();
        Clock clock = wish.as_written ? Clock{} : camera->clock;
        if (!wish.zone.empty()) {
            auto zone = parse_zone(wish.zone);
            if (!zone) return zone.failure();
            clock.zone = *zone;
        }
        if (!wish.photo.empty()) {
            auto ahead = ahead_of(*notebook, *camera, wish);
            if (!ahead) return ahead.failure();
            clock.ahead = *ahead;
        }
        if (auto set = set_clock(*notebook, *camera, clock); !set) return set.failure();
    }
    return one_camera(*notebook, wish.camera);
}

} // namespace

void add_clock(Line& line) {
    add_verb(line, line.app, "clock", "Put a camera's clock right, for all its photos",
             declare_clock, put_clock);
}

} // namespace fettle::cli
