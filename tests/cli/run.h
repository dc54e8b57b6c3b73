// The real program as a child process, and small files for it to work on.
#pragma once

#include "temp_folder.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace cli_tests {

namespace fs = std::filesystem;
using nlohmann::json;

struct Ran {
    int code = -1;
    std::string out;
    std::string err;

    json parsed() const { return json::parse(out); }
    // Exactly one sentence: one line that ends with a full stop.
    bool one_sentence() const {
        return err.size() > 2 && err.find('\n') == err.size() - 1 && err[err.size() - 2] == '.';
    }
};

inline bool holds(const std::string& text, const std::string& piece) {
    return text.find(piece) != std::string::npos;
}

// One word for the shell, whatever is in it.
std::string shell_word(const std::string& word);
// Runs a shell command; the test stops when it fails.
std::string output_of(const std::string& command);

// Runs `fettlebook` with these arguments in `folder`, without $FETTLEBOOK and without the user's
// own plugins.
Ran run(const fs::path& folder, const std::vector<std::string>& arguments,
        const std::string& input = {}, const std::string& environment = {});

// Pictures by ImageMagick and exiv2. `taken` as EXIF writes it: "2026:03:07 19:42:05".
void make_picture(const fs::path& file, int seed, const std::string& taken = {});
// A position of the first vehicle, of which two are needed.
void add_position(const fs::path& book, const std::string& number, const std::string& name);
// A PNG whose header, with a right checksum, claims 100000 by 100000 pixels.
void make_giant_png(const fs::path& file);

// A notebook in DIR/book with one vehicle, in a folder of the test's own.
struct Bench {
    TempFolder folder;
    fs::path book = folder / "book";

    Bench();
    Ran operator()(const std::vector<std::string>& arguments, const std::string& input = {}) const;
    // The same with --json; the test stops unless it exits 0 with JSON.
    json answer(std::vector<std::string> arguments) const;
    // Checks that it is refused in one sentence that holds these words, and changes nothing; gives
    // what stood on standard error.
    std::string refused(const std::vector<std::string>& arguments,
                        const std::string& holding = {}) const;
    // A photo of 320 by 240 pixels, taken in; gives its number.
    std::string photo(const std::string& name, int seed) const;
    // Everything the notebook holds, as text: the database and the files beside it.
    std::string dump() const;
};

} // namespace cli_tests
