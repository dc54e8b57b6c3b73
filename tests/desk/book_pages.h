// What the tests of the book share: a notebook with photos that are files, commands that read what
// was written, and a browser.
#pragma once

#include "base/command.h"
#include "base/text.h"
#include "desk/book.h"
#include "notebook/fixture.h"

namespace fettle::test {

namespace fs = std::filesystem;

inline std::string quoted_path(const fs::path& path) {
    return "'" + path.string() + "'";
}

struct BookDesk : Desk {
    // A photo with a place and a camera in its EXIF; `drawn` is a source of ImageMagick's.
    PhotoId shot(const std::string& name, const std::string& drawn, int width = 1600,
                 int height = 1200) {
        const fs::path file = folder / "book/photos" / name;
        fs::create_directories(file.parent_path());
        REQUIRE(output_of("convert -size " + std::to_string(width) + "x" + std::to_string(height) +
                          " " + drawn + " -sampling-factor 4:2:0 " + quoted_path(file)) == "");
        REQUIRE(
            output_of("exiv2 -M 'set Exif.GPSInfo.GPSLatitude 54/1 2/1 30/1' -M 'set "
                      "Exif.GPSInfo.GPSLatitudeRef N' -M 'set Exif.Image.Model Wharnscope P4' " +
                      quoted_path(file)) == "");
        Photo fresh;
        char hash[33];
        std::snprintf(hash, sizeof hash, "%032zx", std::hash<std::string>()(name));
        fresh.hash = hash;
        fresh.file = "photos/" + name;
        fresh.original_name = name;
        fresh.format = "JPEG";
        fresh.width = width;
        fresh.height = height;
        fresh.taken = must(parse_moment("2026-03-07T10:00:00"));
        return must(add_photo(book, fresh));
    }
    EntryId entry_with(const std::string& day, const std::string& text,
                       std::vector<PhotoAtStage> photos, std::vector<PartId> parts = {}) {
        return must(write_entry(book, {.day = must(parse_day(day)),
                                       .hours = 2,
                                       .text = text,
                                       .parts = std::move(parts),
                                       .photos = std::move(photos)}));
    }
    // The same text wherever one can be typed: a part, its note, a mark, an entry.
    void fill_with(const std::string& text, const std::string& photo_name,
                   const std::string& entry_text) {
        auto typed = part("H7", text);
        typed.note = text;
        must(set_part(book, typed));
        const auto id = shot(photo_name, "xc:red");
        must(keep_mark(book, {.photo = id,
                              .region = {10, 10, 200, 100},
                              .reading = text,
                              .maker = text,
                              .part = typed.id}));
        entry_with("2026-03-07", entry_text, {{id, Stage::before}}, {typed.id});
    }
};

} // namespace fettle::test
