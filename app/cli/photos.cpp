#include "notebook/photos.h"

#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "cli/which_photos.h"

namespace fettle::cli {
namespace {

struct PhotosWish {
    bool untied = false;
    WhichPhotos which;
};

void declare_photos(CLI::App& verb, PhotosWish& wish) {
    verb.add_flag("--untied", wish.untied, "Only photos that are tied to nothing");
    add_which_photos(verb, wish.which);
    verb.footer("In the order of time; photos without a time come last, and not at all with --from "
                "or --to.\n"
                "JSON: a list of {photo, taken, taken_by_camera, taken_from, name, file, in_place, "
                "hash, format, width, height, "
                "bytes,\ncamera, lens, latitude, longitude, altitude, damage, ties}; ties lists "
                "{part | task | entry, stage}.");
}

std::string taken_words(const Photo& photo) {
    if (!photo.taken) return "no time";
    if (photo.taken_from == TakenFrom::camera) return to_words(*photo.taken);
    return to_words(*photo.taken) + ", guessed by " + std::string(word(photo.taken_from));
}

std::vector<std::string> cells(const Photo& photo, const std::vector<Tie>& ties) {
    std::string tied_to;
    for (const auto& tie : ties)
        tied_to +=
            (tied_to.empty() ? "" : "; ") + in_short(tie) + ", " + std::string(word(tie.stage));
    if (!photo.damage.empty()) tied_to += (tied_to.empty() ? "" : "; ") + std::string("damaged");
    return {std::to_string(photo.id.value), taken_words(photo), photo.original_name,
            std::to_string(photo.width) + " × " + std::to_string(photo.height), tied_to};
}

Result<Report> photos(const Call& call, const PhotosWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto filter = filter_of(*notebook, wish.which);
    if (!filter) return filter.failure();
    filter->untied_only = wish.untied;
    auto found = list_photos(*notebook, *filter);
    if (!found) return found.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();

    Columns columns({"photo", "taken", "name", "size", "tied to"});
    Json json = Json::array();
    for (const auto& photo : *found) {
        std::vector<Tie> ties;
        if (photo.ties > 0) {
            auto kept = ties_of_photo(*notebook, photo.id);
            if (!kept) return kept.failure();
            ties = std::move(*kept);
        }
        columns.row(cells(photo, ties));
        json.push_back(to_json(*notebook, photo, ties, *names));
    }
    return Report{columns.empty() ? "no photos\n" : columns.text(), std::move(json)};
}

} // namespace

void add_photos(Line& line) {
    add_verb(line, line.app, "photos", "List photos with their time and what they are tied to",
             declare_photos, photos);
}

} // namespace fettle::cli
