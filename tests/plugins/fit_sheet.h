// A sheet of the plugin "fit", asked with what a test types.
#pragma once

#include "plugins/plugin_library.h"

#include <doctest/doctest.h>

#include <cmath>

namespace fettle::test {

class FitSheet {
  public:
    explicit FitSheet(const char* id) : library_("fit"), sheet_(sheet_named(library_, id)) {}

    SheetAnswer operator()(const TypedById& typed) const { return run(sheet_, typed); }
    // Must be answered.
    SheetAnswer answer(const TypedById& typed) const {
        const SheetAnswer given = run(sheet_, typed);
        INFO(given.refusal);
        REQUIRE(given.code == FETTLE_DONE);
        return given;
    }
    // The presets with some inputs typed over.
    SheetAnswer with(const TypedById& typed) const {
        TypedById all = presets_of(sheet_);
        for (const auto& [id, value] : typed)
            all[id] = value;
        return answer(all);
    }
    TypedById presets() const { return presets_of(sheet_); }

  private:
    PluginLibrary library_;
    const fettle_sheet& sheet_;
};

} // namespace fettle::test
