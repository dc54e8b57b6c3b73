#include "desk/book_draw.h"

#include <cairo-pdf.h>
#include <cairo.h>

#include <algorithm>
#include <array>

namespace fettle::desk {
namespace {

constexpr double kPoint = 72 / 25.4;
constexpr std::array kSeries = {kRedLead, kVerdigris, kBlueSteel, kBrass};
constexpr Colour kFaint{0xE4 / 255.0F, 0xDD / 255.0F, 0xCF / 255.0F};

Colour colour_of(int series) {
    if (series == calc::kGrid) return kFaint;
    if (series == calc::kFrame) return kPencil;
    return kSeries[static_cast<std::size_t>(series) % kSeries.size()];
}

void use(cairo_t* pen, const Colour& colour) {
    cairo_set_source_rgb(pen, colour.red, colour.green, colour.blue);
}

// While it lives, what is drawn belongs to this element of the document's structure.
class Tagged {
  public:
    Tagged(cairo_t* pen, std::string name, const std::string& attributes = {})
        : pen_(pen), name_(std::move(name)) {
        if (!name_.empty()) cairo_tag_begin(pen_, name_.c_str(), attributes.c_str());
    }
    ~Tagged() {
        if (!name_.empty()) cairo_tag_end(pen_, name_.c_str());
    }
    Tagged(const Tagged&) = delete;
    Tagged& operator=(const Tagged&) = delete;

  private:
    cairo_t* pen_;
    std::string name_;
};

void draw_stroke(cairo_t* pen, const calc::PlotStroke& stroke) {
    use(pen, colour_of(stroke.series));
    if (stroke.look == calc::Look::dots) {
        for (const auto& at : stroke.points) {
            cairo_new_sub_path(pen);
            cairo_arc(pen, at.x, at.y, 3.2, 0, 6.2831853);
        }
        cairo_fill(pen);
        return;
    }
    const bool thin = stroke.series < 0 || stroke.look == calc::Look::body;
    cairo_set_line_width(pen, thin ? 0.9 : 1.8);
    const double dashes[] = {6, 4};
    if (stroke.look == calc::Look::dashed) cairo_set_dash(pen, dashes, 2, 0);
    cairo_new_path(pen);
    for (const auto& at : stroke.points)
        cairo_line_to(pen, at.x, at.y);
    if (stroke.look == calc::Look::body) cairo_close_path(pen);
    cairo_stroke(pen);
    cairo_set_dash(pen, nullptr, 0, 0);
}

void draw_chart(cairo_t* pen, const ChartAt& chart, Typesetter& types) {
    const Tagged tagged(pen, "Figure");
    cairo_save(pen);
    cairo_translate(pen, chart.box.left, chart.box.top);
    cairo_scale(pen, 1 / chart.units, 1 / chart.units);
    cairo_set_line_join(pen, CAIRO_LINE_JOIN_ROUND);
    for (const auto& fill : chart.plot->fills) {
        use(pen, colour_of(fill.series));
        cairo_rectangle(pen, fill.area.left, fill.area.top, fill.area.right - fill.area.left,
                        fill.area.bottom - fill.area.top);
        cairo_fill(pen);
    }
    for (const auto& stroke : chart.plot->strokes)
        draw_stroke(pen, stroke);
    for (const auto& text : chart.plot->texts) {
        const Type type{.size = chart.text_height,
                        .lead = chart.text_height * 1.2,
                        .colour = text.series >= 0 ? colour_of(text.series) : kInk};
        const double width = types.width(text.text, type);
        double left = text.at.x;
        if (text.align == calc::Align::centre) left -= width / 2;
        if (text.align == calc::Align::right) left -= width;
        types.draw(pen, text.text, type, {left, text.at.y - type.lead / 2, width + 1, 0, 1});
    }
    cairo_restore(pen);
}

void draw_rule(cairo_t* pen, const RuleAt& rule) {
    use(pen, rule.colour);
    cairo_set_line_width(pen, rule.strength);
    cairo_move_to(pen, rule.left, rule.top);
    cairo_line_to(pen, rule.right, rule.bottom);
    cairo_stroke(pen);
}

struct Drawer {
    cairo_t* pen;
    Typesetter& types;
    const PhotoPen& photo_pen;

    void operator()(const TextAt& text) const {
        const Tagged link(pen, text.leads_to ? CAIRO_TAG_LINK : "",
                          text.leads_to ? "dest='" + *text.leads_to + "'" : "");
        const Tagged tagged(pen, std::string(text.leads_to ? "" : text.tag));
        types.draw(pen, *text.text, text.type, text.place, text.spans ? *text.spans : Spans());
        if (text.spans) draw_links(text);
    }
    void operator()(const PhotoAt& photo) const {
        const Tagged tagged(pen, "Figure");
        photo_pen(pen, photo);
    }
    void operator()(const ChartAt& chart) const { draw_chart(pen, chart, types); }
    void operator()(const RuleAt& rule) const { draw_rule(pen, rule); }

    void draw_links(const TextAt& text) const {
        for (const auto& led : types.led(*text.text, text.type, text.place, *text.spans)) {
            const std::array box = {led.left, led.top, led.width, text.type.lead};
            std::string rect;
            for (const double side : box)
                rect += (rect.empty() ? "" : " ") + std::to_string(side * kPoint);
            const Tagged link(pen, CAIRO_TAG_LINK, "dest='" + led.to + "' rect=[" + rect + "]");
        }
    }
};

} // namespace

void draw_page(cairo_t* pen, const BookPage& page, Typesetter& types, const PhotoPen& photo) {
    for (const auto& anchor : page.anchors) {
        const std::string named = "name='" + anchor.name + "' x=0 y=" +
                                  std::to_string(static_cast<int>(anchor.top * kPoint));
        const Tagged here(pen, CAIRO_TAG_DEST, named);
    }
    for (const auto& placed : page.placed)
        std::visit(Drawer{pen, types, photo}, placed);
}

Box within(const Box& box, double width, double height) {
    if (width <= 0 || height <= 0) return box;
    const double zoom = std::min(box.width / width, box.height / height);
    return {box.left + (box.width - width * zoom) / 2, box.top + (box.height - height * zoom) / 2,
            width * zoom, height * zoom};
}

void draw_missing(cairo_t* pen, const Box& box, const std::string& said, Typesetter& types) {
    use(pen, kRule);
    cairo_set_line_width(pen, 0.15);
    cairo_rectangle(pen, box.left, box.top, box.width, box.height);
    cairo_stroke(pen);
    const Type type{.size = 2.8, .lead = 3.6, .colour = kPencil, .most = 4};
    const double width = std::max(box.width - 4, 1.0);
    types.draw(pen, said, type,
               {box.left + 2, box.top + 2, width, 0, types.lines(said, type, width)});
}

} // namespace fettle::desk
