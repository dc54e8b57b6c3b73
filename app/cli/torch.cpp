// torch: the relief of a part out of photos under a moved torch, as a picture.
#include "desk/torch.h"

#include "base/text.h"
#include "cli/interrupt.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/torch_marks.h"

#include <cmath>
#include <cstdio>

namespace fettle::cli {
namespace {

struct TorchVerbWish {
    std::vector<std::string> photos;
    std::string to, region, ball, mark, look = "relief";
    bool find_ball = false, still = false;
    double millimetres = 0; // a pixel
    relief::View view;

    void check() const {
        if (photos.empty() == mark.empty())
            throw CLI::ValidationError("4 to 24 FILEs are required, or --mark");
    }
};

void declare_torch(CLI::App& verb, TorchVerbWish& wish) {
    verb.add_option("FILE", wish.photos, "4 to 24 photos of the unmoved part");
    auto* mark = verb.add_option("--mark", wish.mark,
                                 "Instead of FILEs: the torch set kept with this mark, made again")
                     ->option_text("MARK");
    verb.add_option("--to", wish.to, "The picture to write, a new file that ends in .png")
        ->option_text("OUT.png")
        ->required();
    verb.add_option("--region", wish.region,
                    "What to work out, in pixels of the first photo; without it all")
        ->option_text("x,y,w,h");
    auto* ball = verb.add_option("--ball", wish.ball,
                                 "Where a shiny ball lies in the first photo: middle and radius")
                     ->option_text("x,y,r");
    verb.add_flag("--find-ball", wish.find_ball, "Look for a shiny ball in the photos")
        ->excludes(ball);
    verb.add_flag("--still", wish.still, "The camera stood still: do not lay photos on each other");
    verb.add_option("--look", wish.look, "lit, relief, depth or albedo; without it relief")
        ->option_text("KIND");
    verb.add_option("--light-from", wish.view.light_from,
                    "The side the light comes from in the picture, clockwise from the top")
        ->option_text("DEGREES");
    verb.add_option("--light-height", wish.view.light_height, "How high it stands, 2 to 90")
        ->option_text("DEGREES");
    verb.add_option("--slope", wish.view.slope, "How many times as steep, 0.05 to 20")
        ->option_text("TIMES");
    verb.add_flag("--turn-over", wish.view.turned_over, "Show what is struck in as raised");
    verb.add_option("--contrast", wish.view.contrast, "Local contrast, 0 to 1")
        ->option_text("AMOUNT");
    verb.add_option("--radius", wish.view.radius, "About as wide as the letters, 2 to 400")
        ->option_text("PIXELS");
    verb.add_option("--pixel", wish.millimetres, "Millimetres a pixel, for the scale of depth")
        ->option_text("MM");
    for (CLI::Option* option : verb.get_options())
        if (option != mark && option != verb.get_help_ptr() && option->get_name() != "--to" &&
            !option->get_positional())
            mark->excludes(option);
    verb.footer(
        "Light the part from all around with a hand torch, low and higher, a photo each, from one "
        "place. A shiny\nball beside it tells where the torch stood; without one, how steep the "
        "relief is and what is struck in stay\nguesses (--slope, --turn-over). Photos are never "
        "changed. `mark --seen-with` keeps a set with a mark.\n"
        "JSON: {file, width, height, ball {x, y, radius}, lights [{side, above, strength}], "
        "lights_known, slope_settled,\nshifts [[x, y]], readings {all, dark, bright, clipped, "
        "outside}, unknown, view, scale {black, white,\nblack_mm, white_mm}}; ball and scale may "
        "be null.");
}

Result<relief::Ball> typed_ball(const std::string& typed) {
    relief::Ball ball;
    int end = -1;
    if (std::sscanf(typed.c_str(), "%lf,%lf,%lf%n", &ball.x, &ball.y, &ball.radius, &end) == 3 &&
        end == int(typed.size()) && std::isfinite(ball.x) && std::isfinite(ball.y) &&
        ball.radius > 0 && ball.radius < 1e5 && std::abs(ball.x) < 1e6 && std::abs(ball.y) < 1e6)
        return ball;
    return Failure{FailureKind::invalid,
                   "The ball " + fettle::quoted(typed) +
                       " is not accepted: give its middle and radius in pixels, such as "
                       "1820,640,95."};
}

Result<desk::TorchWish> torch_asked_for(const TorchVerbWish& typed) {
    desk::TorchWish wish;
    for (const auto& photo : typed.photos)
        wish.photos.emplace_back(photo);
    wish.still = typed.still;
    if (!typed.region.empty()) {
        const auto region = parse_region(typed.region);
        if (!region) return region.failure();
        wish.region = relief::Rectangle{region->x, region->y, region->w, region->h};
    }
    if (typed.find_ball) wish.lamps = desk::Lamps::ball_sought;
    if (!typed.ball.empty()) {
        const auto ball = typed_ball(typed.ball);
        if (!ball) return ball.failure();
        wish.lamps = desk::Lamps::ball_given;
        wish.ball = *ball;
    }
    return wish;
}

// What was kept with a mark takes the place of what would be typed.
Result<desk::TorchWish> torch_kept(const Call& call, TorchVerbWish& typed) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto id = parse_id<MarkId>("mark", typed.mark);
    if (!id) return id.failure();
    auto mark = mark_by_id(*notebook, *id);
    if (!mark) return mark.failure();
    auto recipe = desk::torch_recipe_of(*mark);
    if (!recipe) return recipe.failure();
    if (!*recipe)
        return Failure{FailureKind::not_found, "The mark " + typed.mark +
                                                   " was not read from a torch set: nothing is "
                                                   "kept of one."};
    auto wish = desk::torch_wish(*notebook, **recipe);
    if (!wish) return wish.failure();
    auto millimetres =
        desk::millimetres_a_pixel(*notebook, (*recipe)->photos.front(), (*recipe)->region);
    if (!millimetres) return millimetres.failure();
    for (const auto& photo : wish->photos)
        typed.photos.push_back(photo.string());
    typed.view = (*recipe)->view;
    typed.look = relief::word(typed.view.kind);
    typed.millimetres = millimetres->value_or(0);
    return wish;
}

std::string rounded(double value, int digits) {
    char text[40];
    std::snprintf(text, sizeof text, "%.*f", digits, value);
    return text;
}

Json torch_json(const TorchVerbWish& wish, const relief::View& view, const desk::TorchSet& set,
                const relief::Seen& seen) {
    const relief::Relief& relief = set.relief;
    Json lights = Json::array(), shifts = Json::array();
    for (const auto& [towards, strength] : relief.lights)
        lights.push_back(Json{{"side", relief::side_of(towards)},
                              {"above", relief::above_of(towards)},
                              {"strength", strength}});
    for (const relief::Pose& pose : relief.poses)
        shifts.push_back(Json::array({pose.x, pose.y}));
    Json json{{"file", wish.to},
              {"width", seen.picture.width},
              {"height", seen.picture.height},
              {"ball", nullptr},
              {"lights", lights},
              {"lights_known", relief.lights_known},
              {"slope_settled", relief.slope_settled},
              {"shifts", shifts},
              {"readings",
               {{"all", relief.readings.all},
                {"dark", relief.readings.dark},
                {"bright", relief.readings.bright},
                {"clipped", relief.readings.clipped},
                {"outside", relief.readings.outside}}},
              {"unknown", relief.unknown},
              {"view", Json::parse(relief::to_json(view))},
              {"scale", nullptr}};
    if (set.ball)
        json["ball"] = {{"x", set.ball->x}, {"y", set.ball->y}, {"radius", set.ball->radius}};
    if (seen.scale) {
        json["scale"] = {{"black", seen.scale->black}, {"white", seen.scale->white}};
        json["scale"]["black_mm"] = seen.scale->black_mm ? Json(*seen.scale->black_mm) : Json();
        json["scale"]["white_mm"] = seen.scale->white_mm ? Json(*seen.scale->white_mm) : Json();
    }
    return json;
}

std::string torch_text(const TorchVerbWish& wish, const desk::TorchSet& set,
                       const relief::Seen& seen) {
    const relief::Relief& relief = set.relief;
    Columns columns({"photo", "light from", "above", "strength", "shift"});
    for (std::size_t i = 0; i < relief.lights.size(); ++i) {
        const auto& [towards, strength] = relief.lights[i];
        columns.row({std::filesystem::path(wish.photos[i]).filename().string(),
                     rounded(relief::side_of(towards), 0) + "°",
                     rounded(relief::above_of(towards), 0) + "°", rounded(strength, 2),
                     rounded(relief.poses[i].x, 2) + ", " + rounded(relief.poses[i].y, 2)});
    }
    std::string text = columns.text();
    if (set.ball)
        text += "ball at " + rounded(set.ball->x, 1) + ", " + rounded(set.ball->y, 1) +
                ", radius " + rounded(set.ball->radius, 1) + "\n";
    const relief::Readings& readings = relief.readings;
    const double all = double(std::max<std::size_t>(1, readings.all));
    text += rounded(100 * double(readings.dropped()) / all, 1) +
            " % of readings left out: " + rounded(100 * double(readings.dark) / all, 1) +
            " % in shadow, " + rounded(100 * double(readings.bright) / all, 1) + " % glints, " +
            rounded(100 * double(readings.clipped) / all, 1) + " % too bright to tell\n";
    if (!relief.lights_known)
        text += relief.slope_settled
                    ? "lights worked out of the photos: what is struck in is a guess\n"
                    : "lights worked out of the photos: how steep the relief is and what is "
                      "struck in are guesses\n";
    if (seen.scale) {
        const bool mm = seen.scale->black_mm.has_value();
        text += "black is " + rounded(mm ? *seen.scale->black_mm : seen.scale->black, 3) +
                " and white " + rounded(mm ? *seen.scale->white_mm : seen.scale->white, 3) +
                (mm ? " mm" : " pixels") + " above the mean\n";
    }
    return text + one_line(wish.to) + ": " + std::to_string(seen.picture.width) + " by " +
           std::to_string(seen.picture.height) + " pixels\n";
}

Result<Report> show_relief(const Call& call, const TorchVerbWish& typed) {
    TorchVerbWish wish = typed;
    if (!lower_ascii(wish.to).ends_with(".png"))
        return Failure{FailureKind::invalid, "The picture " + fettle::quoted(wish.to) +
                                                 " is not accepted: give a name that ends in "
                                                 ".png."};
    auto asked = wish.mark.empty() ? torch_asked_for(wish) : torch_kept(call, wish);
    if (!asked) return asked.failure();
    relief::View view = wish.view;
    const auto kind = relief::kind_called(wish.look);
    if (!kind) return kind.failure();
    view.kind = *kind;
    if (auto sound = relief::check_view(view); !sound) return sound.failure();
    if (!(wish.millimetres >= 0 && wish.millimetres <= 100))
        return Failure{FailureKind::invalid, "Millimetres a pixel are over 0 to 100, not " +
                                                 std::to_string(wish.millimetres) + "."};
    if (auto free = desk::check_new_file(wish.to); !free) return free.failure();
    const Interrupt interrupt;
    asked->work.stop = interrupt.token();
    if (call.err_is_terminal) asked->work.progress = progress_line(call.err);
    photos::Decoder decoder;
    const auto set = desk::work_torch_set(decoder, *asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!set) return set.failure();
    const auto millimetres =
        wish.millimetres > 0 ? std::optional<double>(wish.millimetres) : std::nullopt;
    const relief::Seen seen = relief::picture_of(set->relief, view, millimetres);
    if (auto written = desk::write_grey_png(seen.picture, wish.to); !written)
        return written.failure();
    return Report{torch_text(wish, *set, seen), torch_json(wish, view, *set, seen)};
}

} // namespace

void add_torch(Line& line) {
    add_verb(line, line.app, "torch", "Show the relief of a part out of photos under a moved torch",
             declare_torch, show_relief);
}

} // namespace fettle::cli
