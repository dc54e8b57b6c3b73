#include "desk/paper_sheet.h"

#include <cairo.h>

#include <algorithm>

namespace fettle::desk {
namespace {

constexpr double kHeading = 7, kSection = 4.8, kFactColumn = 34;
constexpr double kDotsPerMillimetre = 8; // of photos: about 200 to the inch

} // namespace

PaperSheet::PaperSheet(const std::string& title, std::string foot)
    : pdf_(210, kPageHeight, title), letters_(pdf_.pen()), foot_(std::move(foot)) {}

void PaperSheet::grey(double light) {
    cairo_set_source_rgb(pdf_.pen(), light, light, light);
}

void PaperSheet::draw_foot() {
    grey(0.35);
    const double baseline = kPageHeight - 11;
    letters_.write(kLeft, baseline, foot_, kSmall);
    const std::string number = "page " + std::to_string(page_);
    letters_.write(kLeft + kWidth - letters_.width(number, kSmall), baseline, number, kSmall);
    grey(0);
}

void PaperSheet::next_page() {
    draw_foot();
    pdf_.next_page();
    ++page_;
    y_ = kTop;
}

void PaperSheet::need(double height) {
    if (!at_top() && y_ + height > kFoot) next_page();
}

void PaperSheet::heading(const std::string& said) {
    grey(0);
    letters_.write(kLeft, y_ + kHeading * 0.75, said, kHeading, Ink::bold);
    y_ += kHeading * 1.25;
    rule(0.4);
    y_ += 2;
}

void PaperSheet::section(const std::string& said, double with) {
    need(14 + with);
    y_ += 5;
    letters_.write(kLeft, y_ + kSection * 0.8, said, kSection, Ink::bold);
    y_ += kSection * 1.35;
    rule();
    y_ += 2;
}

void PaperSheet::rule(double strength) {
    grey(strength > 0.2 ? 0 : 0.6);
    cairo_set_line_width(pdf_.pen(), strength);
    cairo_move_to(pdf_.pen(), kLeft, y_);
    cairo_line_to(pdf_.pen(), kLeft + kWidth, y_);
    cairo_stroke(pdf_.pen());
    grey(0);
}

void PaperSheet::fact(const std::string& label, const std::string& says) {
    if (says.empty()) return;
    need(2 * kLine);
    grey(0.35);
    letters_.write(kLeft, y_ + kBody, label, kBody);
    grey(0);
    y_ += text({kLeft + kFactColumn, y_ + kBody, kWidth - kFactColumn}, says, kBody, Ink::plain, 4);
}

void PaperSheet::paragraph(const std::string& said, double size) {
    for (const auto& line : letters_.wrapped(said, kWidth, 60, size)) {
        need(kLine);
        letters_.write(kLeft, y_ + size, line, size);
        y_ += size * 1.35;
    }
}

double PaperSheet::text(const Place& place, const std::string& said, double size, Ink ink,
                        int most) {
    double baseline = place.baseline;
    for (const auto& line : letters_.wrapped(said, place.width, most, size, ink)) {
        letters_.write(place.left, baseline, line, size, ink);
        baseline += size * 1.35;
    }
    return baseline - place.baseline;
}

void PaperSheet::text_to_right(double right, double baseline, const std::string& said, double size,
                               Ink ink) {
    letters_.write(right - letters_.width(said, size, ink), baseline, said, size, ink);
}

void PaperSheet::box(const Box& box) {
    grey(0.6);
    cairo_set_line_width(pdf_.pen(), 0.15);
    cairo_rectangle(pdf_.pen(), box.left, box.top, box.width, box.height);
    cairo_stroke(pdf_.pen());
    grey(0);
}

void PaperSheet::photo(photos::Decoder& decoder, const std::filesystem::path& file,
                       const std::string& name, const Box& area) {
    const int side = static_cast<int>(std::max(area.width, area.height) * kDotsPerMillimetre);
    auto picture = decoder.picture(file, side);
    if (picture && picture->width > 0 && picture->height > 0) {
        draw_picture(pdf_.pen(), *picture, area);
        return;
    }
    box(area);
    text({area.left + 2, area.top + 2 + kSmall, area.width - 4}, name + " cannot be read", kSmall,
         Ink::plain, 3);
}

Result<int> PaperSheet::write(const std::filesystem::path& file, const std::string& what) {
    draw_foot();
    if (auto written = pdf_.write(file, what); !written) return written.failure();
    return page_;
}

} // namespace fettle::desk
