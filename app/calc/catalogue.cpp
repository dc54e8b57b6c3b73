#include "calc/catalogue.h"

#include "base/near_names.h"
#include "calc/check_plugin.h"
#include "calc/library_folders.h"
#include "calc/plugin_process.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <system_error>

namespace fettle::calc {
namespace {

namespace fs = std::filesystem;

std::string joined(const std::vector<std::string>& names) {
    std::string all;
    for (const auto& name : names)
        all += (all.empty() ? "" : ", ") + name;
    return all;
}

} // namespace

Catalogue::Catalogue(fs::path worker, const std::vector<fs::path>& folders, CallLimits limits)
    : worker_(std::move(worker)), limits_(limits) {
    for (const fs::path& folder : folders)
        take_folder(folder);
}

Catalogue::~Catalogue() = default;

void Catalogue::refuse(const fs::path& path, std::string reason) {
    refused_.push_back({path, std::move(reason)});
}

void Catalogue::take_folder(const fs::path& folder) {
    auto libraries = libraries_in(folder);
    if (!libraries) return refuse(folder, libraries.failure().sentence);
    for (const fs::path& library : *libraries)
        take_library(library);
}

void Catalogue::take_library(const fs::path& listed) {
    if (auto reason = why_not_trusted(listed)) return refuse(listed, *reason);
    const std::string refused = "The plugin " + listed.filename().string() + " is refused: ";
    std::error_code error;
    auto process = std::make_unique<PluginProcess>(worker_, fs::canonical(listed, error), limits_);
    auto plugin = process->describe();
    if (const auto& why = process->not_shut_off(); !why.empty())
        not_shut_off_ = "The kernel does not shut plugins and picture decoders off from files and "
                        "network (" +
                        why + "): limits on memory, time and file size are what holds them.";
    if (!plugin) return refuse(listed, refused + plugin.failure().sentence);
    if (auto checked = check_plugin(*plugin, listed.stem().string()); !checked)
        return refuse(listed, refused + checked.failure().sentence);
    const auto place = std::ranges::lower_bound(plugins_, plugin->id, {}, &Plugin::id);
    if (place != plugins_.end() && place->id == plugin->id)
        return refuse(listed, refused + "the plugin " + plugin->id + " is already loaded from " +
                                  place->library.string() + ".");
    processes_.insert(processes_.begin() + (place - plugins_.begin()), std::move(process));
    plugins_.insert(place, std::move(*plugin));
}

Result<FoundSheet> Catalogue::find_sheet(std::string_view sheet_id) const {
    std::vector<std::string> names;
    for (const Plugin& plugin : plugins_) {
        if (const Sheet* sheet = find_by_id(plugin.sheets, sheet_id))
            return FoundSheet{&plugin, sheet};
        for (const Sheet& sheet : plugin.sheets)
            names.push_back(sheet.id);
    }
    const auto near = near_names(sheet_id, names);
    std::string sentence = "There is no worked sheet \"" + std::string(sheet_id) + "\"";
    if (names.empty())
        sentence += ": no calculation plugin is installed.";
    else if (near.empty())
        sentence += ". There are: " + joined(names) + ".";
    else
        sentence += ". Near to it: " + joined(near) + ".";
    return Failure{FailureKind::not_found, std::move(sentence)};
}

Result<nlohmann::json> Catalogue::compute(const FoundSheet& found,
                                          const std::vector<SiValue>& values) {
    const auto at = static_cast<std::size_t>(found.plugin - plugins_.data());
    auto answer = processes_[at]->compute(found.sheet->id, values);
    if (answer || answer.failure().kind != FailureKind::plugin) return answer;
    return Failure{FailureKind::plugin,
                   "The plugin " + found.plugin->id + " failed in " + found.sheet->id + ": " +
                       answer.failure().sentence,
                   answer.failure().detail};
}

} // namespace fettle::calc
