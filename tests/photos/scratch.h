// What the photo tests share: a folder that goes away, reference commands, small pictures.
#pragma once

#include "photos/decoder.h"
#include "photos/picture.h"

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace photo_tests {

namespace fs = std::filesystem;
using Bytes = std::vector<std::byte>;

// A fresh folder, removed with everything in it.
class Scratch {
  public:
    Scratch();
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    ~Scratch();
    fs::path operator/(std::string_view name) const { return path_ / name; }
    const fs::path& path() const { return path_; }

  private:
    fs::path path_;
};

// What a shell command prints; the test fails when the command does.
std::string output_of(const std::string& command);
bool succeeds(const std::string& command);
// One word for the shell, whatever is in it.
std::string shell_word(const fs::path& path);

Bytes bytes_of(const fs::path& file);
void write_file(const fs::path& file, std::span<const std::byte> bytes);
void write_file(const fs::path& file, std::string_view text);

// A colourful picture without symmetry, through ImageMagick; `how` holds more of its options.
fs::path make_picture(const fs::path& file, int width, int height, const std::string& how = "");
// Sets one EXIF tag through the exiv2 command.
void set_exif(const fs::path& file, const std::string& key, const std::string& value);

// Pixels by ImageMagick, after `how`, on white.
fettle::photos::Picture reference_pixels(const fs::path& file, const std::string& how = "");
// Mean absolute difference of red, green and blue, 0 to 255; the sizes must be equal.
double mean_difference(const fettle::photos::Picture& a, const fettle::photos::Picture& b);

// The decoder with the real worker.
fettle::photos::Decoder decoder();
// The failure's sentence, or "" when there is none.
template <class T>
std::string sentence_of(const fettle::Result<T>& result) {
    return result ? std::string() : result.failure().sentence;
}

} // namespace photo_tests
