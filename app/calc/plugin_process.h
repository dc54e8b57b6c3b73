// One plugin in a fettlebook-calc process of its own, started when it is needed and again after a
// death.
//
// {"do":"describe"} is answered by
//     {"plugin":{...},"not_shut_off":WHY_OR_EMPTY}
// {"do":"compute","sheet":ID,"values":[{...}, ...]} by
//     {"outputs":{...},"tables":{...},"working":[...],"notes":[...]}
// or, either time, {"failure":SENTENCE,"refused":BOOL,"detail":TEXT}. A "serial" stands in every
// question and is repeated in its answer.
// Any thread: calls take turns.
#pragma once

#include "base/process.h"
#include "base/result.h"
#include "calc/catalogue.h"

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::calc {

class PluginProcess {
  public:
    PluginProcess(std::filesystem::path worker, std::filesystem::path library, CallLimits limits);

    // What the library says of itself, unchecked; `library` is filled in. Failures' sentences do
    // not name the plugin: the caller does.
    Result<Plugin> describe();

    // Precondition: describe() has been answered once. A library that describes itself differently
    // after a restart is not asked to calculate.
    Result<nlohmann::json> compute(std::string_view sheet_id, const std::vector<SiValue>& values);

    // Why the kernel did not shut the process off; empty when it did.
    const std::string& not_shut_off() const { return not_shut_off_; }

  private:
    Done start();
    Result<Plugin> ask_description();
    Result<nlohmann::json> ask(nlohmann::json request, std::chrono::milliseconds patience);

    std::filesystem::path program_;
    std::filesystem::path library_;
    CallLimits limits_;
    std::mutex turn_;
    std::optional<WorkerProcess> worker_;
    std::optional<Plugin> described_;
    std::string not_shut_off_;
    int answers_ = 0; // of the running process
    std::int64_t serial_ = 0;
};

} // namespace fettle::calc
