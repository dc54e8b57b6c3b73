// The inputs kept below corpus/, small ones to begin from and those that once broke a reader
// (found-...), read again by the ordinary build.
#include "fuzz/targets.h"
#include "temp_folder.h"

#include <doctest/doctest.h>

TEST_CASE("every reader takes the inputs kept for it, those that once broke it too") {
    for (const auto& target : fuzz::targets()) {
        const std::filesystem::path folder =
            std::filesystem::path(FETTLEBOOK_SOURCE_DIR "/tests/fuzz/corpus") / target.name;
        CAPTURE(folder.string());
        REQUIRE(std::filesystem::is_directory(folder));
        int inputs = 0;
        for (const auto& entry : std::filesystem::directory_iterator(folder)) {
            CAPTURE(entry.path().string());
            const std::string bytes = file_text(entry.path());
            target.read({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
            ++inputs;
        }
        CHECK(inputs >= 3);
    }
}
