#include "desk/take_in.h"

#include "desk/neighbours.h"
#include "desk/places.h"
#include "desk/sidecars.h"
#include "notebook/photos.h"
#include "photos/decoder.h"
#include "photos/find_pictures.h"
#include "photos/name_time.h"
#include "photos/shelf.h"
#include "photos/take_in.h"
#include "photos/thumbs.h"

#include <algorithm>
#include <set>

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
    if (!photo.taken) {
        photo.taken = photos::time_in_name(original.filename().native());
        if (photo.taken) photo.taken_from = TakenFrom::file_name;
    }
    photo.camera_make = look.exif.camera_make;
    photo.camera_model = look.exif.camera_model;
    photo.lens = look.exif.lens;
    if (look.exif.place) {
        photo.latitude = look.exif.place->latitude;
        photo.longitude = look.exif.place->longitude;
        photo.altitude = look.exif.place->altitude_m;
    }
    photo.damage = look.damage;
    photo.sharpness = look.sharpness;
    photo.likeness = look.likeness;
    return photo;
}

// One run: what the photos room asks of the notebook while it works through the list.
class Run {
  public:
    Run(Notebook& notebook, const TakeInWish& wish, Step step, photos::ThumbnailCache thumbnails)
        : notebook_(notebook), wish_(wish), step_(step), thumbnails_(std::move(thumbnails)) {}

    Done keep(const photos::Look& look, const fs::path& original) {
        auto photo = record_of(look, original);
        auto file = file_for(photo, original);
        if (!file) return file.failure();
        photo.in_place = wish_.in_place;
        photo.file = *file;
        auto id = add_photo(notebook_, photo, step_);
        if (!id) return id.failure();
        if (auto noted = note_tags(notebook_, *id, look.tags, step_); !noted) return noted;
        tags_.insert(look.tags.begin(), look.tags.end());
        remember(original, *id);
        if (auto read = read_sidecar(original, *id); !read) return read;
        if (photo.taken_from == TakenFrom::file_name) report.guessed.push_back(*id);
        report.taken.push_back(*id);
        if (look.damaged) report.damaged.push_back({original, look.damage});
        // A thumbnail that could not be kept is made again when it is wanted.
        (void)thumbnails_.put(look.hash, look.thumbnail);
        return done();
    }

    void held_already(const fs::path& original, const std::string& hash) {
        auto id = photo_with_hash(notebook_, hash);
        if (!id || !*id) return;
        bring_back(original, **id);
        report.already_held.push_back(**id);
        remember(original, **id);
        (void)read_sidecar(original, **id); // the photo is held, whatever stands beside this file
    }

    // What can only be said of all photos together: times between others, and tag runs.
    Done finish() {
        for (const auto& guess : guess_by_neighbours(dated_)) {
            if (auto placed =
                    guess_time_near(notebook_, guess.photo, guess.taken, guess.near, step_);
                !placed)
                return placed;
            if (std::ranges::find(report.taken, guess.photo) != report.taken.end())
                report.guessed.push_back(guess.photo);
        }
        auto proposal = propose_runs(notebook_, wish_.pause, step_);
        if (!proposal) return proposal.failure();
        report.tied_by_tag = proposal->tied_by_tag;
        report.proposed = proposal->proposed;
        for (const auto& tag : proposal->without_part)
            if (tags_.contains(tag)) add_without_part(tag);
        return done();
    }

    TakeInReport report;

  private:
    // Where the photo's file stands from now on: a copy of the original, or itself.
    Result<fs::path> file_for(const Photo& photo, const fs::path& original) {
        if (wish_.in_place) return fs::absolute(original);
        std::optional<Day> day;
        if (photo.taken) day = photo.taken->day();
        return photos::put_on_shelf(notebook_.folder(), original, photo.hash, day, wish_.stop);
    }

    // A photo whose own file is gone, or is another by now, has this one. What stands in its place
    // is left there.
    void bring_back(const fs::path& original, PhotoId id) {
        const auto photo = photo_by_id(notebook_, id);
        if (!photo) return;
        const auto there = photos::hash_of_file(photo_file(notebook_, *photo), wish_.stop);
        if (there ? *there == photo->hash : there.failure().kind == FailureKind::cancelled) return;
        const auto file = file_for(*photo, original);
        const auto put = file ? put_photo_file(notebook_, id, *file, wish_.in_place, step_)
                              : Done(file.failure());
        if (put)
            report.came_back.push_back(id);
        else
            report.unreadable.push_back({original, put.failure().sentence});
    }

    Done read_sidecar(const fs::path& original, PhotoId id) {
        const auto file = photos::sidecar_beside(original);
        if (!file) return done();
        auto photo = photo_by_id(notebook_, id);
        if (!photo) return photo.failure();
        const photos::Lie lie{{photo->width, photo->height}, photo->orientation};
        auto sidecar = decoder_.sidecar(*file, lie);
        if (!sidecar) {
            report.sidecars_left.push_back({*file, sidecar.failure().sentence});
            return done();
        }
        auto kept = keep_sidecar(notebook_, id, *sidecar, step_);
        if (!kept) return kept.failure();
        report.tied_by_sidecar += kept->tied;
        report.marks_by_sidecar += kept->marks;
        for (const auto& tag : kept->without_part)
            add_without_part(tag);
        return done();
    }

    void add_without_part(const std::string& tag) {
        auto& tags = report.tags_without_part;
        if (std::ranges::find(tags, tag) == tags.end()) tags.push_back(tag);
    }

    void remember(const fs::path& original, PhotoId id) {
        if (auto photo = photo_by_id(notebook_, id)) dated_.push_back({original, id, photo->taken});
    }

    Notebook& notebook_;
    const TakeInWish& wish_;
    Step step_;
    photos::ThumbnailCache thumbnails_;
    std::vector<Dated> dated_;
    std::set<std::string> tags_;                // read
    photos::Decoder decoder_{decode_program()}; // of sidecars
};

} // namespace

Result<TakeInReport> take_in(Notebook& notebook, const TakeInWish& wish) {
    auto held = all_photo_hashes(notebook);
    if (!held) return held.failure();
    auto step = wish.step.number != 0 ? Result<Step>(wish.step) : notebook.new_step();
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
        auto kept = run.keep(look, original);
        run.report.no_room =
            run.report.no_room || (!kept && kept.failure().kind == FailureKind::io);
        return kept;
    };
    hooks.unreadable = [&](const fs::path& file, const Failure& why) {
        run.report.unreadable.push_back({file, why.sentence});
    };
    hooks.already_held = [&](const fs::path& file, const std::string& hash) {
        run.held_already(file, hash);
    };
    if (wish.progress)
        hooks.progress = [&](std::size_t done, std::size_t total, const fs::path& file) {
            wish.progress(done, total, photos::shelf_name(file));
        };
    auto counts = photos::take_in(found.files, hooks, wish.workers, wish.stop, decode_program());
    run.report.stopped = counts.stopped;
    if (auto finished = run.finish(); !finished) return finished.failure();
    return std::move(run.report);
}

} // namespace fettle::desk
