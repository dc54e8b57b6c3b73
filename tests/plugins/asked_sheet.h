// A sheet of a built plugin, asked with what a test types over its presets.
#pragma once

#include "plugins/plugin_library.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

namespace fettle::test {

class AskedSheet {
  public:
    explicit AskedSheet(const std::string& id)
        : library_(id.substr(0, id.find('.'))), sheet_(sheet_named(library_, id)) {}

    // Over the presets; whatever happens.
    SheetAnswer ask(const TypedById& typed) const {
        TypedById all = presets_of(sheet_);
        for (const auto& [id, value] : typed)
            all[id] = value;
        return run(sheet_, all);
    }
    SheetAnswer answer(const TypedById& typed) const {
        const SheetAnswer answer = ask(typed);
        INFO(answer.refusal);
        REQUIRE(answer.code == FETTLE_DONE);
        return answer;
    }
    double number(const TypedById& typed, const char* output) const {
        const SheetAnswer given = answer(typed);
        REQUIRE(given.numbers.count(output) == 1);
        return given.numbers.at(output);
    }
    void refuses(const TypedById& typed, const char* field) const {
        const SheetAnswer given = ask(typed);
        CHECK(given.code == FETTLE_REFUSED);
        CHECK(given.refused_field == field);
    }
    const fettle_sheet& described() const { return sheet_; }

  private:
    PluginLibrary library_;
    const fettle_sheet& sheet_;
};

inline bool close_to(double value, double wanted, double either_way) {
    INFO("computed ", value, ", wanted ", wanted);
    CHECK(std::abs(value - wanted) <= either_way);
    return std::abs(value - wanted) <= either_way;
}

} // namespace fettle::test
