#include "notebook/sides.h"

#include "base/text.h"
#include "notebook/rules.h"

#include <unistd.h>

#include <array>
#include <chrono>
#include <cstdio>
#include <random>

namespace fettle {

const Side* Sides::at(int number) const {
    const auto found = std::ranges::find(sides, number, &Side::number);
    return found == sides.end() ? nullptr : &*found;
}

Sides stored_sides(store::Database& database) {
    Sides told;
    if (auto here = database.query("SELECT notebook, side FROM here"); here.next()) {
        told.notebook = here.get<std::string>(0);
        told.own = here.get<int>(1);
    }
    told.sides =
        all_rows(database.query("SELECT side, copy, name, seen, met FROM sides ORDER BY side"),
                 [](const store::Statement& row) {
                     return Side{row.get<int>(0), row.get<std::string>(1), row.get<std::string>(2),
                                 row.get<std::int64_t>(3), row.get<std::int64_t>(4)};
                 });
    return told;
}

Result<Sides> sides_of(const Notebook& notebook) {
    return notebook.read(stored_sides);
}

void name_own_side(store::Database& database, const std::string& name) {
    database.run("UPDATE sides SET name = ? WHERE side = (SELECT side FROM here)", safe_utf8(name));
}

std::string name_of_machine() {
    std::array<char, 256> name{};
    if (gethostname(name.data(), name.size() - 1) != 0 || name[0] == '\0') return "a machine";
    return safe_utf8(name.data());
}

std::string new_name() {
    std::random_device source;
    std::string name;
    for (int part = 0; part < 4; ++part) {
        std::array<char, 9> digits{};
        std::snprintf(digits.data(), digits.size(), "%08x", source());
        name += digits.data();
    }
    return name;
}

bool is_name(std::string_view text) {
    return text.size() == 32 && std::ranges::all_of(text, [](char letter) {
               return (letter >= '0' && letter <= '9') || (letter >= 'a' && letter <= 'f');
           });
}

Day day_of_moment(std::int64_t moment) {
    const auto seconds = static_cast<std::time_t>(moment / 1000);
    std::tm local{};
    localtime_r(&seconds, &local);
    return Day(std::chrono::year(local.tm_year + 1900),
               std::chrono::month(static_cast<unsigned>(local.tm_mon + 1)),
               std::chrono::day(static_cast<unsigned>(local.tm_mday)));
}

} // namespace fettle
