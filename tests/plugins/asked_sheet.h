// A sheet of a built plugin, asked with what a test types: that alone, or over the sheet's presets.
#pragma once

#include "plugins/plugin_library.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

namespace fettle::test {

enum class Over { nothing, presets };

class Sheet {
  public:
    explicit Sheet(const std::string& id, Over over = Over::nothing)
        : library_(id.substr(0, id.find('.'))),
          sheet_(sheet_named(library_, id)),
          under_(over == Over::presets ? presets() : TypedById()) {}

    // Whatever happens.
    SheetAnswer operator()(TypedById typed) const {
        typed.insert(under_.begin(), under_.end()); // what was typed goes before
        return run(sheet_, typed);
    }
    // Must be answered.
    SheetAnswer answer(const TypedById& typed) const {
        const SheetAnswer answer = (*this)(typed);
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
        const SheetAnswer given = (*this)(typed);
        CHECK(given.code == FETTLE_REFUSED);
        CHECK(given.refused_field == field);
    }
    TypedById presets() const { return presets_of(sheet_); }
    const fettle_sheet& described() const { return sheet_; }

  private:
    PluginLibrary library_;
    const fettle_sheet& sheet_;
    TypedById under_;
};

class AskedSheet : public Sheet {
  public:
    explicit AskedSheet(const std::string& id) : Sheet(id, Over::presets) {}
};

inline bool close_to(double value, double wanted, double either_way) {
    INFO("computed ", value, ", wanted ", wanted);
    CHECK(std::abs(value - wanted) <= either_way);
    return std::abs(value - wanted) <= either_way;
}

} // namespace fettle::test
