#include "ui/frame/fonts.h"

#include "ui/frame/theme.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include <imgui.h>
#include <imgui_freetype.h>

#include <cmath>
#include <optional>
#include <vector>

namespace fettle::ui {
namespace {

constexpr const char* kLetters = "/opentype/cabin/Cabin-Regular.otf";
constexpr const char* kHeadingLetters = "/opentype/cabin/Cabin-SemiBold.otf";
constexpr const char* kFigures = "/truetype/crosextra/Carlito-Regular.ttf";
constexpr const char* kHeadingFigures = "/truetype/crosextra/Carlito-Bold.ttf";
constexpr const char* kTheRest = "/truetype/dejavu/DejaVuSans.ttf";
constexpr const char* kItalicLetters = "/opentype/cabin/Cabin-Italic.otf";
constexpr const char* kItalicFigures = "/truetype/crosextra/Carlito-Italic.ttf";
constexpr const char* kStrongItalicLetters = "/opentype/cabin/Cabin-SemiBoldItalic.otf";
constexpr const char* kStrongItalicFigures = "/truetype/crosextra/Carlito-BoldItalic.ttf";
constexpr const char* kCode = "/truetype/dejavu/DejaVuSansMono.ttf";
constexpr const char* kFar =
    "/opentype/noto/NotoSansCJK-Regular.ttc"; // fonts-noto-cjk, if it is there
constexpr float kCodeEm = 0.84F; // of the body's: its small letters are as tall as Cabin's then

// Cabin's figures differ in width and its nought reads as an O; its fractions and signs are partly
// missing. Those come from the second face, so both lists below complete each other.
constexpr ImWchar kFigureRanges[] = {'0',    '9',    0xB0,   0xB7,   0xBC,   0xBE,
                                     0xD7,   0xD7,   0x2044, 0x2044, 0x2150, 0x215E,
                                     0x2212, 0x2212, 0x2264, 0x2265, 0};
constexpr ImWchar kLetterRanges[] = {0x20, '/',  ':',    0xAF,   0xB8,   0xBB, 0xBF,
                                     0xD6, 0xD8, 0x2043, 0x2045, 0x214F, 0};
constexpr ImWchar kAllRanges[] = {0x20, 0xFFFF, 0};
// Latin letters, punctuation, arrows, signs of mathematics, lines of boxes.
constexpr ImWchar kCodeRanges[] = {0x20,   0x17F,  0x2010, 0x2044, 0x2190, 0x2193,
                                   0x2200, 0x22FF, 0x2500, 0x257F, 0};

struct FaceProportions {
    double line_per_em = 1; // what Dear ImGui calls size is ascent + descent, not the em
    double capital_per_em = 0.7;
};

std::optional<FaceProportions> measure_face(const std::string& path) {
    FT_Library library = nullptr;
    if (FT_Init_FreeType(&library) != 0) return std::nullopt;
    std::optional<FaceProportions> found;
    FT_Face face = nullptr;
    if (FT_New_Face(library, path.c_str(), 0, &face) == 0) {
        const double em = face->units_per_EM;
        if (em > 0 && FT_Load_Char(face, 'H', FT_LOAD_NO_SCALE) == 0)
            found = FaceProportions{(face->ascender - face->descender) / em,
                                    static_cast<double>(face->glyph->metrics.horiBearingY) / em};
        FT_Done_Face(face);
    }
    FT_Done_FreeType(library);
    return found;
}

// Adds faces to one ImFont: the first sets its line, the others fill in what is missing.
class Setter {
  public:
    Setter(ImFontAtlas& atlas, std::string root, double em)
        : atlas_(atlas), root_(std::move(root)), em_(em) {}

    void add(const char* file, const ImWchar* ranges) {
        const std::string path = root_ + file;
        const std::optional<FaceProportions> face = measure_face(path);
        if (!face) {
            missing_ += (missing_.empty() ? "" : ", ") + path;
            return;
        }
        if (!font_) capital_ = em_ * face->capital_per_em;
        ImFontConfig config;
        config.MergeMode = font_ != nullptr;
        config.FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
        const double size = capital_ / face->capital_per_em * face->line_per_em;
        ImFont* added = atlas_.AddFontFromFileTTF(
            path.c_str(), static_cast<float>(std::round(size)), &config, ranges);
        if (!font_) font_ = added;
    }

