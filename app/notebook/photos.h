// Photos as the notebook knows them: a file with its time and camera. Pixels are another room's.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"
#include "notebook/words.h"

#include <functional>
#include <unordered_set>
#include <vector>

namespace fettle {

struct Photo {
    PhotoId id;
    std::string hash;           // XXH3-128, 32 hex digits; unique
    std::filesystem::path file; // below the notebook's folder, or absolute when left in place
    bool in_place = false;
    std::string original_name;
    std::int64_t bytes = 0;
    std::string format;
    int width = 0; // upright
    int height = 0;
    int orientation = 1;
    std::optional<Moment> taken;           // with the camera's clock put right
    std::optional<Moment> taken_by_camera; // read only: as the camera wrote it
    TakenFrom taken_from = TakenFrom::camera;
    std::string camera_make;
    std::string camera_model;
    std::string lens;
    std::optional<double> latitude, longitude, altitude; // degrees, metres
    std::string damage; // why the picture is incomplete; empty when it is whole
    // What was found of the picture in taking it in; nothing for photos taken in before that.
    std::optional<double> sharpness;
    std::optional<std::uint64_t> likeness; // 64 bits, few of them different in pictures alike
    int ties = 0;                          // read only: to how much it is tied
};

struct PhotoFilter {
    bool untied_only = false;
    PartId part{};
    TaskId task{};
    EntryId entry{};
    std::optional<Day> from, to; // inclusive; photos without a time fall out
};

// Refuses a hash that is held already. A time by the camera is put right by what is known of its
// clock (clocks.h).
Result<PhotoId> add_photo(Notebook& notebook, const Photo& photo, Step step = {});
Result<std::optional<PhotoId>> photo_with_hash(const Notebook& notebook, const std::string& hash);
Result<std::unordered_set<std::string>> all_photo_hashes(const Notebook& notebook);
Result<Photo> photo_by_id(const Notebook& notebook, PhotoId id);
// In the order of time; photos without a time come last, in the order of their taking in.
Result<std::vector<Photo>> list_photos(const Notebook& notebook, const PhotoFilter& filter = {});
// Each of them in the order of their taking in, until `take` fails, with its failure then. Few are
// held at a time, and nobody who writes is held up; acts meanwhile are seen in part.
Done each_photo(const Notebook& notebook, const std::function<Done(const Photo&)>& take);
Result<int> count_photos(const Notebook& notebook);
Result<int> count_untied_photos(const Notebook& notebook);

// Gives a photo without a time one by a photo near it.
Done guess_time_near(Notebook& notebook, PhotoId photo, const Moment& taken, PhotoId near,
                     Step step);

// Where its file stands from now on: below the notebook's folder, or absolute and in place.
Done put_photo_file(Notebook& notebook, PhotoId photo, const std::filesystem::path& file,
                    bool in_place, Step step = {});

std::filesystem::path photo_file(const Notebook& notebook, const Photo& photo);

} // namespace fettle
