#include "calc/plugin_process.h"

#include "calc/description_json.h"
#include "calc/library_folders.h"
#include "calc/value_json.h"

#include <utility>

namespace fettle::calc {
namespace {

using nlohmann::json;

// More than kAnswersOfOneProcess calculations take at their longest: ends what an orphan goes on
// with.
constexpr std::uint64_t kCpuSeconds = 3600;
constexpr int kAnswersOfOneProcess = 500;
constexpr std::uint32_t kMostAnswerBytes = 256u << 20; // above what the worker's sink takes

Failure fault(std::string sentence) {
    return {FailureKind::plugin, std::move(sentence)};
}

Failure read_failure(const json& reply) {
    try {
        const bool refused = reply.value("refused", false);
        return {refused ? FailureKind::refused : FailureKind::plugin, reply.at("failure"),
                reply.value("detail", "")};
    } catch (const json::exception& unreadable) { // not the worker's words
        return {FailureKind::plugin, "its answer cannot be read.", unreadable.what()};
    }
}

} // namespace

PluginProcess::PluginProcess(std::filesystem::path worker, std::filesystem::path library,
                             CallLimits limits)
    : program_(std::move(worker)), library_(std::move(library)), limits_(limits) {}

Done PluginProcess::start() {
    if (auto unsafe = why_not_trusted(library_)) return fault(*unsafe);
    auto started = WorkerProcess::start(program_, {library_.string()},
                                        {.address_space_bytes = limits_.address_space_bytes,
                                         .cpu_seconds = kCpuSeconds,
                                         .file_bytes = 0,
                                         .processes = 0,
                                         .open_files = 64,
                                         .answer_bytes = kMostAnswerBytes});
    if (!started) return started.failure();
    worker_.emplace(std::move(*started));
    answers_ = 0;
    return done();
}

// Whatever broke the contract is not asked again as it is: its process ends here. The serial tells
// the worker's answer from what the plugin wrote into its pipe, and from an answer left there.
Result<json> PluginProcess::ask(json request, std::chrono::milliseconds patience) {
    request["serial"] = ++serial_;
    auto answer = worker_->ask(request.dump(), {}, patience);
    if (!answer) {
        worker_.reset();
        return fault(answer.failure().sentence + ".");
    }
    json reply = json::parse(answer->text, nullptr, false);
    const bool is_its_answer = reply.is_object() && reply.value("serial", json()) == json(serial_);
    if (is_its_answer && !reply.contains("failure")) return reply;
    Failure failure = is_its_answer ? read_failure(reply) : fault("its answer cannot be read.");
    if (failure.kind != FailureKind::refused) worker_.reset();
    return failure;
}

Result<Plugin> PluginProcess::ask_description() {
    auto reply = ask({{"do", "describe"}}, limits_.describe);
    if (!reply) return reply.failure();
    try {
        Plugin plugin = reply->at("plugin").get<Plugin>();
        plugin.library = library_;
        not_shut_off_ = reply->at("not_shut_off").get<std::string>();
        return plugin;
    } catch (const json::exception& unreadable) {
        worker_.reset();
        return Failure{FailureKind::plugin, "its description cannot be read.", unreadable.what()};
    }
}

Result<Plugin> PluginProcess::describe() {
    std::lock_guard turn(turn_);
    if (auto started = start(); !started) return started.failure();
    auto plugin = ask_description();
    if (plugin) described_ = *plugin;
    return plugin;
}

Result<json> PluginProcess::compute(std::string_view sheet_id, const std::vector<SiValue>& values) {
    std::lock_guard turn(turn_);
    if (++answers_ > kAnswersOfOneProcess) worker_.reset();
    if (!worker_) {
        if (auto started = start(); !started) return started.failure();
        auto again = ask_description();
        if (!again) return again.failure();
        if (*again != *described_) {
            worker_.reset();
            return fault("its library has changed since this program was started. Start the "
                         "program again to use it.");
        }
    }
    return ask({{"do", "compute"}, {"sheet", sheet_id}, {"values", values}}, limits_.compute);
}

} // namespace fettle::calc
