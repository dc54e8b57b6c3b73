#include "desk/pdf.h"

#include "base/text.h"
#include "base/whole_file.h"
#include "photos/jpeg.h"

#include <cairo-pdf.h>
#include <cairo.h>

#include <algorithm>
#include <array>
#include <cstring>
#include <optional>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

constexpr double kPoint = 72 / 25.4; // points a millimetre
constexpr std::array kFaces = {"Cabin", "Carlito", "DejaVu Sans"};
constexpr double kMeasuredAt = 10;
// As ui/frame/fonts.cpp: Cabin's figures differ in width, its nought reads as an O.
constexpr std::string_view kFigures = "0123456789°·¼½¾×⁄−≤≥⅛⅜⅝⅞⅓⅔";

template <auto free>
struct FreeBy {
    template <class T>
    void operator()(T* held) const {
        free(held);
    }
};
using Surface = std::unique_ptr<cairo_surface_t, FreeBy<cairo_surface_destroy>>;
using Context = std::unique_ptr<cairo_t, FreeBy<cairo_destroy>>;

struct PdfBytes {
    std::string bytes;
    std::optional<WholeFile> stream; // instead
};

cairo_status_t collect(void* inside, const unsigned char* more, unsigned count) {
    auto& to = *static_cast<PdfBytes*>(inside);
    const std::string_view bytes(reinterpret_cast<const char*>(more), count);
    if (!to.stream)
        to.bytes.append(bytes);
    else if (!to.stream->write(bytes))
        return CAIRO_STATUS_WRITE_ERROR;
    return CAIRO_STATUS_SUCCESS;
}

// The text without its last character, and with an ellipsis.
std::string shortened(std::string text) {
    if (text.ends_with("…")) text.resize(text.size() - std::strlen("…"));
    while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xc0) == 0x80)
        text.pop_back();
    if (!text.empty()) text.pop_back();
    return text + "…";
}

// The characters of valid UTF-8, one after the other.
std::vector<std::string> characters_of(std::string_view text) {
    std::vector<std::string> characters;
    for (const char byte : text) {
        if ((static_cast<unsigned char>(byte) & 0xc0) != 0x80 || characters.empty())
            characters.emplace_back();
        characters.back() += byte;
    }
    return characters;
}

double advance_of(cairo_t* pen, const std::string& text) {
    cairo_text_extents_t extents;
    cairo_text_extents(pen, text.c_str(), &extents);
    return extents.x_advance;
}

} // namespace

struct Pdf::Inside {
    PdfBytes made;
    Surface surface;
    Context pen;
};

