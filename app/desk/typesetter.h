// Text set in lines by Pango: where they break, which glyphs stand in them, how wide they are. The
// same on paper and on the screen: nothing is rounded to pixels. Millimetres. Knows no notebook.
// One Typesetter is used by one thread.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

using cairo_t = struct _cairo;

namespace fettle::desk {

struct Colour {
    float red = 0, green = 0, blue = 0;
    bool operator==(const Colour&) const = default;
};
// The colours of the window on paper, which is white.
inline constexpr Colour kInk{0x26 / 255.0F, 0x22 / 255.0F, 0x1C / 255.0F};
inline constexpr Colour kPencil{0x66 / 255.0F, 0x5F / 255.0F, 0x53 / 255.0F};
inline constexpr Colour kRule{0xCF / 255.0F, 0xC6 / 255.0F, 0xB4 / 255.0F};
inline constexpr Colour kRedLead{0xA8 / 255.0F, 0x36 / 255.0F, 0x1A / 255.0F};
inline constexpr Colour kBrass{0x7D / 255.0F, 0x5A / 255.0F, 0x10 / 255.0F};
inline constexpr Colour kVerdigris{0x2A / 255.0F, 0x63 / 255.0F, 0x54 / 255.0F};
inline constexpr Colour kBlueSteel{0x35 / 255.0F, 0x55 / 255.0F, 0x73 / 255.0F};

enum class Set { left, right };

struct Type {
    double size = 3.35; // of the em
    double lead = 4.8;  // from line to line
    bool bold = false;
    Colour colour = kInk;
    Set set = Set::left;
    int most = 0; // lines, the last one cut with …; 0: all
    bool operator==(const Type&) const = default;
};

// Bytes `from` to `to` of a text, which is valid UTF-8 then, set apart from the rest of it.
struct Span {
    std::size_t from = 0, to = 0;
    bool strong = false, emphasis = false, code = false;
    std::string leads_to = {}; // an anchor; empty: nowhere
};
using Spans = std::vector<Span>;

class Typesetter {
  public:
    Typesetter();
    ~Typesetter();

    int lines(const std::string& text, const Type& type, double width, const Spans& spans = {});
    double width(std::string_view text, const Type& type); // of one line
    // Lines `first` to `first + count` of the text set in `width`, the first with its top at `top`.
    struct Place {
        double left = 0, top = 0, width = 0;
        int first = 0, count = 1;
    };
    void draw(cairo_t* pen, const std::string& text, const Type& type, const Place& place,
              const Spans& spans = {});
    // Where spans that lead somewhere stand in what is drawn so, a line each.
    struct Led {
        double left = 0, top = 0, width = 0;
        std::string to;
    };
    std::vector<Led> led(const std::string& text, const Type& type, const Place& place,
                         const Spans& spans);

  private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

} // namespace fettle::desk
