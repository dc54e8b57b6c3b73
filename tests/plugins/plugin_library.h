// A built plugin opened as the host would open it, and one call of a sheet with its answer kept.
// The library stays open as long as the PluginLibrary; answers outlive it.
#pragma once

#include "fettle_plugin.h"

#include <dlfcn.h>

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace fettle::test {

struct DrawnSeries {
    std::string name;
    std::uint32_t look;
    std::vector<fettle_point> points;
};

struct DrawnLabel {
    fettle_point at;
    std::string text;
};

struct SheetAnswer {
    std::int32_t code = FETTLE_REFUSED;
    std::map<std::string, double> numbers;
    std::map<std::string, std::string> texts;
    std::map<std::string, std::vector<std::vector<double>>> tables;
    std::map<std::string, std::vector<std::vector<std::string>>> words; // text cells; "" for others
    std::map<std::string, std::vector<DrawnSeries>> series;             // by chart
    std::map<std::string, std::vector<DrawnLabel>> labels;
    std::vector<std::string> working;
    std::vector<std::pair<std::uint32_t, std::string>> notes;
    std::string refused_field;
    std::string refusal;

    bool has_note(std::uint32_t level) const {
        for (const auto& note : notes) {
            if (note.first == level) return true;
        }
        return false;
    }
    bool has_note(std::uint32_t level, const std::string& words_in_it) const {
        for (const auto& [of, text] : notes) {
            if (of == level && text.find(words_in_it) != std::string::npos) return true;
        }
        return false;
    }
    bool has_working(const std::string& words_in_it) const {
        for (const std::string& line : working) {
            if (line.find(words_in_it) != std::string::npos) return true;
        }
        return false;
    }
};

// One typed value in SI; owns what the fettle_value points at.
struct Typed {
    std::optional<double> number;
    std::optional<std::string> text;
    std::vector<double> numbers; // list or table
    std::uint32_t columns = 1;

    static Typed of(double si) { return {.number = si, .text = {}, .numbers = {}}; }
    static Typed of(const char* words) { return {.number = {}, .text = words, .numbers = {}}; }
    static Typed list(std::vector<double> si, std::uint32_t columns = 1) {
        return {.number = {}, .text = {}, .numbers = std::move(si), .columns = columns};
    }
};

using TypedById = std::map<std::string, Typed>; // inputs that are missing are left blank

class PluginLibrary {
  public:
    explicit PluginLibrary(const std::string& name)
        : handle_(dlopen((std::string(FETTLEBOOK_PLUGIN_DIR) + "/" + name + ".so").c_str(),
                         RTLD_NOW | RTLD_LOCAL),
                  [](void* handle) {
                      if (handle != nullptr) dlclose(handle);
                  }) {}

    void* symbol(const char* name) const { return handle_ ? dlsym(handle_.get(), name) : nullptr; }
    const fettle_plugin* describe(std::uint32_t abi_version = FETTLE_ABI_VERSION) const {
        using Describe = const fettle_plugin* (*)(std::uint32_t);
        auto function = reinterpret_cast<Describe>(symbol("fettle_plugin_describe"));
        return function == nullptr ? nullptr : function(abi_version);
    }

  private:
    std::unique_ptr<void, void (*)(void*)> handle_;
};

// The sheet of this id; fails the test when the plugin does not have it.
const fettle_sheet& sheet_named(const PluginLibrary& library, const std::string& id);

SheetAnswer run(const fettle_sheet& sheet, const TypedById& typed);

// What a fresh sheet shows, in SI. Reads only what presets here are written in: bare decimals,
// "25 %", lists and table rows split by ";", cells by blanks or "|".
TypedById presets_of(const fettle_sheet& sheet);

} // namespace fettle::test
