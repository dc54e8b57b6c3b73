// What every PDF of the notebook is made with: pages measured in millimetres from the top left
// corner, text in the window's faces, pictures. A file appears when it is complete.
// Knows no notebook. One Pdf is used by one thread.
#pragma once

#include "base/result.h"
#include "photos/decoder.h"

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

using cairo_t = struct _cairo;

namespace fettle::desk {

class Pdf {
  public:
    Pdf(double width, double height, const std::string& title);
    ~Pdf();
    cairo_t* pen() const; // in millimetres
    void next_page();
    // To be called first, for documents that are too large to be held in memory: from now on what
    // is drawn goes beside `file`, which write() is to be given as well.
    void stream_to(const std::filesystem::path& file);
    // Ends the drawing; `what` is named where it fails (io): "tag cards".
    Done write(const std::filesystem::path& file, const std::string& what);

  private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

enum class Ink { plain, bold };

// Text in Cabin, its figures in Carlito, what both lack in DejaVu Sans, all with capitals of one
// height. Sizes are those of the em, in millimetres.
class Lettering {
  public:
    explicit Lettering(cairo_t* pen) : pen_(pen) {}
    double width(std::string_view text, double size, Ink ink = Ink::plain);
    // From `left` on the baseline; gives the right end.
    double write(double left, double baseline, std::string_view text, double size,
                 Ink ink = Ink::plain);
    std::vector<std::string> wrapped(const std::string& text, double width, int most, double size,
                                     Ink ink = Ink::plain);

  private:
    enum Face { letters, figures, rest };
    struct Run {
        Face face;
        std::string text;
    };
    std::vector<Run> runs_of(std::string_view text);
    Face face_of(const std::string& character);
    void select(Face face, double size, Ink ink);

    cairo_t* pen_;
    std::map<std::string, Face> known_;
    std::map<int, double> scales_; // of the faces to the first, by face and ink
};

// The text in lines that fit, the last one cut with … where there are more than `most`.
std::vector<std::string> wrapped(const std::string& text, double width, int most,
                                 const std::function<double(const std::string&)>& width_of);

struct Box {
    double left = 0, top = 0, width = 0, height = 0;
};
// The JPEG as it is coded, filling the box. `name` is its own in the document: what was drawn under
// it before is not written once more.
void draw_jpeg(cairo_t* pen, const photos::JpegCopy& copy, const Box& box, const std::string& name);
// As large as the box allows, in its top left corner; gives the area covered. The picture is kept
// as JPEG and holds nothing but its pixels.
Box draw_picture(cairo_t* pen, const photos::Picture& picture, const Box& box);

} // namespace fettle::desk
