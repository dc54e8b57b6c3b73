#include "desk/book_pdf.h"

#include "base/date.h"
#include "desk/book_draw.h"
#include "desk/photo_copies.h"

#include <cairo-pdf.h>
#include <cairo.h>

#include <cmath>
#include <cstring>
#include <set>

namespace fettle::desk {
namespace {

constexpr double kPoint = 72 / 25.4;

std::string name_of(const PhotoAt& photo) {
    std::string name = "photo " + std::to_string(photo.photo.value);
    if (photo.part)
        for (const int side : {photo.part->x, photo.part->y, photo.part->w, photo.part->h})
            name += " " + std::to_string(side);
    return name;
}

// The photos of the pages in their order, each once.
std::vector<PhotoAt> photos_in(const BookLayout& layout) {
    std::vector<PhotoAt> photos;
    std::set<std::string> known;
    for (const auto& page : layout.pages)
        for (const auto& placed : page.placed)
            if (const auto* photo = std::get_if<PhotoAt>(&placed))
                if (known.insert(name_of(*photo)).second) photos.push_back(*photo);
    return photos;
}

CopyWish wish_for(const BookContent& content, const PhotoAt& photo, int longest_side) {
    const auto found = content.photos.find(photo.photo);
    return {found == content.photos.end() ? std::filesystem::path() : found->second.file,
            longest_side, photo.part};
}

std::string missing_words(const PhotoAt& photo) {
    return "photo " + std::to_string(photo.photo.value) + " cannot be read";
}

// Draws photos into the PDF, each written once, in the order they come.
class PdfPhotos {
  public:
    PdfPhotos(const BookContent& content, const std::vector<PhotoAt>& photos,
              const BookFileWish& wish, Typesetter& types, BookFileReport& report)
        : copies_(wishes_for(content, photos, wish.photo_size)), types_(types), report_(report) {}

    void draw(cairo_t* pen, const PhotoAt& photo) {
        const auto name = name_of(photo);
        auto known = sizes_.find(name);
        if (known == sizes_.end()) {
            auto copy = copies_.next();
            if (copy) {
                ++report_.photos;
                draw_jpeg(pen, *copy, within(photo.box, copy->size.width, copy->size.height), name);
                sizes_.emplace(name, copy->size);
                return;
            }
            report_.unreadable.push_back(copy.failure().sentence);
            known = sizes_.emplace(name, photos::Size{}).first;
        }
        const auto [width, height] = known->second;
        if (width == 0)
            draw_missing(pen, photo.box, missing_words(photo), types_);
        else
            draw_jpeg(pen, {known->second, {}}, within(photo.box, width, height), name);
    }

  private:
    static std::vector<CopyWish> wishes_for(const BookContent& content,
                                            const std::vector<PhotoAt>& photos, int longest_side) {
        std::vector<CopyWish> wishes;
        for (const auto& photo : photos)
            wishes.push_back(wish_for(content, photo, longest_side));
        return wishes;
    }

