#include "calc/worker/plugin_library.h"

#include "calc/worker/read_plugin.h"

#include <dlfcn.h>

#include <exception>
#include <utility>

namespace fettle::calc {
namespace {

using Describe = const fettle_plugin* (*)(std::uint32_t);

Failure fault(std::string sentence) {
    return {FailureKind::plugin, std::move(sentence)};
}

std::string version_text(std::uint32_t version) {
    return "version " + std::to_string(version) + " of the plugin contract";
}

const std::string kOurVersion = "this program speaks " + version_text(FETTLE_ABI_VERSION);

// Every version of the contract begins with struct_size and abi_version.
bool names_version(const fettle_plugin* plugin) {
    return plugin && plugin->struct_size >= 2 * sizeof(std::uint32_t);
}

// A plugin that does not serve our version may serve another: the sentence is better with both.
Failure not_served(Describe describe) {
    constexpr std::uint32_t kVersionsTried = 32;
    for (std::uint32_t version = 1; version <= kVersionsTried; ++version)
        if (const fettle_plugin* other =
                version == FETTLE_ABI_VERSION ? nullptr : describe(version);
            names_version(other))
            return fault("it serves " + version_text(other->abi_version) + ", and " + kOurVersion +
                         ".");
    return fault("it does not serve the version asked for, and " + kOurVersion + ".");
}

Failure other_version(std::uint32_t version) {
    const bool newer = version > FETTLE_ABI_VERSION;
    return fault(
        "it was built for " + version_text(version) + ", which is " + (newer ? "newer" : "older") +
        ", and " + kOurVersion + ". " +
        (newer ? "A newer program is needed." : "A plugin built for this version is needed."));
}

} // namespace

PluginLibrary::PluginLibrary(PluginLibrary&& other) noexcept
    : handle_(std::exchange(other.handle_, nullptr)),
      declared_(std::exchange(other.declared_, nullptr)),
      plugin_(std::move(other.plugin_)) {}

PluginLibrary& PluginLibrary::operator=(PluginLibrary&& other) noexcept {
    if (this != &other) {
        close();
        handle_ = std::exchange(other.handle_, nullptr);
        declared_ = std::exchange(other.declared_, nullptr);
        plugin_ = std::move(other.plugin_);
    }
    return *this;
}

PluginLibrary::~PluginLibrary() {
    close();
}

void PluginLibrary::close() {
    if (handle_) dlclose(handle_);
    handle_ = nullptr;
}

Result<PluginLibrary> PluginLibrary::load(const std::filesystem::path& library) {
    try {
        PluginLibrary loaded(dlopen(library.c_str(), RTLD_NOW | RTLD_LOCAL));
        if (!loaded.handle_)
            return fault(std::string("the system cannot load it as a library: ") + dlerror() + ".");
        if (auto described = loaded.describe(); !described) return described.failure();
        return loaded;
    } catch (const std::exception& thrown) {
        return fault(std::string("it threw an exception while being loaded: ") + thrown.what());
    } catch (...) {
        return fault("it threw an exception while being loaded.");
    }
}

Done PluginLibrary::describe() {
    auto entry = reinterpret_cast<Describe>(dlsym(handle_, "fettle_plugin_describe"));
    if (!entry)
        return fault(
            "it has no function fettle_plugin_describe, so it is no plugin for this program.");
    declared_ = entry(FETTLE_ABI_VERSION);
    if (!declared_) return not_served(entry);
    if (!names_version(declared_)) return fault("its description is too short to be read.");
    if (declared_->abi_version != FETTLE_ABI_VERSION) return other_version(declared_->abi_version);
    auto plugin = read_plugin(*declared_);
    if (!plugin) return plugin.failure();
    plugin_ = std::move(*plugin);
    return done();
}

PluginLibrary::Pair PluginLibrary::find(std::string_view sheet_id) const {
    for (std::size_t at = 0; at < plugin_.sheets.size(); ++at)
        if (plugin_.sheets[at].id == sheet_id) return {&plugin_.sheets[at], declared_->sheets[at]};
    return {};
}

} // namespace fettle::calc
