#include "desk/torch_marks.h"

#include "base/text.h"
#include "desk/take_in.h"
#include "notebook/photo_scales.h"
#include "notebook/rules.h"
#include "notebook/ties.h"
#include "photos/picture_measure.h"
#include "photos/shelf.h"

#include <algorithm>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

// A day and time first, as the shelf and the order of photos go by it.
std::string picture_name(const Photo& first, const Mark& mark, const relief::View& view) {
    std::string name;
    if (first.taken) {
        const std::string moment = to_iso(*first.taken); // "2026-03-07T19:42:05..."
        name = moment.substr(0, 10) + " " + moment.substr(11, 8) + " ";
        std::ranges::replace(name, ':', '.');
    }
    name += "torch set " + mark.reading + ", " + std::string(relief::word(view.kind)) + ".png";
    std::ranges::replace(name, '/', ' ');
    return photos::shelf_name(name);
}

// The picture as a file of its own below the cache, gone when it has been taken in.
class PictureFile {
  public:
    explicit PictureFile(const fs::path& folder, const std::string& name)
        : folder_(folder), file_(folder / name) {}
    ~PictureFile() {
        std::error_code error;
        fs::remove(file_, error);
        fs::remove(folder_, error); // when nothing else is in it
    }
    PictureFile(const PictureFile&) = delete;
    PictureFile& operator=(const PictureFile&) = delete;

    Done write(const relief::GreyPicture& picture) const {
        std::error_code error;
        fs::create_directories(folder_, error);
        fs::remove(file_, error); // of a program that was ended
        return write_grey_png(picture, file_);
    }
    const fs::path& path() const { return file_; }

  private:
    fs::path folder_, file_;
};

Result<PhotoId> picture_taken_in(Notebook& notebook, const fs::path& file, Step step,
                                 const std::stop_token& stop) {
    auto report = take_in(notebook, {.paths = {file}, .workers = 1, .step = step, .stop = stop});
    if (!report) return report.failure();
    if (!report->taken.empty()) return report->taken.front();
    if (!report->already_held.empty()) return report->already_held.front();
    if (!report->unreadable.empty())
        return Failure{FailureKind::io, report->unreadable.front().sentence};
    return relief::stopped();
}

Result<Stage> stage_of(const Notebook& notebook, PhotoId photo, PartId part) {
    auto ties = ties_of_photo(notebook, photo);
    if (!ties) return ties.failure();
    for (const Tie& tie : *ties)
        if (tie.to == TieTarget(part)) return tie.stage;
    return Stage::during;
}

Result<Mark> keep_and_tie(Notebook& notebook, const Mark& mark, PhotoId picture) {
    auto id = keep_mark(notebook, mark);
    if (!id) return id.failure();
    auto kept = mark_by_id(notebook, *id);
    if (!kept || !kept->part) return kept;
    auto stage = stage_of(notebook, kept->photo, kept->part);
    if (!stage) return stage.failure();
    if (auto tied = tie_photos(notebook, {picture}, kept->part, *stage); !tied)
        return tied.failure();
    return kept;
}

} // namespace

Result<TorchWish> torch_wish(const Notebook& notebook, const TorchRecipe& recipe) {
    TorchWish wish{.photos = {}, .region = recipe.region, .still = recipe.still};
    for (const PhotoId id : recipe.photos) {
        const auto photo = photo_by_id(notebook, id);
        if (!photo) return photo.failure();
        wish.photos.push_back(photo_file(notebook, *photo));
    }
    if (recipe.ball) {
        wish.lamps = Lamps::ball_given;
        wish.ball = *recipe.ball;
    }
    return wish;
}

Result<std::optional<double>> millimetres_a_pixel(const Notebook& notebook, PhotoId photo,
                                                  const relief::Rectangle& region) {
    auto scale = scale_of_photo(notebook, photo);
    if (!scale) return scale.failure();
    if (!*scale) return std::optional<double>();
    const auto known = photos::known_from_json((*scale)->known);
    if (!known) return known.failure();
    const double y = region.y + region.height / 2.0;
    const auto across =
        photos::measure(*known, {photos::ClickedPoint{double(region.x), y},
                                 photos::ClickedPoint{double(region.x + region.width), y}});
    if (!across || !(across->metres > 0)) return std::optional<double>();
    return std::optional(across->metres * 1000 / region.width);
}

Result<TorchKept> keep_torch_mark(Notebook& notebook, TorchKeep wish) {
    if (auto filled = require_text("reading of the mark", wish.mark.reading); !filled)
        return filled.failure();
    const auto& [x, y, width, height] = wish.recipe.region;
    wish.mark.photo = wish.recipe.photos.front();
    wish.mark.region = {x, y, width, height};
    const auto first = photo_by_id(notebook, wish.mark.photo);
    if (!first) return first.failure();
    const PictureFile file(notebook.cache_folder() / "torch",
                           picture_name(*first, wish.mark, wish.recipe.view));
    if (auto written = file.write(wish.picture); !written) return written.failure();
    auto step = notebook.new_step();
    if (!step) return step.failure();
    auto picture = picture_taken_in(notebook, file.path(), *step, wish.stop);
    if (!picture) return picture.failure();
    wish.recipe.picture = *picture;
    auto seen = seen_with_torch(wish.mark.seen_with, wish.recipe);
    if (!seen) return seen.failure();
    wish.mark.seen_with = *seen;
    auto kept = notebook.act(
        "read the mark " + wish.mark.reading + " from a torch set",
        [&](auto&) { return keep_and_tie(notebook, wish.mark, *picture); }, *step);
    if (!kept) return kept.failure();
    return TorchKept{*std::move(kept), *picture};
}

} // namespace fettle::desk
