#include "photos/find_pictures.h"
#include "photos/scratch.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace photo_tests;
using fettle::photos::find_pictures;

namespace {

void touch(const fs::path& file) {
    fs::create_directories(file.parent_path());
    write_file(file, std::string_view("x"));
}

std::vector<std::string> names(const Scratch& scratch, const std::vector<fs::path>& files) {
    std::vector<std::string> names;
    for (const auto& file : files)
        names.push_back(file.lexically_relative(scratch.path()).string());
    return names;
}

using Names = std::vector<std::string>;

} // namespace

TEST_CASE("pictures are found by extension in all subfolders, sorted, without hidden and cache") {
    Scratch scratch;
    for (const char* file : {"b.JPG",       "a.jpeg",          "c.jpe",       "d.png",
                             "e.bmp",       "f.TGA",           "g.gif",       "notes.txt",
                             "jpg",         "h.heic",          "i.HEIF",      "j.hif",
                             "k.webp",      "l.TIF",           "m.tiff",      "n.mpo",
                             "o.avif",      "p.heics",         ".hidden.jpg", ".secret/a.jpg",
                             "cache/a.jpg", "sub/cache/a.jpg", "sub/z.jpg",   "sub/deep/y.jpg",
                             "cache.jpg",   "caf\xe9.jpg"})
        touch(scratch / file);
    const auto found = find_pictures({scratch.path()});
    CHECK(names(scratch, found.files) ==
          Names{"a.jpeg", "b.JPG", "c.jpe", "cache.jpg", "caf\xe9.jpg", "d.png", "e.bmp", "f.TGA",
                "g.gif", "h.heic", "i.HEIF", "j.hif", "k.webp", "l.TIF", "m.tiff", "n.mpo",
                "o.avif", "sub/deep/y.jpg", "sub/z.jpg"});
    CHECK(found.unreadable.empty());
}

TEST_CASE(
    "a file named outright is taken whatever it is called, a named cache folder is searched") {
    Scratch scratch;
    for (const char* file : {"scan", ".hidden.jpg", "cache/a.jpg"})
        touch(scratch / file);
    const auto found =
        find_pictures({scratch / "scan", scratch / ".hidden.jpg", scratch / "cache"});
    CHECK(names(scratch, found.files) == Names{"scan", ".hidden.jpg", "cache/a.jpg"});
}

TEST_CASE(
    "linked folders are entered once, circles end, broken links and missing paths are named") {
    Scratch scratch;
    touch(scratch / "real/a.jpg");
    fs::create_directory_symlink(scratch / "real", scratch / "again");
    fs::create_directory_symlink(scratch.path(), scratch / "real/up");
    fs::create_symlink(scratch / "real/a.jpg", scratch / "linked.jpg");
    fs::create_symlink(scratch / "nowhere.jpg", scratch / "broken.jpg");
    fs::create_symlink(scratch / "circle.jpg", scratch / "circle.jpg");
    const auto found = find_pictures({scratch.path(), scratch / "missing"});
    CHECK(names(scratch, found.files) == Names{"again/a.jpg", "linked.jpg"});
    std::vector<std::string> sentences;
    for (const auto& [path, failure] : found.unreadable)
        sentences.push_back(failure.sentence);
    CHECK(sentences == Names{"broken.jpg cannot be taken in: No such file or directory.",
                             "circle.jpg is a link that leads in a circle.",
                             "missing cannot be taken in: No such file or directory."});
}
