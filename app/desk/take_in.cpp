#include "desk/take_in.h"

#include "desk/places.h"
#include "notebook/photos.h"
#include "photos/find_pictures.h"
#include "photos/shelf.h"
#include "photos/take_in.h"
#include "photos/thumbs.h"

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

Photo record_of(const photos::Look& look, const fs::path& original) {
    Photo photo;
    photo.hash = look.hash;
    photo.original_name = photos::shelf_name(original);
    photo.bytes = static_cast<std::int64_t>(look.bytes);
    photo.format = look.format;
    photo.width = look.width;
    photo.height = look.height;
    photo.orientation = look.exif.orientation;
    photo.taken = look.exif.taken;
    photo.camera_make = look.exif.camera_make;
    photo.camera_model = look.exif.camera_model;
    photo.lens = look.exif.lens;
    if (look.exif.place) {
        photo.latitude = look.exif.place->latitude;
        photo.longitude = look.exif.place->longitude;
        photo.altitude = look.exif.place->altitude_m;
    }
    photo.damage = look.damage;
    return photo;
}

// One run: what the photos room asks of the notebook while it works through the list.
class Run {
  public:
    Run(Notebook& notebook, const TakeInWish& wish, Step step, photos::ThumbnailCache thumbnails)
        : notebook_(notebook), wish_(wish), step_(step), thumbnails_(std::move(thumbnails)) {}

    Done keep(const photos::Look& look, const fs::path& original) {
        auto photo = record_of(look, original);
        if (wish_.in_place) {
            photo.in_place = true;
            photo.file = fs::absolute(original);
        } else {
            std::optional<Day> day;
            if (look.exif.taken) day = look.exif.taken->day();
            auto copy =
                photos::put_on_shelf(notebook_.folder(), original, look.hash, day, wish_.stop);
            if (!copy) return copy.failure();
            photo.file = *copy;
        }
        auto id = add_photo(notebook_, photo, step_);
        if (!id) return id.failure();
        report.taken.push_back(*id);
        if (look.damaged) report.damaged.push_back({original, look.damage});
        // A thumbnail that could not be kept is made again when it is wanted.
        (void)thumbnails_.put(look.hash, look.thumbnail);
        return done();
    }

    void held_already(const std::string& hash) {
        auto id = photo_with_hash(notebook_, hash);
        if (id && *id) report.already_held.push_back(**id);
    }

    TakeInReport report;

  private:
    Notebook& notebook_;
    const TakeInWish& wish_;
    Step step_;
    photos::ThumbnailCache thumbnails_;
};

} // namespace

Result<TakeInReport> take_in(Notebook& notebook, const TakeInWish& wish) {
    auto held = all_photo_hashes(notebook);
    if (!held) return held.failure();
    auto step = notebook.new_step();
    if (!step) return step.failure();
    auto thumbnails = photos::ThumbnailCache::open(notebook.cache_folder());
    if (!thumbnails) return thumbnails.failure();
    // What a take-in that was killed left half copied; one writer, so nobody else is copying.
    photos::sweep_half_copies(notebook.folder());
    auto found = photos::find_pictures(wish.paths);

    Run run(notebook, wish, *step, std::move(*thumbnails));
    for (const auto& [path, why] : found.unreadable)
        run.report.unreadable.push_back({path, why.sentence});

    photos::TakeInHooks hooks;
    hooks.held = std::move(*held);
    hooks.keep = [&](const photos::Look& look, const fs::path& original) {
        return run.keep(look, original);
    };
    hooks.unreadable = [&](const fs::path& file, const Failure& why) {
        run.report.unreadable.push_back({file, why.sentence});
    };
    hooks.already_held = [&](const fs::path&, const std::string& hash) { run.held_already(hash); };
    if (wish.progress)
        hooks.progress = [&](std::size_t done, std::size_t total, const fs::path& file) {
            wish.progress(done, total, photos::shelf_name(file));
        };
    auto counts = photos::take_in(found.files, hooks, wish.workers, wish.stop, decode_program());
    run.report.stopped = counts.stopped;
    return std::move(run.report);
}

} // namespace fettle::desk
