#include "relief/struck_letters.h"

#include <ft2build.h>
#include FT_FREETYPE_H

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <numbers>

namespace relief_tests {
namespace {

constexpr const char* kFont = "/usr/share/fonts/truetype/dejavu/DejaVuSansMono-Bold.ttf";

void must(FT_Error error) {
    if (!error) return;
    std::fprintf(stderr, "%s cannot be read by FreeType\n", kFont);
    std::abort();
}

// The line as FreeType sets it, in a grid just large enough.
Grid set_line(const std::string& text, double letter_height) {
    FT_Library library;
    FT_Face face;
    must(FT_Init_FreeType(&library));
    must(FT_New_Face(library, kFont, 0, &face));
    // Capitals of this face are 0.729 of its size high.
    must(FT_Set_Pixel_Sizes(face, 0, FT_UInt(std::lround(letter_height / 0.729))));
    must(FT_Load_Char(face, 'H', FT_LOAD_DEFAULT));
    const int step = int(std::lround(double(face->glyph->advance.x) / 64 * 1.12));
    const int high = int(letter_height * 1.4), base = int(letter_height * 1.2);
    Grid line(step * int(text.size()), high);
    for (std::size_t i = 0; i < text.size(); ++i) {
        must(FT_Load_Char(face, FT_ULong(text[i]), FT_LOAD_RENDER));
        const FT_GlyphSlot glyph = face->glyph;
        for (int v = 0; v < int(glyph->bitmap.rows); ++v)
            for (int u = 0; u < int(glyph->bitmap.width); ++u) {
                const int x = int(i) * step + glyph->bitmap_left + u;
                const int y = base - glyph->bitmap_top + v;
                if (x >= 0 && y >= 0 && x < line.width && y < line.height)
                    line.at(x, y) = float(glyph->bitmap.buffer[v * glyph->bitmap.pitch + u]) / 255;
            }
    }
    FT_Done_Face(face);
    FT_Done_FreeType(library);
    return line;
}

} // namespace

Grid letters_in(const std::string& text, int width, int height, double letter_height,
                double turn_degrees, Point off_middle) {
    const Grid line = set_line(text, letter_height);
    const double angle = turn_degrees * std::numbers::pi / 180;
    return made_by(width, height, [&](double x, double y) {
        const double u = x - width / 2.0 - off_middle.x, v = y - height / 2.0 - off_middle.y;
        const double along = std::cos(angle) * u + std::sin(angle) * v + line.width / 2.0;
        const double across = -std::sin(angle) * u + std::cos(angle) * v + letter_height * 0.7;
        if (along < 0 || across < 0 || along > line.width - 1 || across > line.height - 1)
            return 0.0;
        return double(sampled(line, along, across));
    });
}

Scene struck(const Struck& wanted) {
    std::mt19937 random(wanted.seed);
    const int width = wanted.width, height = wanted.height;
    Grid ground = cloud(width, height, 1.3, random);
    const Grid swell = cloud(width, height, 30, random);
    const Grid worn = cloud(width, height, wanted.letter_height / 4, random);
    const Grid rust = cloud(width, height, 9, random), specks = cloud(width, height, 1.5, random);
    const Grid letters = smoothed(letters_in(wanted.text, width, height, wanted.letter_height,
                                             wanted.turn_degrees, wanted.off_middle),
                                  wanted.flank);
    Scene scene{Grid(width, height), Grid(width, height)};
    for (std::size_t at = 0; at < ground.samples.size(); ++at) {
        const double gone = std::clamp(0.5 + 0.5 * double(worn.samples[at]), 0.0, 1.0);
        const double left = wanted.depth * (1 - wanted.wear * gone);
        scene.height.samples[at] =
            float(-left * double(letters.samples[at]) + wanted.grain * double(ground.samples[at]) +
                  0.8 * double(swell.samples[at]));
        const double stained = 1 / (1 + std::exp(-3 * double(rust.samples[at])));
        const double speck = 1 + 0.15 * double(specks.samples[at]);
        scene.albedo.samples[at] =
            float(std::clamp(0.75 * (1 - wanted.stain * stained) * speck, 0.05, 0.95));
    }
    scene.noise = 0.006;
    return scene;
}

std::string random_stamp(std::mt19937& random, int letters) {
    static constexpr std::string_view kSigns = "ACEFHKLMNPRTVX3479";
    std::uniform_int_distribution<std::size_t> sign(0, kSigns.size() - 1);
    std::string text;
    for (int i = 0; i < letters; ++i)
        text += kSigns[sign(random)];
    return text;
}

} // namespace relief_tests
