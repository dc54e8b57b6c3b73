// One photo of a torch set as the light that came from each pixel.
#pragma once

#include "relief/grid.h"

#include <span>

namespace fettle::relief {

// The reading of a pixel of which a colour was at its limit: how bright it was is not known.
inline constexpr std::uint16_t kClipped = 65535;

// Rows from the top. Twice the light is twice the reading.
struct Shot {
    int width = 0, height = 0;
    std::vector<std::uint16_t> light;

    std::uint16_t at(int x, int y) const { return light[std::size_t(y) * width + x]; }
};

// Of pixels as cameras write them, four bytes each (red, green, blue, any): the transfer of sRGB
// undone (IEC 61966-2-1) and the colours weighed as brightness (ITU-R BT.709). Cameras bend dark
// and bright tones to please, too; that is not undone. Precondition: width * height * 4 bytes.
Shot shot_of(std::span<const std::byte> rgba, int width, int height);

// A part of it. Precondition: the part lies within.
Shot cut_out(const Shot& shot, const Rectangle& part);

// Readings from 0 to 1, those clipped as 1.
Grid light_of(const Shot& shot);

// The same at a share of the size, `by` times `by` pixels a sample, without a grid of them all.
Grid light_of(const Shot& shot, int by);

} // namespace fettle::relief
