// One loaded plugin library and its description, read into plain values.
//
// Owns the dlopen handle; the C structs live as long as it does. Loading runs the library's code:
// only the worker process ever does it. One thread.
#pragma once

#include "base/result.h"
#include "calc/sheet.h"

#include <fettle_plugin.h>

#include <filesystem>
#include <string>
#include <string_view>

namespace fettle::calc {

class PluginLibrary {
  public:
    // Fails with plugin; the sentence says what is wrong with the library, without naming it.
    static Result<PluginLibrary> load(const std::filesystem::path& library);

    PluginLibrary(PluginLibrary&& other) noexcept;
    PluginLibrary& operator=(PluginLibrary&& other) noexcept;
    PluginLibrary(const PluginLibrary&) = delete;
    PluginLibrary& operator=(const PluginLibrary&) = delete;
    ~PluginLibrary();

    const Plugin& plugin() const { return plugin_; }

    // The sheet as described and as declared; nullptr where there is none.
    struct Pair {
        const Sheet* sheet = nullptr;
        const fettle_sheet* declared = nullptr;
    };
    Pair find(std::string_view sheet_id) const;

  private:
    explicit PluginLibrary(void* handle) : handle_(handle) {}
    Done describe();
    void close();

    void* handle_ = nullptr;
    const fettle_plugin* declared_ = nullptr;
    Plugin plugin_;
};

} // namespace fettle::calc
