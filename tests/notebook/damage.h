// An evening's notebook whose bytes are turned, wiped and cut at random, for the suite and the long
// campaign. The oracle is the undamaged notebook, read by SQLite before a byte was turned.
#pragma once

#include "fixture.h"
#include "notebook/record_faults.h"
#include "scripted_acts.h"
#include "whole_book.h"

#include <fstream>
#include <random>

namespace notebook_tests {

using namespace fettle;
namespace fs = std::filesystem;
using store::Access;

inline void write_bytes(const fs::path& file, const std::string& bytes) {
    std::ofstream(file, std::ios::binary | std::ios::trunc) << bytes;
}

// An evening's acts in DIR/book, gathered into one file.
struct Evening {
    TempFolder folder;
    fs::path book = folder / "book", file = book / "notebook.db";
    std::string bytes, content;

    Evening() {
        auto open = must(Notebook::create(book, "Drover"));
        for (const auto& act : scripted_acts())
            REQUIRE(act(open).ok());
        for (int number = 0; number < 60; ++number)
            must(add_part(open, {.tag = "N" + std::to_string(number),
                                 .name = "rivet, the " + std::to_string(number) + "th"}));
        content = records_of(open);
        must(open.read([](store::Database& database) {
            database.run_script("PRAGMA wal_checkpoint(TRUNCATE)");
            return Nothing{};
        }));
        { auto closed = std::move(open); }
        bytes = file_text(file);
    }

    // Without history's own lines: a letter turned in the words of an act stands nowhere else to be
    // held against.
    static std::string records_of(const Notebook& open) {
        std::string content = content_of(open);
        const auto begins = content.find("\nhistory\n");
        if (begins == std::string::npos) return content; // why it cannot be read
        const auto ends = content.find("\n\n", begins + 1);
        return content.erase(begins, (ends == std::string::npos ? content.size() : ends) - begins);
    }

    void put(const std::string& damaged) const {
        for (const char* ending : {"-wal", "-shm", "-journal"})
            fs::remove(file.native() + ending);
        write_bytes(file, damaged);
    }

    // equal: as it was. told: refused or reported in a sentence. silent: neither.
    enum class Outcome { equal, told, silent };
    Outcome outcome() const {
        auto open = Notebook::open(book, Access::read);
        if (!open) {
            CHECK(open.failure().sentence.ends_with('.'));
            return Outcome::told;
        }
        if (records_of(*open) == content) return Outcome::equal;
        const auto faults = record_faults(*open);
        if (!faults) CHECK(faults.failure().sentence.ends_with('.'));
        return !faults || !faults->empty() ? Outcome::told : Outcome::silent;
    }
};

// What the dice of a seed do to a file: every tenth is cut, every tenth loses a page, the others
// have one to four bits turned.
inline std::string damaged_by(std::uint32_t seed, const std::string& whole) {
    constexpr std::size_t kPage = 4096;
    std::mt19937 dice(seed);
    std::string bytes = whole;
    if (seed % 10 == 0)
        bytes.resize(dice() % bytes.size());
    else if (seed % 10 == 5)
        bytes.replace(dice() % (bytes.size() / kPage) * kPage, kPage, kPage, char(0xa5));
    else
        for (auto flips = 1 + dice() % 4; flips > 0; --flips) {
            auto& byte = bytes[dice() % bytes.size()];
            byte = char(byte ^ (1u << dice() % 8));
        }
    return bytes;
}

} // namespace notebook_tests
