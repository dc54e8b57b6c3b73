#include "ui/workshop.h"

#include <sys/wait.h>

#include <cstdio>

namespace fettle::ui::testing {

std::string output_of(const std::string& command) {
    CAPTURE(command);
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string output;
    char chunk[4096];
    for (std::size_t got; (got = fread(chunk, 1, sizeof chunk, pipe)) > 0;)
        output.append(chunk, got);
    const int status = pclose(pipe);
    REQUIRE(WIFEXITED(status));
    REQUIRE(WEXITSTATUS(status) == 0);
    return output;
}

void run(const std::string& command) {
    (void)output_of(command);
}

PhotoId Workshop::real_photo(const std::string& name, int width, int height,
                             const std::string& taken, int orientation, const std::string& paint) {
    const auto file = folder / name;
    run("convert -size " + std::to_string(width) + "x" + std::to_string(height) + " -seed " +
        std::to_string(std::hash<std::string>()(name) % 1000) + " plasma:tomato-steelblue " +
        paint + " -quality 95 '" + file.string() + "'");
    run("exiv2 -M'set Exif.Photo.DateTimeOriginal " + taken + "' -M'set Exif.Image.Orientation " +
        std::to_string(orientation) + "' '" + file.string() + "'");
    const auto report = must(desk::take_in(book, {.paths = {file}, .workers = 1}));
    REQUIRE(report.taken.size() == 1);
    return report.taken.front();
}

Driver Workshop::drive(const std::function<void(Page&)>& draw) {
    return Driver(stage, [this, draw](Page& page) {
        waits_for_pixels ? pixels.settle() : pixels.receive();
        draw(page);
    });
}

void drag_from(Headless& stage, Driver& driver, PointerMove from, PointerMove to) {
    stage.input().push(from);
    driver.drain();
    stage.input().push(PointerButton{0, true});
    for (int i = 1; i <= 4; ++i) {
        const float share = static_cast<float>(i) / 4;
        stage.input().push(
            PointerMove{from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share});
        driver.drain();
    }
    stage.input().push(PointerButton{0, false});
    driver.drain();
}

void click_with(Headless& stage, Driver& driver, const std::string& key, Key held) {
    stage.input().push(KeyStroke{held, true});
    driver.drain();
    driver.click(key);
    stage.input().push(KeyStroke{held, false});
    driver.drain();
}

} // namespace fettle::ui::testing