    ImFont* font() const { return font_; }
    double em() const { return em_; }
    const std::string& missing() const { return missing_; }

  private:
    ImFontAtlas& atlas_;
    std::string root_;
    double em_;
    double capital_ = 0;
    ImFont* font_ = nullptr;
    std::string missing_;
};

// Pairs of first and last, a nought at the end, as Dear ImGui wants them; kept until it has built.
std::vector<ImWchar> ranges_of(const std::set<std::uint16_t>& letters) {
    std::vector<ImWchar> ranges;
    for (const std::uint16_t letter : letters)
        if (!ranges.empty() && ranges.back() + 1 == letter)
            ranges.back() = letter;
        else
            ranges.insert(ranges.end(), {letter, letter});
    if (!ranges.empty()) ranges.push_back(0);
    return ranges;
}

ImFont* set_size(Setter setter, ImFontAtlas& atlas, bool heading, const std::vector<ImWchar>& far,
                 std::string& missing) {
    setter.add(heading ? kHeadingLetters : kLetters, kLetterRanges);
    setter.add(heading ? kHeadingFigures : kFigures, kFigureRanges);
    setter.add(kTheRest, kAllRanges);
    if (missing.empty()) missing = setter.missing();
    if (setter.font() && !far.empty()) setter.add(kFar, far.data());
    if (setter.font()) return setter.font();
    ImFontConfig config;
    config.SizePixels = static_cast<float>(std::round(setter.em()));
    return atlas.AddFontDefault(&config);
}

// A face for marked text beside the body's, or the body's where it is not there.
ImFont* set_beside(Setter setter, ImFont* body, const char* letters, const char* figures,
                   std::string& missing) {
    setter.add(letters, figures != nullptr ? kLetterRanges : kCodeRanges);
    if (figures != nullptr) setter.add(figures, kFigureRanges);
    if (missing.empty()) missing = setter.missing();
    return setter.font() ? setter.font() : body;
}

// Dear ImGui sets lines solid. Text is read more calmly with a little room between them.
void add_leading(ImFont& font, double share) {
    const float room = static_cast<float>(std::round(font.FontSize * share));
    font.FontSize += room;
    font.Ascent += std::floor(room / 2);
    for (ImFontGlyph& glyph : font.Glyphs) {
        glyph.Y0 += std::floor(room / 2);
        glyph.Y1 += std::floor(room / 2);
    }
}

} // namespace

Fonts build_fonts(ImFontAtlas& atlas, float scale, const std::set<std::uint16_t>& far,
                  const std::string& root) {
    atlas.Clear();
    atlas.FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
    atlas.Flags |= ImFontAtlasFlags_NoMouseCursors;
    Fonts fonts;
    std::string missing;
    const std::vector<ImWchar> far_ranges = ranges_of(far);
    const auto set = [&](float em, bool heading) {
        return set_size(Setter(atlas, root, em * scale), atlas, heading, far_ranges, missing);
    };
    fonts.body = set(Measure::kBody, false);
    fonts.heading = set(Measure::kHeading, true);
    fonts.fine = set(Measure::kFine, false);
    const Setter at_body(atlas, root, Measure::kBody * scale);
    fonts.strong = set_beside(at_body, fonts.body, kHeadingLetters, kHeadingFigures, missing);
    fonts.emphasis = set_beside(at_body, fonts.body, kItalicLetters, kItalicFigures, missing);
    fonts.strong_emphasis =
        set_beside(at_body, fonts.body, kStrongItalicLetters, kStrongItalicFigures, missing);
    fonts.code = set_beside(Setter(atlas, root, Measure::kBody * kCodeEm * scale), fonts.body,
                            kCode, nullptr, missing);
    if (!missing.empty())
        fonts.trouble = "The fonts " + missing +
                        " could not be read; letters stand in from another face. Install the "
                        "packages fonts-cabin, fonts-crosextra-carlito and fonts-dejavu-core.";
    atlas.Build();
    add_leading(*fonts.body, 0.14);
    add_leading(*fonts.fine, 0.10);
    return fonts;
}

} // namespace fettle::ui
