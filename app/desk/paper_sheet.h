// A4 pages filled from the top: headings, facts, paragraphs, photos, with page breaks where the
// room ends and page numbers at the foot. Knows no notebook. Measures in millimetres.
#pragma once

#include "desk/pdf.h"
#include "photos/decoder.h"

#include <optional>

namespace fettle::desk {

class PaperSheet {
  public:
    PaperSheet(const std::string& title, std::string foot);

    static constexpr double kLeft = 18, kWidth = 174, kBody = 3.9, kSmall = 3.2, kLine = 5.2;

    double y() const { return y_; }
    void down(double by) { y_ += by; }
    // Goes on to a new page where less than this is left on it.
    void need(double height);
    bool at_top() const { return y_ <= kTop; }
    void next_page();

    void heading(const std::string& text);
    // `with`: what must find room on the page below it.
    void section(const std::string& text, double with = 12);
    void rule(double strength = 0.15);
    // A label and what it says; left out when that is empty.
    void fact(const std::string& label, const std::string& says);
    void paragraph(const std::string& text, double size = kBody);

    struct Place {
        double left = 0, baseline = 0, width = 0;
    };
    // Text in a place, wrapped into so many lines; gives how far down it went.
    double text(const Place& place, const std::string& said, double size = kBody,
                Ink ink = Ink::plain, int most = 1);
    void text_to_right(double right, double baseline, const std::string& said, double size = kBody,
                       Ink ink = Ink::plain);
    void box(const Box& box); // a thin frame
    // The photo, or a frame with the words that it cannot be read.
    void photo(photos::Decoder& decoder, const std::filesystem::path& file, const std::string& name,
               const Box& box);

    Result<int> write(const std::filesystem::path& file, const std::string& what);

  private:
    static constexpr double kTop = 18, kFoot = 279, kPageHeight = 297;
    void draw_foot();
    void grey(double light);

    Pdf pdf_;
    Lettering letters_;
    std::string foot_;
    double y_ = kTop;
    int page_ = 1;
};

} // namespace fettle::desk