    PhotoCopies copies_;
    std::map<std::string, photos::Size> sizes_; // of those drawn; 0 by 0: cannot be read
    Typesetter& types_;
    BookFileReport& report_;
};

void add_information(cairo_surface_t* surface, const BookLayout& layout) {
    const auto set = [surface](cairo_pdf_metadata_t which, const std::string& text) {
        cairo_pdf_surface_set_metadata(surface, which, text.c_str());
    };
    set(CAIRO_PDF_METADATA_SUBJECT, layout.subject);
    set(CAIRO_PDF_METADATA_CREATOR, "Fettlebook");
    set(CAIRO_PDF_METADATA_CREATE_DATE, to_iso(now()).substr(0, 19));
}

void add_bookmarks(cairo_surface_t* surface, const BookLayout& layout) {
    int chapter = CAIRO_PDF_OUTLINE_ROOT;
    for (const auto& mark : layout.bookmarks) {
        const std::string at = "page=" + std::to_string(mark.page + 1) + " pos=[0 " +
                               std::to_string(static_cast<int>(mark.top * kPoint)) + "]";
        const bool top = mark.level == 1;
        const int made = cairo_pdf_surface_add_outline(
            surface, top ? CAIRO_PDF_OUTLINE_ROOT : chapter, mark.title.c_str(), at.c_str(),
            top ? CAIRO_PDF_OUTLINE_FLAG_BOLD : static_cast<cairo_pdf_outline_flags_t>(0));
        if (top) chapter = made;
    }
}

} // namespace

Result<BookFileReport> write_book_pdf(const BookContent& content, const std::filesystem::path& file,
                                      const BookFileWish& wish) {
    Typesetter types;
    const auto layout = lay_out(content, types);
    BookFileReport report;
    report.pages = layout.pages.size();
    const auto photos = photos_in(layout);
    Pdf pdf(grid::kPageWidth, grid::kPageHeight, layout.title);
    pdf.stream_to(file);
    auto* surface = cairo_get_target(pdf.pen());
    add_information(surface, layout);
    PdfPhotos pens(content, photos, wish, types, report);
    std::size_t page_number = 0;
    for (const auto& page : layout.pages) {
        if (wish.progress) wish.progress(page_number, layout.pages.size(), "pages");
        bool stopped = false;
        draw_page(pdf.pen(), page, types, [&](cairo_t* pen, const PhotoAt& photo) {
            stopped = stopped || wish.stop.stop_requested();
            if (!stopped) pens.draw(pen, photo);
        });
        if (stopped || wish.stop.stop_requested())
            return Failure{FailureKind::cancelled, "The book was stopped; nothing was written."};
        ++page_number;
        pdf.next_page();
    }
    add_bookmarks(surface, layout);
    if (auto written = pdf.write(file, "book"); !written) return written.failure();
    if (wish.progress) wish.progress(page_number, layout.pages.size(), "pages");
    return report;
}

Result<photos::Picture> picture_of_page(const BookContent& content, const BookPage& page,
                                        int height, Typesetter& types, photos::Decoder& decoder) {
    const double dots = height / grid::kPageHeight;
    const int width = static_cast<int>(std::lround(grid::kPageWidth * dots));
    auto* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    auto* pen = cairo_create(surface);
    cairo_set_source_rgb(pen, 1, 1, 1);
    cairo_paint(pen);
    cairo_scale(pen, dots, dots);
    draw_page(pen, page, types, [&](cairo_t*, const PhotoAt& photo) {
        const auto wish = wish_for(
            content, photo, static_cast<int>(std::max(photo.box.width, photo.box.height) * dots));
        Result<photos::Picture> picture = Failure{};
        if (photo.part) {
            const auto& part = *photo.part;
            const double scale =
                std::min(1.0, wish.longest_side / double(std::max(part.w, part.h)));
            picture = decoder.region(wish.file, {part.x, part.y, part.w, part.h, scale});
        } else {
            picture = decoder.picture(wish.file, wish.longest_side);
        }
        if (picture)
            draw_picture(pen, *picture, within(photo.box, picture->width, picture->height));
        else
            draw_missing(pen, photo.box, missing_words(photo), types);
    });
    cairo_destroy(pen);
    cairo_surface_flush(surface);
    photos::Picture drawn{width, height, std::vector<std::byte>(std::size_t(width) * height * 4)};
    const auto* from = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    auto* to = drawn.rgba.data();
    for (int y = 0; from && y < height; ++y)
        for (int x = 0; x < width; ++x, to += 4) {
            std::uint32_t pixel = 0;
            std::memcpy(&pixel, from + std::ptrdiff_t(y) * stride + std::ptrdiff_t(x) * 4, 4);
            to[0] = std::byte(pixel >> 16 & 255);
            to[1] = std::byte(pixel >> 8 & 255);
            to[2] = std::byte(pixel & 255);
            to[3] = std::byte(255);
        }
    const bool whole = from != nullptr;
    cairo_surface_destroy(surface);
    if (!whole) return Failure{FailureKind::io, "The page cannot be drawn."};
    return drawn;
}

} // namespace fettle::desk
