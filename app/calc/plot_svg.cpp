#include "calc/plot_svg.h"

#include <array>
#include <cstdio>

namespace fettle::calc {
namespace {

constexpr double kWidth = 640, kHeight = 300, kText = 13;
constexpr double kLetter = 0.56; // of the text height: the mean width of a sans-serif letter

// Readable on white; the same order as on the screen.
constexpr std::array kSeriesColours = {"#A8361A", "#2A6354", "#355573", "#7D5A10"};

const char* colour_of(int series) {
    if (series == kGrid) return "#E4DDCF";
    if (series == kFrame) return "#665F53";
    return kSeriesColours[static_cast<std::size_t>(series) % kSeriesColours.size()];
}

std::string number(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", value);
    return text;
}

std::string escaped(const std::string& text) {
    std::string safe;
    for (const char c : text) {
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else if (c == '>')
            safe += "&gt;";
        else
            safe += c;
    }
    return safe;
}

std::string dots_svg(const PlotStroke& stroke) {
    std::string all;
    for (const PlotPoint& at : stroke.points)
        all += "<circle cx=\"" + number(at.x) + "\" cy=\"" + number(at.y) + "\" r=\"3.5\" fill=\"" +
               colour_of(stroke.series) + "\"/>\n";
    return all;
}

std::string stroke_svg(const PlotStroke& stroke) {
    if (stroke.look == Look::dots) return dots_svg(stroke);
    std::string points;
    for (const PlotPoint& at : stroke.points)
        points += number(at.x) + "," + number(at.y) + " ";
    const bool thin = stroke.series < 0 || stroke.look == Look::body;
    return std::string(stroke.look == Look::body ? "<polygon" : "<polyline") + " points=\"" +
           points + "\" fill=\"none\" stroke=\"" + colour_of(stroke.series) + "\" stroke-width=\"" +
           (thin ? "1" : "2") + "\"" +
           (stroke.look == Look::dashed ? " stroke-dasharray=\"6 4\"" : "") + "/>\n";
}

std::string fill_svg(const PlotFill& fill) {
    const PlotFrame& area = fill.area;
    return "<rect x=\"" + number(area.left) + "\" y=\"" + number(area.top) + "\" width=\"" +
           number(area.right - area.left) + "\" height=\"" + number(area.bottom - area.top) +
           "\" fill=\"" + colour_of(fill.series) + "\"/>\n";
}

std::string text_svg(const PlotText& text) {
    const char* anchor = text.align == Align::left    ? "start"
                         : text.align == Align::right ? "end"
                                                      : "middle";
    return "<text x=\"" + number(text.at.x) + "\" y=\"" + number(text.at.y + kText * 0.35) +
           "\" text-anchor=\"" + anchor + "\" fill=\"" +
           (text.series >= 0 ? colour_of(text.series) : "#26221C") + "\">" + escaped(text.text) +
           "</text>\n";
}

std::size_t letters_in(std::string_view text) {
    std::size_t letters = 0;
    for (const char c : text)
        letters += (static_cast<unsigned char>(c) & 0xC0) != 0x80 ? 1 : 0;
    return letters;
}

std::string svg_of(const Drawn& chart, std::string_view name_space) {
    const PlotSheet sheet{kWidth, kHeight, kText, [](std::string_view text) {
                              return static_cast<double>(letters_in(text)) * kText * kLetter;
                          }};
    const LaidOut laid = lay_out(chart, sheet);
    const double title = kText * 2, margin = 8;
    std::string svg = "<svg" + std::string(name_space) + " viewBox=\"" + number(-margin) + " " +
                      number(-margin - title) + " " + number(kWidth + 2 * margin) + " " +
                      number(laid.height + title + 2 * margin) +
                      "\" style=\"font: 13px sans-serif\">\n<title>" + escaped(label_of(chart)) +
                      "</title>\n" +
                      text_svg({{0, -title / 2}, label_of(chart), Align::left, kFrame});
    for (const PlotFill& fill : laid.plot.fills)
        svg += fill_svg(fill);
    for (const PlotStroke& stroke : laid.plot.strokes)
        svg += stroke_svg(stroke);
    for (const PlotText& text : laid.plot.texts)
        svg += text_svg(text);
    return svg + "</svg>\n";
}

} // namespace

std::string chart_svg(const Drawn& chart) {
    return svg_of(chart, " xmlns=\"http://www.w3.org/2000/svg\"");
}

std::string chart_in_html(const Drawn& chart) {
    return svg_of(chart, "");
}

} // namespace fettle::calc
