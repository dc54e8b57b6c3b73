// Making a worn stamping legible: filters on the brightness of a picture, each by an amount from 0
// (left as it is) to 1.
//
// They act one after another, in the order of the struct, on brightness from 0 (black) to 1. All
// lengths follow from `radius`, in pixels of the picture, so that the same stamping looks the same
// at every zoom. Blurs are Gaussian to within the accuracy of three boxes and cost the same at any
// radius. Pure functions, any thread.
#pragma once

#include "base/result.h"
#include "photos/picture.h"

#include <string>
#include <string_view>
#include <vector>

namespace fettle::photos {

struct StampFilters {
    // Uneven light divided out: brightness over its own blur (homomorphic filtering and the single
    // scale retinex are the same in logarithms: Land and McCann, J. Opt. Soc. Am. 61, 1971).
    double flatten = 0;
    // Local mean and standard deviation brought to one value everywhere (Wallis 1976; Gonzalez and
    // Woods, Digital Image Processing, section 3.3), noise raised no more than kMostGain.
    double contrast = 0;
    // Brightness taken as height and lit from one side: the slope towards it, the derivative of a
    // Gaussian (hill shading for small slopes: Horn, Proc. IEEE 69, 1981).
    double relief = 0;
    // Unsharp masking: what a blur takes away is added, up to kMostUnsharp times.
    double sharpen = 0;
    bool invert = false;     // dark for light
    double radius = 24;      // about as wide as the letters
    double light_from = 315; // the side the relief is lit from, degrees clockwise from the top

    bool any() const { return flatten > 0 || contrast > 0 || relief > 0 || sharpen > 0 || invert; }
    bool operator==(const StampFilters&) const = default;
};

inline constexpr double kLeastRadius = 2, kMostRadius = 200;
inline constexpr double kMostGain = 20, kMostUnsharp = 3;
// Relief and unsharp masking look at lines: their blur is this part of the radius.
inline constexpr double kFineShare = 1.0 / 8;

// Samples from 0 to 1 and, between two filters, beyond; rows from the top.
struct Brightness {
    int width = 0, height = 0;
    std::vector<float> samples;

    float at(int x, int y) const { return samples[std::size_t(y) * width + x]; }
    float& at(int x, int y) { return samples[std::size_t(y) * width + x]; }
};

Brightness brightness_of(const Picture& picture);   // luma of ITU-R BT.601
Picture grey_picture(const Brightness& brightness); // held to 0 to 1

// The filters one by one; sigma and radius in samples. Beyond the edges the last sample goes on.
// Precondition: the picture is not empty, sigma is not negative.
Brightness blurred(const Brightness& from, double sigma);
Brightness flattened(const Brightness& from, double radius);       // 0.5 where it is even
Brightness evened_contrast(const Brightness& from, double radius); // mean 0.5, deviation 0.2
// The change of brightness a sample, towards the side.
Brightness slope_towards(const Brightness& from, double sigma, double side_degrees);

// All that is asked for. `scale`: samples a pixel of the picture, 1 or less, as when it is shrunk.
Brightness filtered(Brightness from, const StampFilters& filters, double scale = 1);
Picture filtered(const Picture& from, const StampFilters& filters, double scale = 1);

// As kept with a mark: {"flatten": 0.6, "contrast": 0, "relief": 0, "sharpen": 0, "invert": false,
// "radius": 24, "light_from": 315}. What is not named is as in a fresh StampFilters.
std::string to_json(const StampFilters& filters);
// Refused (invalid): no JSON object, an unknown name, an amount outside 0 to 1, a radius outside
// kLeastRadius to kMostRadius, a side outside 0 to 360.
Result<StampFilters> filters_from_json(std::string_view text);

} // namespace fettle::photos
