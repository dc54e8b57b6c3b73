// Which plugins are installed, what they offer, and the processes they run in.
//
// Libraries are looked for in the folders given, and refused where somebody else could have put or
// changed them. Each plugin runs in a fettlebook-calc process of its own, so that a crash names its
// plugin and costs one calculation. Descriptions are read once, by the constructor.
// What is listed never changes afterwards and may be read from any thread; compute() takes turns
// plugin by plugin. The Catalogue owns the processes.
#pragma once

#include "base/result.h"
#include "calc/sheet.h"
#include "calc/typed_inputs.h"

#include <nlohmann/json_fwd.hpp>

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::calc {

class PluginProcess;

struct RefusedLibrary {
    std::filesystem::path path; // a library, or a whole folder
    std::string reason;         // a sentence
};

struct CallLimits {
    std::chrono::milliseconds describe{2000}; // patience for loading and describing
    std::chrono::milliseconds compute{5000};  // patience for one calculation
    std::uint64_t address_space_bytes = 2ull << 30;
};

struct FoundSheet {
    const Plugin* plugin = nullptr; // both live as long as the Catalogue
    const Sheet* sheet = nullptr;
};

class Catalogue {
  public:
    // `worker`: the program fettlebook-calc. Folders that do not exist are passed over; where two
    // libraries have one id, the one found first counts and the other is refused.
    Catalogue(std::filesystem::path worker, const std::vector<std::filesystem::path>& folders,
              CallLimits limits = {});
    ~Catalogue();
    Catalogue(const Catalogue&) = delete;
    Catalogue& operator=(const Catalogue&) = delete;

    const std::vector<Plugin>& plugins() const { return plugins_; } // by id
    const std::vector<RefusedLibrary>& refused() const { return refused_; }

    // A sentence for where plugins are listed when the kernel does not shut their processes off
    // from files and network; empty when it does.
    const std::string& not_shut_off() const { return not_shut_off_; }

    // Fails with not_found; the sentence lists sheets of a similar name.
    Result<FoundSheet> find_sheet(std::string_view sheet_id) const;

    // Calculates in the plugin's process, starting it where it is not running. The answer's raw
    // JSON is for run_sheet, which everybody else calls. Fails with plugin (it crashed, hung, broke
    // the contract) or with refused, detail naming the input to blame.
    Result<nlohmann::json> compute(const FoundSheet& found, const std::vector<SiValue>& values);

  private:
    void take_folder(const std::filesystem::path& folder);
    void take_library(const std::filesystem::path& listed);
    void refuse(const std::filesystem::path& path, std::string reason);

    std::filesystem::path worker_;
    CallLimits limits_;
    std::vector<Plugin> plugins_;
    std::vector<RefusedLibrary> refused_;
    std::string not_shut_off_;
    std::vector<std::unique_ptr<PluginProcess>> processes_; // one for each plugin
};

} // namespace fettle::calc
