#include "notebook/described_within.h"
#include "notebook/words.h"

namespace fettle {
namespace {

constexpr ColumnSaid kPhotoId{"photo_id", Holds::reference, kAlways, "the photo", "photos"};

constexpr ColumnSaid kPhotos[] = {
    kOwnId,
    {"hash", Holds::hash, kAlways, "of the file's bytes; no two the same"},
    {"file", Holds::file, kAlways,
     "the photo's file: below the notebook's folder, or absolute when it was left in place"},
    {"in_place", Holds::flag, kAlways, "whether the file was left where it was"},
    {"original_name", Holds::text, kAlways, "the name it came under"},
    {"bytes", Holds::whole, kAlways, "size of the file", "bytes"},
    {"format", Holds::text, kAlways, "JPEG, PNG, HEIF ..."},
    {"width", Holds::positive, kAlways, "of the upright picture", "pixels"},
    {"height", Holds::positive, kAlways, "of the upright picture", "pixels"},
    {"orientation", Holds::count, kAlways, "how it lies in the file, Exif tag 0x0112", "1 to 8"},
    {"taken", Holds::moment, kMaybe, "when it was taken, with the camera's clock put right"},
    {"camera_make", Holds::text, kAlways, "as the camera wrote it"},
    {"camera_model", Holds::text, kAlways, "as the camera wrote it"},
    {"lens", Holds::text, kAlways, "as the camera wrote it"},
    {"latitude", Holds::number, kMaybe, "where it was taken, north positive", "degrees"},
    {"longitude", Holds::number, kMaybe, "where it was taken, east positive", "degrees"},
    {"altitude", Holds::number, kMaybe, "where it was taken, above sea level", "metres"},
    {"damage", Holds::text, kAlways, "why the picture is incomplete; empty: it is whole"},
    {"taken_by_camera", Holds::moment, kMaybe, "the time as the camera wrote it"},
    {"taken_from", Holds::word, kAlways, "where the time comes from", "", all_words<TakenFrom>},
    {"taken_near", Holds::reference, kMaybe, "the photo a guessed time hangs on", "photos"},
    {"at", Holds::whole, kMaybe, "the time taken, for sorting; without an offset: local time",
     "milliseconds since 1970-01-01 UTC"},
    {"sharpness", Holds::number, kMaybe, "how sharp it is, for pointing out blurred shots"},
    {"likeness", Holds::whole, kMaybe, "64 bits of light against dark, near when alike",
     "bits as a signed number"},
};

constexpr ColumnSaid kClocks[] = {
    kOwnId,
    {"camera_make", Holds::text, kAlways, "the camera"},
    {"camera_model", Holds::text, kAlways, "the camera; each once"},
    {"ahead_ms", Holds::whole, kAlways, "how far its clock is ahead", "milliseconds"},
    {"zone_min", Holds::count, kMaybe, "the zone it is set to, east of UTC", "minutes"},
};

constexpr ColumnSaid kTies[] = {
    kOwnId,
    kPhotoId,
    {"part_id", Holds::reference, kMaybe, "the part it shows", "parts"},
    {"task_id", Holds::reference, kMaybe, "or the task", "tasks"},
    {"entry_id", Holds::reference, kMaybe, "or the entry: exactly one of the three", "entries"},
    {"stage", Holds::word, kAlways, "when in the work it was taken", "", all_words<Stage>},
};

constexpr ColumnSaid kTagReads[] = {
    kOwnId,
    kPhotoId,
    {"tag", Holds::text, kAlways, "the code of a tag that was read in it"},
    {"tied", Holds::flag, kAlways, "whether the photo was tied to its part already"},
};

constexpr ColumnSaid kRuns[] = {
    kOwnId,
    {"part_id", Holds::reference, kAlways, "the part whose tag starts it", "parts"},
    {"state", Holds::word, kAlways, "what was decided", "", all_words<RunState>},
    {"stage", Holds::word, kAlways, "the stage its photos are tied at", "", all_words<Stage>},
};

constexpr ColumnSaid kRunPhotos[] = {
    kOwnId,
    {"run_id", Holds::reference, kAlways, "the run", "runs"},
    {"photo_id", Holds::reference, kAlways, "the photo; in one run alone", "photos"},
    {"is_out", Holds::flag, kAlways, "whether it was taken out by hand"},
    {"made_tie", Holds::flag, kAlways, "whether accepting the run tied it"},
};

constexpr ColumnSaid kMarks[] = {
    kOwnId,
    kPhotoId,
    {"x", Holds::count, kAlways, "left edge in the upright picture", "pixels"},
    {"y", Holds::count, kAlways, "upper edge", "pixels"},
    {"w", Holds::positive, kAlways, "width", "pixels"},
    {"h", Holds::positive, kAlways, "height", "pixels"},
    {"reading", Holds::text, kAlways, "what it reads"},
    {"maker_id", Holds::reference, kMaybe, "whose mark it is", "makers"},
    {"sure", Holds::word, kAlways, "how sure that is", "", all_words<Sureness>},
    {"part_id", Holds::reference, kMaybe, "the part it stands on", "parts"},
    {"seen_with", Holds::text, kAlways,
     "how it was made legible, JSON of filters and turns; empty: not at all"},
};

constexpr ColumnSaid kPhotoPairs[] = {
    kOwnId,
    kPhotoId,
    {"onto_id", Holds::reference, kAlways, "the photo it is laid on", "photos"},
    {"points", Holds::json, kAlways, "matching points in the upright pictures", "pixels"},
};

constexpr ColumnSaid kPhotoScales[] = {
    kOwnId,
    {"photo_id", Holds::reference, kAlways, "the photo; once", "photos"},
    {"known", Holds::json, kAlways, "a known length or rectangle in it", "pixels and metres"},
    {"measured", Holds::json, kAlways, "what was measured by that", "pixels"},
};

constexpr TableSaid kTables[] = {
    {"photos", "Photos as records; their files stand beside.", kPhotos},
    {"clocks", "Camera clocks that were put right.", kClocks},
    {"ties", "What photos belong to.", kTies},
    {"tag_reads", "Tags read in photos.", kTagReads},
    {"runs", "Photos held to show one part because they follow its tag.", kRuns},
    {"run_photos", "The photos of runs.", kRunPhotos},
    {"marks", "Stampings and castings read in photos.", kMarks},
    {"photo_pairs", "Photos laid on each other.", kPhotoPairs},
    {"photo_scales", "Known sizes in photos, and what was measured by them.", kPhotoScales},
};

} // namespace

std::span<const TableSaid> described_seen() {
    return kTables;
}

} // namespace fettle
