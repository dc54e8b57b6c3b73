#include "base/text.h"
#include "desk/torch_marks.h"
#include "photos/seen_with.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <set>

namespace fettle::desk {
namespace {

using nlohmann::json;

Failure refused(const std::string& what) {
    return {FailureKind::invalid, "Recipe of a torch set: " + what};
}

Failure not_as(const std::string& name, const std::string& accepted, const json& value) {
    return refused("\"" + name + "\" is " + accepted + ", not " + fettle::quoted(value.dump()) +
                   ".");
}

bool is_record(const json& value) {
    return value.is_number_integer() && value.get<std::int64_t>() > 0;
}

Done take_photos(TorchRecipe& recipe, const json& value) {
    const auto bad = [&] {
        return not_as("photos", "a list of the numbers of 4 to 24 different photos", value);
    };
    if (!value.is_array() || value.size() < std::size_t(relief::kLeastShots) ||
        value.size() > std::size_t(relief::kMostShots))
        return bad();
    std::set<std::int64_t> seen;
    for (const json& number : value) {
        if (!is_record(number) || !seen.insert(number.get<std::int64_t>()).second) return bad();
        recipe.photos.push_back(PhotoId{number.get<std::int64_t>()});
    }
    return done();
}

Done take_region(TorchRecipe& recipe, const json& value) {
    constexpr std::int64_t kMost = 1'000'000;
    const bool whole = value.is_array() && value.size() == 4 &&
                       std::all_of(value.begin(), value.end(), [](const json& number) {
                           return number.is_number_integer() && number.get<std::int64_t>() >= 0 &&
                                  number.get<std::int64_t>() <= kMost;
                       });
    if (whole) recipe.region = {value[0], value[1], value[2], value[3]};
    if (recipe.region.width < 32 || recipe.region.height < 32)
        return not_as("region", "a list of x, y, width and height in pixels, 32 a side or more",
                      value);
    return done();
}

Done take_ball(TorchRecipe& recipe, const json& value) {
    if (value.is_null()) return done();
    const bool sound = value.is_array() && value.size() == 3 &&
                       std::all_of(value.begin(), value.end(), [](const json& number) {
                           return number.is_number() && std::abs(number.get<double>()) < 1e6;
                       });
    if (sound) recipe.ball = relief::Ball{value[0], value[1], value[2]};
    if (!sound || recipe.ball->radius <= 0)
        return not_as("ball", "a list of x, y and a radius over 0 in pixels, or null", value);
    return done();
}

Done take(TorchRecipe& recipe, const std::string& name, const json& value) {
    if (name == "photos") return take_photos(recipe, value);
    if (name == "region") return take_region(recipe, value);
    if (name == "ball") return take_ball(recipe, value);
    if (name == "still") {
        if (!value.is_boolean()) return not_as("still", "true or false", value);
        recipe.still = value.get<bool>();
        return done();
    }
    if (name == "view") {
        auto view = relief::view_from_json(value.dump());
        if (!view) return view.failure();
        recipe.view = *view;
        return done();
    }
    if (name != "picture")
        return refused("there is nothing called " + fettle::quoted(name) +
                       "; known are photos, region, ball, still, view and picture.");
    if (!is_record(value)) return not_as("picture", "the number of a photo", value);
    recipe.picture = PhotoId{value.get<std::int64_t>()};
    return done();
}

} // namespace

std::string to_json(const TorchRecipe& recipe) {
    json photos = json::array();
    for (const PhotoId photo : recipe.photos)
        photos.push_back(photo.value);
    const auto& [x, y, width, height] = recipe.region;
    json object{{"photos", photos},
                {"region", {x, y, width, height}},
                {"ball", nullptr},
                {"still", recipe.still},
                {"view", json::parse(relief::to_json(recipe.view))}};
    if (recipe.ball) object["ball"] = {recipe.ball->x, recipe.ball->y, recipe.ball->radius};
    if (recipe.picture) object["picture"] = recipe.picture.value;
    return object.dump();
}

Result<TorchRecipe> torch_recipe_from_json(std::string_view text) {
    const json object = json::parse(text, nullptr, false);
    if (!object.is_object())
        return refused("it is a JSON object such as {\"photos\": [1, 2, 3, 4], \"region\": "
                       "[900, 700, 800, 400]}, not " +
                       quoted(text) + ".");
    for (const char* name : {"photos", "region"})
        if (!object.contains(name)) return refused(std::string("\"") + name + "\" is missing.");
    TorchRecipe recipe;
    for (const auto& [name, value] : object.items())
        if (auto taken = take(recipe, name, value); !taken) return taken.failure();
    return recipe;
}

Result<std::optional<TorchRecipe>> torch_recipe_of(const Mark& mark) {
    auto seen = photos::seen_with_from_json(mark.seen_with);
    if (!seen) return seen.failure();
    if (seen->torch.empty()) return std::optional<TorchRecipe>();
    auto recipe = torch_recipe_from_json(seen->torch);
    if (!recipe) return recipe.failure();
    return std::optional(*std::move(recipe));
}

Result<std::string> seen_with_torch(std::string_view seen_with, const TorchRecipe& recipe) {
    auto seen = photos::seen_with_from_json(seen_with);
    if (!seen) return seen.failure();
    seen->torch = to_json(recipe);
    return photos::to_json(*seen);
}

} // namespace fettle::desk
