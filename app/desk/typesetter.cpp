#include "desk/typesetter.h"

#include "base/text.h"

#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace fettle::desk {
namespace {

// As ui/frame/fonts.cpp: Cabin's figures differ in width, its nought reads as an O.
constexpr std::string_view kFigures = "0123456789°·¼½¾×⁄−≤≥⅛⅜⅝⅞⅓⅔";
constexpr const char* kLetters = "Cabin, DejaVu Sans";
constexpr const char* kFigureFace = "Carlito, DejaVu Sans";
constexpr const char* kCodeFace = "DejaVu Sans Mono";
constexpr double kCodeScale = 0.84; // its small letters are as tall as Cabin's then
constexpr double kMeasuredAt = 10;

template <auto free>
struct FreeBy {
    template <class T>
    void operator()(T* held) const {
        free(held);
    }
};
using FontMap = std::unique_ptr<PangoFontMap, FreeBy<g_object_unref>>;
using Context = std::unique_ptr<PangoContext, FreeBy<g_object_unref>>;
using Layout = std::unique_ptr<PangoLayout, FreeBy<g_object_unref>>;
using Font = std::unique_ptr<PangoFontDescription, FreeBy<pango_font_description_free>>;
using Attributes = std::unique_ptr<PangoAttrList, FreeBy<pango_attr_list_unref>>;

int units(double millimetres) {
    return static_cast<int>(std::lround(millimetres * PANGO_SCALE));
}

guint16 shade(double part) {
    return static_cast<guint16>(std::lround(part * 65535));
}

void insert(PangoAttrList* all, PangoAttribute* attribute, std::size_t from, std::size_t to) {
    attribute->start_index = static_cast<guint>(from);
    attribute->end_index = static_cast<guint>(to);
    pango_attr_list_insert(all, attribute);
}

bool in_code(const Spans& spans, std::size_t at) {
    return std::ranges::any_of(
        spans, [at](const Span& span) { return span.code && span.from <= at && at < span.to; });
}

// Control characters have no place on paper; line ends are kept.
std::string printable(std::string_view text) {
    std::string shown = safe_utf8(text);
    for (char& letter : shown)
        if (static_cast<unsigned char>(letter) < 0x20 && letter != '\n') letter = ' ';
    return shown;
}

std::size_t length_at(std::string_view text, std::size_t at) {
    std::size_t length = 1;
    while (at + length < text.size() &&
           (static_cast<unsigned char>(text[at + length]) & 0xc0) == 0x80)
        ++length;
    return length;
}

} // namespace

struct Typesetter::Inside {
    FontMap fonts{pango_cairo_font_map_new()};
    Context context{pango_font_map_create_context(fonts.get())};
    double figure_scale = 1;
    std::map<std::pair<double, bool>, Font> known;

    Inside() {
        pango_cairo_context_set_resolution(context.get(), 72);
        pango_context_set_round_glyph_positions(context.get(), FALSE);
        auto* options = cairo_font_options_create();
        cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
        cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
        cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
        pango_cairo_context_set_font_options(context.get(), options);
        cairo_font_options_destroy(options);
        const double figures = capitals(kFigureFace);
        figure_scale = figures > 0 ? capitals(kLetters) / figures : 1;
    }

    double capitals(const char* family) {
        const Layout layout(pango_layout_new(context.get()));
        const Font font(pango_font_description_from_string(family));
        pango_font_description_set_absolute_size(font.get(), units(kMeasuredAt));
        pango_layout_set_font_description(layout.get(), font.get());
        pango_layout_set_text(layout.get(), "H", -1);
        PangoRectangle ink;
        pango_layout_get_extents(layout.get(), &ink, nullptr);
        return ink.height;
    }

