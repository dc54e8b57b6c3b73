#include "lettering.h"

#include <ft2build.h>
#include FT_FREETYPE_H

#include <limits>
#include <stdexcept>

namespace fettle::demo {

namespace {

constexpr unsigned kPixels = 56;
constexpr int kMargin = 14;

struct Library {
    FT_Library handle = nullptr;
    Library() {
        if (FT_Init_FreeType(&handle) != 0) throw std::runtime_error("FreeType does not start");
    }
    ~Library() { FT_Done_FreeType(handle); }
    Library(const Library&) = delete;
    Library& operator=(const Library&) = delete;
};

struct Font {
    FT_Face handle = nullptr;
    Font(const Library& library, Face face) {
        const std::string folder = "/usr/share/fonts/truetype/dejavu/";
        const char* file = face == Face::stamp   ? "DejaVuSans-Bold.ttf"
                           : face == Face::serif ? "DejaVuSerif-Bold.ttf"
                           : face == Face::print ? "DejaVuSansMono-Bold.ttf"
                                                 : "DejaVuSans.ttf";
        if (FT_New_Face(library.handle, (folder + file).c_str(), 0, &handle) != 0)
            throw std::runtime_error("font not found: " + folder + file +
                                     " (Debian package fonts-dejavu-core)");
        FT_Set_Pixel_Sizes(handle, 0, kPixels);
    }
    ~Font() { FT_Done_Face(handle); }
    Font(const Font&) = delete;
    Font& operator=(const Font&) = delete;
};

struct Ink {
    int width = 0, height = 0;
    std::vector<uint8_t> pixels;
};

uint32_t next_letter(const std::string& text, size_t& at) {
    const auto lead = static_cast<unsigned char>(text[at++]);
    const int more = lead < 0x80 ? 0 : lead < 0xe0 ? 1 : lead < 0xf0 ? 2 : 3;
    uint32_t letter = more == 0 ? lead : lead & (0x3fu >> more);
    for (int i = 0; i < more && at < text.size(); ++i)
        letter = letter << 6 | (static_cast<unsigned char>(text[at++]) & 0x3fu);
    return letter;
}

void put_glyph(Ink& ink, const FT_GlyphSlot slot, int pen) {
    const FT_Bitmap& bitmap = slot->bitmap;
    const int top = kMargin + static_cast<int>(kPixels) - slot->bitmap_top;
    for (int y = 0; y < static_cast<int>(bitmap.rows); ++y)
        for (int x = 0; x < static_cast<int>(bitmap.width); ++x) {
            const int column = pen + slot->bitmap_left + x, row = top + y;
            if (column < 0 || column >= ink.width || row < 0 || row >= ink.height) continue;
            uint8_t& pixel = ink.pixels[static_cast<size_t>(row * ink.width + column)];
            pixel = std::max(pixel, bitmap.buffer[y * bitmap.pitch + x]);
        }
}

Ink draw(const std::string& text, const Font& font) {
    int advance = 0;
    for (size_t at = 0; at < text.size();) {
        FT_Load_Char(font.handle, next_letter(text, at), FT_LOAD_DEFAULT);
        advance += static_cast<int>(font.handle->glyph->advance.x >> 6);
    }
    Ink ink{advance + 2 * kMargin, static_cast<int>(kPixels) * 5 / 4 + 2 * kMargin, {}};
    ink.pixels.assign(static_cast<size_t>(ink.width * ink.height), 0);
    int pen = kMargin;
    for (size_t at = 0; at < text.size();) {
        FT_Load_Char(font.handle, next_letter(text, at), FT_LOAD_RENDER);
        put_glyph(ink, font.handle->glyph, pen);
        pen += static_cast<int>(font.handle->glyph->advance.x >> 6);
    }
    return ink;
}

// Distance in pixels to the nearest pixel of the other kind, searched within the margin.
float nearest_edge(const Ink& ink, int x, int y) {
    const bool inside = ink.pixels[static_cast<size_t>(y * ink.width + x)] > 127;
    float best = kMargin * kMargin;
    for (int dy = -kMargin; dy <= kMargin; ++dy) {
        const int row = y + dy;
        if (row < 0 || row >= ink.height || static_cast<float>(dy * dy) >= best) continue;
        for (int dx = -kMargin; dx <= kMargin; ++dx) {
            const int column = x + dx;
            if (column < 0 || column >= ink.width) continue;
            if ((ink.pixels[static_cast<size_t>(row * ink.width + column)] > 127) != inside)
                best = std::min(best, static_cast<float>(dx * dx + dy * dy));
        }
    }
    return (std::sqrt(best) - 0.5f) * (inside ? -1.0f : 1.0f);
}

} // namespace

Lettering::Lettering(const std::string& text, Face face, float capital_height) {
    const Library library;
    const Font font(library, face);
    const Ink ink = draw(text, font);
    width_ = ink.width;
    height_ = ink.height;
    constexpr float kCapitalShare = 0.729f; // of the pixel size, in this family
    millimetres_per_pixel_ = capital_height / (kCapitalShare * static_cast<float>(kPixels));
    half_ = {static_cast<float>(width_ - 2 * kMargin) / 2 * millimetres_per_pixel_,
             capital_height / 2};
    origin_ = {static_cast<float>(width_) / 2,
               static_cast<float>(kMargin) + static_cast<float>(kPixels) * (1 - kCapitalShare / 2)};
    distances_.resize(static_cast<size_t>(width_ * height_));
    for (int y = 0; y < height_; ++y)
        for (int x = 0; x < width_; ++x)
            distances_[static_cast<size_t>(y * width_ + x)] =
                nearest_edge(ink, x, y) * millimetres_per_pixel_;
}

float Lettering::distance(Vec2 p) const {
    const float fx = p.x / millimetres_per_pixel_ + origin_.x - 0.5f;
    const float fy = origin_.y - p.y / millimetres_per_pixel_ - 0.5f;
    if (fx < 0 || fy < 0 || fx >= static_cast<float>(width_ - 1) ||
        fy >= static_cast<float>(height_ - 1))
        return static_cast<float>(kMargin) * millimetres_per_pixel_;
    const int x = static_cast<int>(fx), y = static_cast<int>(fy);
    const float u = fx - static_cast<float>(x), v = fy - static_cast<float>(y);
    const auto at = [&](int cx, int cy) {
        return distances_[static_cast<size_t>(cy * width_ + cx)];
    };
    return mix(mix(at(x, y), at(x + 1, y), u), mix(at(x, y + 1), at(x + 1, y + 1), u), v);
}

} // namespace fettle::demo
