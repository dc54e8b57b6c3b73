#include "notebook/marks.h"

#include "base/text.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/torch_marks.h"
#include "notebook/marks_compared.h"
#include "photos/seen_with.h"

namespace fettle::cli {
namespace {

struct MarkWish {
    std::string photo, region, reading, maker, part, seen_with;
    std::string sure = "likely";
    std::string like;
    bool list = false, wrong = false;

    void check() const {
        const bool asks = list || wrong || !like.empty();
        if (!asks && (photo.empty() || region.empty() || reading.empty()))
            throw CLI::ValidationError(
                "PHOTO, --region and --reading are required, or --list, --like or --wrong");
        if (asks && !(region.empty() && reading.empty() && maker.empty() && seen_with.empty()))
            throw CLI::ValidationError("--list goes with PHOTO and --part alone, --like and "
                                       "--wrong with nothing");
    }
};

void declare_mark(CLI::App& verb, MarkWish& wish) {
    verb.add_option("PHOTO", wish.photo, "The number of the photo that shows the mark");
    verb.add_option("--region", wish.region,
                    "Where, in pixels of the upright picture from its top left corner")
        ->option_text("x,y,w,h");
    verb.add_option("--reading", wish.reading, "What stands on the metal")->option_text("TEXT");
    verb.add_option("--maker", wish.maker, "Who made or stamped it")->option_text("NAME");
    verb.add_option("--sure", wish.sure,
                    "How sure: " + join(all_words<Sureness>(), ", ") + "; without it likely")
        ->option_text("WORD");
    verb.add_option("--part", wish.part, "The part it stands on; a photo tied to one part gives it")
        ->option_text("TAG");
    verb.add_option("--seen-with", wish.seen_with,
                    "How it was made legible, such as {\"filters\": {\"flatten\": 0.8, \"relief\": "
                    "0.5, \"light_from\": 315}}; amounts are 0 to 1. Or a torch set: {\"torch\": "
                    "{\"photos\": [1, 2, 3, 4], \"region\": [900, 700, 800, 400], \"ball\": [1820, "
                    "640, 95], \"view\": {\"kind\": \"relief\"}}}")
        ->option_text("JSON");
    verb.add_flag("--list", wish.list, "List marks, of PHOTO or --part alone when given");
    verb.add_option("--like", wish.like, "List where else this mark was seen, the nearest first")
        ->option_text("MARK");
    verb.add_flag("--wrong", wish.wrong,
                  "List parts whose mark belongs on another vehicle (see makers)");
    verb.footer(
        "JSON: {mark, photo, region, reading, maker, sure, part, seen_with} with region {x, y, "
        "w, h} and seen_with\nas given to --seen-with, or null; --list: a list of these;\n--like: "
        "each with how; "
        "--wrong: a list of {part, mark, vehicle, fits, sentence}.");
}

Result<Report> marks_listed(const Call& call, const MarkWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    MarkFilter filter;
    if (!wish.photo.empty()) {
        auto photo = parse_id<PhotoId>("photo", wish.photo);
        if (!photo) return photo.failure();
        filter.photo = *photo;
    }
    auto part = part_or_none(*notebook, wish.part);
    if (!part) return part.failure();
    filter.part = *part;
    auto marks = list_marks(*notebook, filter);
    if (!marks) return marks.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    Columns columns({"mark", "reading", "maker", "sure", "part", "photo", "region"});
    Json json = Json::array();
    for (const auto& mark : *marks) {
        columns.row({std::to_string(mark.id.value), mark.reading, mark.maker,
                     std::string(word(mark.sure)), names->tag(mark.part),
                     std::to_string(mark.photo.value), in_words(mark.region)});
        json.push_back(to_json(mark, *names));
    }
    return Report{columns.empty() ? "no marks\n" : columns.text(), std::move(json)};
}

std::string how_alike(Likeness how) {
    switch (how) {
    case Likeness::same_reading_and_maker:
        return "reading and maker";
    case Likeness::same_reading:
        return "reading";
    case Likeness::near_reading:
        return "near reading";
    case Likeness::same_maker:
        break;
    }
    return "maker";
}

Result<Report> seen_elsewhere(const Call& call, const MarkWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto id = parse_id<MarkId>("mark", wish.like);
    if (!id) return id.failure();
    auto marks = list_marks(*notebook);
    if (!marks) return marks.failure();
    const auto asked = std::ranges::find(*marks, *id, &Mark::id);
    if (asked == marks->end())
        return Failure{FailureKind::not_found,
                       "There is no mark " + wish.like + ": `mark --list` shows all."};
    auto like = marks_like(*notebook, asked->reading, asked->maker, *id);
    if (!like) return like.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    Columns columns({"mark", "reading", "maker", "part", "photo", "same"});
    Json json = Json::array();
    for (const auto& [mark, how] : *like) {
        columns.row({std::to_string(mark.id.value), mark.reading, mark.maker, names->tag(mark.part),
                     std::to_string(mark.photo.value), how_alike(how)});
        auto one = to_json(mark, *names);
        one["how"] = how_alike(how);
        json.push_back(std::move(one));
    }
    return Report{columns.empty() ? "seen nowhere else\n" : columns.text(), std::move(json)};
}

Result<Report> on_the_wrong_vehicle(const Call& call) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto found = disagreeing_parts(*notebook);
    if (!found) return found.failure();
    std::string text;
    Json json = Json::array();
    for (const auto& each : *found) {
        text += each.part.tag + ' ' + each.part.name + ": " + each.sentence() + '\n';
        std::vector<std::string> fits;
        for (const auto& vehicle : each.fits)
            fits.push_back(vehicle.name);
        json.push_back(Json{{"part", each.part.tag},
                            {"mark", each.mark.id.value},
                            {"vehicle", each.vehicle.name},
                            {"fits", fits},
                            {"sentence", each.sentence()}});
    }
    return Report{text.empty() ? "no part with a mark of another vehicle's makers\n" : text,
                  std::move(json)};
}

// That a torch set kept with the mark can be made again.
Done check_torch(const Notebook& notebook, const Mark& mark) {
    auto recipe = desk::torch_recipe_of(mark);
    if (!recipe) return recipe.failure();
    if (!*recipe) return done();
    if (auto wish = desk::torch_wish(notebook, **recipe); !wish) return wish.failure();
    const PhotoId first = (*recipe)->photos.front();
    if (first == mark.photo) return done();
    return Failure{FailureKind::invalid,
                   "The torch set begins with photo " + std::to_string(first.value) +
                       ", but the mark is read from photo " + std::to_string(mark.photo.value) +
                       ": give the photo of the mark as the first of the set."};
}

Result<Mark> mark_of(const Notebook& notebook, const MarkWish& wish) {
    Mark mark{.reading = wish.reading, .maker = wish.maker};
    auto photo = parse_id<PhotoId>("photo", wish.photo);
    if (!photo) return photo.failure();
    mark.photo = *photo;
    auto region = parse_region(wish.region);
    if (!region) return region.failure();
    mark.region = *region;
    auto sure = from_word<Sureness>(wish.sure);
    if (!sure) return sure.failure();
    mark.sure = *sure;
    auto part = part_or_none(notebook, wish.part);
    if (!part) return part.failure();
    mark.part = *part;
    auto seen = photos::seen_with_from_json(wish.seen_with);
    if (!seen) return seen.failure();
    mark.seen_with = to_json(*seen);
    if (auto sound = check_torch(notebook, mark); !sound) return sound.failure();
    return mark;
}

Result<Report> mark(const Call& call, const MarkWish& wish) {
    if (wish.list) return marks_listed(call, wish);
    if (!wish.like.empty()) return seen_elsewhere(call, wish);
    if (wish.wrong) return on_the_wrong_vehicle(call);
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto mark = mark_of(*notebook, wish);
    if (!mark) return mark.failure();
    auto id = keep_mark(*notebook, *mark);
    if (!id) return id.failure();
    auto marks = list_marks(*notebook, {.photo = mark->photo});
    if (!marks) return marks.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    const auto kept = std::ranges::find(*marks, *id, &Mark::id);
    return Report{"mark " + std::to_string(id->value) + '\n', to_json(*kept, *names)};
}

} // namespace

void add_marks(Line& line) {
    add_verb(line, line.app, "mark", "Read a mark from a region of a photo, or list marks",
             declare_mark, mark);
}

} // namespace fettle::cli
