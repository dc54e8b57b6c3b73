#include "photos/scratch.h"

#include "temp_folder.h"

#include <doctest/doctest.h>
#include <sys/wait.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>

namespace photo_tests {
namespace {

struct Ran {
    std::string output;
    int status = -1;
};

Ran run(const std::string& command) {
    Ran ran;
    // ImageMagick's threads wait by spinning, and the tests already run side by side.
    FILE* pipe = popen(("export MAGICK_THREAD_LIMIT=1; " + command).c_str(), "r");
    REQUIRE(pipe != nullptr);
    char chunk[65536];
    for (std::size_t got; (got = fread(chunk, 1, sizeof chunk, pipe)) > 0;)
        ran.output.append(chunk, got);
    ran.status = pclose(pipe);
    return ran;
}

} // namespace

Scratch::Scratch() {
    std::string name = (fs::temp_directory_path() / "fettlebook-photos-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
    fs::permissions(path_, fs::perms(0755));
}

Scratch::~Scratch() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
}

std::string output_of(const std::string& command) {
    CAPTURE(command);
    auto ran = run(command);
    REQUIRE(WIFEXITED(ran.status));
    REQUIRE(WEXITSTATUS(ran.status) == 0);
    return std::move(ran.output);
}

bool succeeds(const std::string& command) {
    return run(command + " 2>/dev/null").status == 0;
}

std::string shell_word(const fs::path& path) {
    std::string word = "'";
    for (char c : path.native()) {
        if (c == '\'')
            word += "'\\''";
        else
            word += c;
    }
    return word + "'";
}

Bytes bytes_of(const fs::path& file) {
    REQUIRE(fs::exists(file));
    const std::string text = file_text(file);
    const auto bytes = std::as_bytes(std::span(text));
    return {bytes.begin(), bytes.end()};
}

void write_file(const fs::path& file, std::span<const std::byte> bytes) {
    std::ofstream stream(file, std::ios::binary);
    stream.write(reinterpret_cast<const char*>(bytes.data()), std::streamsize(bytes.size()));
    REQUIRE(stream.good());
}

void write_file(const fs::path& file, std::string_view text) {
    write_file(file, std::as_bytes(std::span(text)));
}

fs::path make_picture(const fs::path& file, int width, int height, const std::string& how) {
    const auto size = std::to_string(width) + "x" + std::to_string(height);
    output_of("convert -size 90x60 -seed 11 plasma:tomato-steelblue -resize '" + size +
              "!' -fill white -draw 'rectangle 0,0 " + std::to_string(width / 3) + "," +
              std::to_string(height / 4) + "' " + how + " " + shell_word(file));
    return file;
}

void set_exif(const fs::path& file, const std::string& key, const std::string& value) {
    output_of("exiv2 -M" + shell_word("set " + key + " " + value) + " " + shell_word(file));
}

fettle::photos::Picture reference_pixels(const fs::path& file, const std::string& how) {
    // ImageMagick keeps the rows of a TGA as stored unless it is told to turn them.
    const std::string turn = file.extension() == ".tga" ? " -auto-orient " : " ";
    const auto options = turn + how + " -background white -alpha remove -alpha off ";
    const auto source = shell_word(file.native() + "[0]");
    // Sizes and pixels from one and the same stream: a binary PPM.
    const auto ppm = output_of("convert " + source + options + "-colorspace sRGB -depth 8 ppm:-");
    int width = 0, height = 0, start = 0;
    REQUIRE(std::sscanf(ppm.c_str(), "P6 %d %d 255%n", &width, &height, &start) == 2);
    fettle::photos::Picture picture{width, height, {}};
    auto at = std::as_bytes(std::span(ppm)).subspan(std::size_t(start) + 1);
    REQUIRE(at.size() == std::size_t(width) * height * 3);
    for (; !at.empty(); at = at.subspan(3)) {
        picture.rgba.insert(picture.rgba.end(), at.begin(), at.begin() + 3);
        picture.rgba.push_back(std::byte{255});
    }
    return picture;
}

double mean_difference(const fettle::photos::Picture& a, const fettle::photos::Picture& b) {
    REQUIRE(a.size() == b.size());
    REQUIRE(a.rgba.size() == std::size_t(a.width) * a.height * 4);
    REQUIRE(a.rgba.size() == b.rgba.size());
    double sum = 0;
    for (std::size_t at = 0; at < a.rgba.size(); ++at)
        if (at % 4 != 3)
            sum += std::abs(std::to_integer<int>(a.rgba[at]) - std::to_integer<int>(b.rgba[at]));
    return sum / (3.0 * a.width * a.height);
}

fettle::photos::Decoder decoder() {
    // Patient: a busy machine is no failure.
    return fettle::photos::Decoder(FETTLEBOOK_BIN_DIR "/fettlebook-decode",
                                   std::chrono::seconds(250));
}

} // namespace photo_tests