Pdf::Pdf(double width, double height, const std::string& title)
    : inside_(std::make_unique<Inside>()) {
    inside_->surface.reset(cairo_pdf_surface_create_for_stream(collect, &inside_->made,
                                                               width * kPoint, height * kPoint));
    cairo_pdf_surface_set_metadata(inside_->surface.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
    inside_->pen.reset(cairo_create(inside_->surface.get()));
    cairo_scale(inside_->pen.get(), kPoint, kPoint);
}

Pdf::~Pdf() = default;

cairo_t* Pdf::pen() const {
    return inside_->pen.get();
}

void Pdf::stream_to(const fs::path& file) {
    auto& made = inside_->made;
    made.stream.emplace(file);
    made.stream->write(made.bytes);
    made.bytes.clear();
}

void Pdf::next_page() {
    cairo_show_page(pen());
}

Done Pdf::write(const fs::path& file, const std::string& what) {
    cairo_surface_finish(inside_->surface.get());
    auto& made = inside_->made;
    for (const auto status : {cairo_status(pen()), cairo_surface_status(inside_->surface.get())})
        if (status != CAIRO_STATUS_SUCCESS && status != CAIRO_STATUS_SURFACE_FINISHED &&
            status != CAIRO_STATUS_WRITE_ERROR) // that one is the stream's to tell
            return Failure{FailureKind::io, "The " + what + " cannot be drawn.",
                           cairo_status_to_string(status)};
    return made.stream ? made.stream->keep() : write_whole(file, made.bytes);
}

void Lettering::select(Face face, double size, Ink ink) {
    const auto use = [&](Face wanted, double em) {
        cairo_select_font_face(pen_, kFaces[wanted], CAIRO_FONT_SLANT_NORMAL,
                               ink == Ink::bold ? CAIRO_FONT_WEIGHT_BOLD
                                                : CAIRO_FONT_WEIGHT_NORMAL);
        cairo_set_font_size(pen_, em);
    };
    const int key = face * 2 + (ink == Ink::bold);
    if (!scales_.contains(key)) {
        std::array<double, 2> capitals{};
        for (const auto measured : {letters, face}) {
            use(measured, kMeasuredAt);
            cairo_text_extents_t extents;
            cairo_text_extents(pen_, "H", &extents);
            capitals[measured == letters ? 0 : 1] = extents.height;
        }
        scales_[key] = face == letters || capitals[1] <= 0 ? 1 : capitals[0] / capitals[1];
    }
    use(face, size * scales_[key]);
}

Lettering::Face Lettering::face_of(const std::string& character) {
    if (kFigures.find(character) != std::string_view::npos) return figures;
    const auto known = known_.find(character);
    if (known != known_.end()) return known->second;
    select(letters, kMeasuredAt, Ink::plain);
    cairo_glyph_t* glyphs = nullptr;
    int count = 0;
    const auto status = cairo_scaled_font_text_to_glyphs(
        cairo_get_scaled_font(pen_), 0, 0, character.c_str(), static_cast<int>(character.size()),
        &glyphs, &count, nullptr, nullptr, nullptr);
    const bool there = status == CAIRO_STATUS_SUCCESS && count > 0 && glyphs[0].index != 0;
    cairo_glyph_free(glyphs);
    return known_[character] = there ? letters : rest;
}

std::vector<Lettering::Run> Lettering::runs_of(std::string_view text) {
    std::vector<Run> runs;
    for (const auto& character : characters_of(safe_utf8(text))) {
        // Control characters have no place on paper.
        const bool control = static_cast<unsigned char>(character[0]) < 0x20;
        const std::string shown = control ? " " : character;
        const Face face = shown == " " && !runs.empty() ? runs.back().face : face_of(shown);
        if (runs.empty() || runs.back().face != face) runs.push_back({face, ""});
        runs.back().text += shown;
    }
    return runs;
}

double Lettering::width(std::string_view text, double size, Ink ink) {
    double sum = 0;
    for (const auto& [face, run] : runs_of(text)) {
        select(face, size, ink);
        sum += advance_of(pen_, run);
    }
    return sum;
}

double Lettering::write(double left, double baseline, std::string_view text, double size, Ink ink) {
    for (const auto& [face, run] : runs_of(text)) {
        select(face, size, ink);
        cairo_move_to(pen_, left, baseline);
        cairo_show_text(pen_, run.c_str());
        left += advance_of(pen_, run);
    }
    return left;
}

std::vector<std::string> Lettering::wrapped(const std::string& text, double width, int most,
                                            double size, Ink ink) {
    return desk::wrapped(text, width, most,
                         [&](const std::string& line) { return this->width(line, size, ink); });
}

std::vector<std::string> wrapped(const std::string& text, double width, int most,
                                 const std::function<double(const std::string&)>& width_of) {
    std::vector<std::string> lines;
    const auto clean = safe_utf8(text);
    for (const auto word : split(clean, ' ')) {
        if (word.empty()) continue;
        const std::string longer =
            lines.empty() ? std::string(word) : lines.back() + ' ' + std::string(word);
        if (!lines.empty() && width_of(longer) <= width)
            lines.back() = longer;
        else if (static_cast<int>(lines.size()) < most)
            lines.emplace_back(word);
        else {
            lines.back() = shortened(lines.back() + "  ");
            break;
        }
    }
    for (auto& line : lines)
        while (line.size() > 4 && width_of(line) > width)
            line = shortened(line);
    return lines;
}

void draw_jpeg(cairo_t* pen, const photos::JpegCopy& copy, const Box& box,
               const std::string& name) {
    // One bit a pixel stands in for it: the JPEG is written as it is coded.
    const Surface surface(
        cairo_image_surface_create(CAIRO_FORMAT_A1, copy.size.width, copy.size.height));
    const auto attach = [&surface](const char* kind, auto* held) {
        cairo_surface_set_mime_data(
            surface.get(), kind, reinterpret_cast<const unsigned char*>(held->data()), held->size(),
            [](void* data) { delete static_cast<std::remove_pointer_t<decltype(held)>*>(data); },
            held);
    };
    if (!copy.jpeg.empty()) attach(CAIRO_MIME_TYPE_JPEG, new std::vector<std::byte>(copy.jpeg));
    attach(CAIRO_MIME_TYPE_UNIQUE_ID, new std::string(name));
    cairo_save(pen);
    cairo_translate(pen, box.left, box.top);
    cairo_scale(pen, box.width / copy.size.width, box.height / copy.size.height);
    cairo_set_source_surface(pen, surface.get(), 0, 0);
    // Not painted: the first thing painted over a page makes cairo forget the tags before it.
    cairo_rectangle(pen, 0, 0, copy.size.width, copy.size.height);
    cairo_fill(pen);
    cairo_restore(pen);
}

Box draw_picture(cairo_t* pen, const photos::Picture& picture, const Box& box) {
    const double zoom = std::min(box.width / picture.width, box.height / picture.height);
    const Surface surface(
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height));
    auto* row = cairo_image_surface_get_data(surface.get());
    if (!row) return {box.left, box.top, 0, 0};
    const int stride = cairo_image_surface_get_stride(surface.get());
    const auto* from = picture.rgba.data();
    for (int y = 0; y < picture.height; ++y, row += stride)
        for (int x = 0; x < picture.width; ++x, from += 4) {
            const auto pixel = std::to_integer<unsigned>(from[0]) << 16 |
                               std::to_integer<unsigned>(from[1]) << 8 |
                               std::to_integer<unsigned>(from[2]);
            std::memcpy(row + std::ptrdiff_t(x) * 4, &pixel, 4);
        }
    cairo_surface_mark_dirty(surface.get());
    if (auto jpeg = photos::encode_jpeg(picture)) {
        auto* kept = new std::vector<std::byte>(std::move(*jpeg));
        cairo_surface_set_mime_data(
            surface.get(), CAIRO_MIME_TYPE_JPEG,
            reinterpret_cast<const unsigned char*>(kept->data()), kept->size(),
            [](void* held) { delete static_cast<std::vector<std::byte>*>(held); }, kept);
    }
    cairo_save(pen);
    cairo_translate(pen, box.left, box.top);
    cairo_scale(pen, zoom, zoom);
    cairo_set_source_surface(pen, surface.get(), 0, 0);
    cairo_paint(pen);
    cairo_restore(pen);
    return {box.left, box.top, picture.width * zoom, picture.height * zoom};
}

} // namespace fettle::desk