    const PangoFontDescription* font(const Type& type) {
        auto& held = known[{type.size, type.bold}];
        if (!held) {
            held.reset(pango_font_description_from_string(kLetters));
            pango_font_description_set_absolute_size(held.get(), units(type.size));
            pango_font_description_set_weight(held.get(),
                                              type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        }
        return held.get();
    }

    // Stretches of figures in their own face, at the height of the letters' capitals. Code has its
    // own.
    Attributes figures_in(std::string_view text, const Spans& spans) {
        Attributes all(pango_attr_list_new());
        for (std::size_t at = 0; at < text.size();) {
            std::size_t end = at;
            while (end < text.size()) {
                const auto length = length_at(text, end);
                if (kFigures.find(text.substr(end, length)) == std::string_view::npos) break;
                if (in_code(spans, end)) break;
                end += length;
            }
            if (end == at) {
                at += length_at(text, at);
                continue;
            }
            insert(all.get(), pango_attr_family_new(kFigureFace), at, end);
            insert(all.get(), pango_attr_scale_new(figure_scale), at, end);
            at = end;
        }
        return all;
    }

    Layout set(std::string_view text, const Type& type, double width, const Spans& spans = {}) {
        const std::string shown = printable(text);
        Layout layout(pango_layout_new(context.get()));
        pango_layout_set_font_description(layout.get(), font(type));
        pango_layout_set_text(layout.get(), shown.c_str(), static_cast<int>(shown.size()));
        const Attributes attributes = figures_in(shown, spans);
        for (const Span& span : spans) {
            const auto set_apart = [&](PangoAttribute* attribute) {
                insert(attributes.get(), attribute, span.from, span.to);
            };
            if (span.strong) set_apart(pango_attr_weight_new(PANGO_WEIGHT_BOLD));
            if (span.emphasis) set_apart(pango_attr_style_new(PANGO_STYLE_ITALIC));
            if (span.code) set_apart(pango_attr_family_new(kCodeFace));
            if (span.code) set_apart(pango_attr_scale_new(kCodeScale));
            if (!span.leads_to.empty())
                set_apart(pango_attr_foreground_new(shade(kBlueSteel.red), shade(kBlueSteel.green),
                                                    shade(kBlueSteel.blue)));
        }
        pango_layout_set_attributes(layout.get(), attributes.get());
        if (width < std::numeric_limits<double>::infinity())
            pango_layout_set_width(layout.get(), units(std::max(width, 1.0)));
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
        if (type.most > 0) {
            pango_layout_set_height(layout.get(), -type.most);
            pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
        }
        return layout;
    }
};

Typesetter::Typesetter() : inside_(std::make_unique<Inside>()) {}
Typesetter::~Typesetter() = default;

int Typesetter::lines(const std::string& text, const Type& type, double width, const Spans& spans) {
    const auto layout = inside_->set(text, type, width, spans);
    const int count = pango_layout_get_line_count(layout.get());
    // Pango counts lines a paragraph where they are limited.
    return type.most > 0 ? std::min(count, type.most) : count;
}

double Typesetter::width(std::string_view text, const Type& type) {
    const auto layout = inside_->set(text, type, std::numeric_limits<double>::infinity());
    PangoRectangle logical;
    pango_layout_get_extents(layout.get(), nullptr, &logical);
    return static_cast<double>(logical.width) / PANGO_SCALE;
}

void Typesetter::draw(cairo_t* pen, const std::string& text, const Type& type, const Place& place,
                      const Spans& spans) {
    const auto layout = inside_->set(text, type, place.width, spans);
    cairo_set_source_rgb(pen, type.colour.red, type.colour.green, type.colour.blue);
    double baseline = place.top + type.lead / 2 + type.size * 0.35;
    for (int line = place.first; line < place.first + place.count; ++line) {
        auto* set = pango_layout_get_line_readonly(layout.get(), line);
        if (!set) break;
        double left = place.left;
        if (type.set == Set::right) {
            PangoRectangle logical;
            pango_layout_line_get_extents(set, nullptr, &logical);
            left += place.width - static_cast<double>(logical.width) / PANGO_SCALE;
        }
        cairo_move_to(pen, left, baseline);
        pango_cairo_show_layout_line(pen, set);
        baseline += type.lead;
    }
}

std::vector<Typesetter::Led> Typesetter::led(const std::string& text, const Type& type,
                                             const Place& place, const Spans& spans) {
    std::vector<Led> all;
    const auto layout = inside_->set(text, type, place.width, spans);
    for (int number = 0; number < place.count; ++number) {
        auto* line = pango_layout_get_line_readonly(layout.get(), place.first + number);
        if (!line) break;
        const auto begins = static_cast<std::size_t>(line->start_index);
        const auto ends = begins + static_cast<std::size_t>(line->length);
        for (const Span& span : spans) {
            const auto from = std::max(span.from, begins), to = std::min(span.to, ends);
            if (span.leads_to.empty() || from >= to) continue;
            int left = 0, right = 0;
            pango_layout_line_index_to_x(line, static_cast<int>(from), FALSE, &left);
            pango_layout_line_index_to_x(line, static_cast<int>(to), FALSE, &right);
            all.push_back({place.left + double(std::min(left, right)) / PANGO_SCALE,
                           place.top + number * type.lead,
                           double(std::abs(right - left)) / PANGO_SCALE, span.leads_to});
        }
    }
    return all;
}

} // namespace fettle::desk
