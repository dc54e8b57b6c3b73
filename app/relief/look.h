// Seeing a relief: pictures in grey, made of it by a recipe that can be kept. Pure; any thread.
#pragma once

#include "base/result.h"
#include "relief/torch_set.h"

#include <optional>
#include <string>
#include <string_view>

namespace fettle::relief {

enum class Kind {
    lit,    // as if one torch lit it: albedo times the cosine (Lambert)
    relief, // the same without albedo: one matt grey all over, level ground in the middle
    depth,  // heights as shades, what is low dark
    albedo, // how bright it is of itself, without any relief
};

// The recipe. What stays open with unknown lights (lights.h) is part of it: slope, turned over,
// lean.
struct View {
    Kind kind = Kind::relief;
    double light_from = 315;  // the side the light comes from, degrees clockwise from the top
    double light_height = 30; // degrees above the part
    double slope = 1;         // all slopes and heights times this
    bool turned_over = false; // what is raised is struck in
    double lean_right = 0;    // a plane with this rise a pixel is taken off before
    double lean_down = 0;
    double contrast = 0; // 0 to 1: mean and deviation around each pixel brought to one value
                         // (Wallis 1976), as far as 20 times
    double radius = 24;  // how far around, pixels; about as wide as the letters
    bool operator==(const View&) const = default;
};

inline constexpr double kLeastHeight = 2, kMostHeight = 90;  // of the light
inline constexpr double kLeastSlope = 0.05, kMostTimes = 20; // of `slope`
inline constexpr double kMostLean = 2;                       // either way
inline constexpr double kLeastAround = 2, kMostAround = 400; // of `radius`

// What black and white of a depth picture stand for, above the mean, with `slope` counted in. No
// meaning of millimetres unless the slope is settled (Relief).
struct DepthScale {
    double black = 0, white = 0;                   // pixels
    std::optional<double> black_mm, white_mm = {}; // where millimetres a pixel are known
};

struct Seen {
    GreyPicture picture;             // of the relief's size
    std::optional<DepthScale> scale; // of a depth picture without local contrast
};

// Precondition: the view is as view_from_json() accepts it. `millimetres_a_pixel` over 0.
Seen picture_of(const Relief& relief, const View& view,
                std::optional<double> millimetres_a_pixel = {});

// Refused (invalid): a setting outside of what the recipe takes, naming it.
Done check_view(const View& view);
// One of lit, relief, depth, albedo; refused (invalid) otherwise.
Result<Kind> kind_called(std::string_view word);
std::string_view word(Kind kind);

// {"kind": "relief", "light_from": 315, "light_height": 30, "slope": 1, "turned_over": false,
// "lean_right": 0, "lean_down": 0, "contrast": 0, "radius": 24}; what is not named is as in a fresh
// View.
std::string to_json(const View& view);
// Refused (invalid): no JSON object, an unknown name, a value outside of what is accepted.
Result<View> view_from_json(std::string_view text);

} // namespace fettle::relief
