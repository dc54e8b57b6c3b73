// fettlebook-calc LIBRARY: holds one calculation plugin at arm's length. Answers frames of
// base/process.h on its standard streams; see calc/plugin_process.h for what is asked and answered.
#include "base/confine.h"
#include "base/process.h"
#include "calc/description_json.h"
#include "calc/value_json.h"
#include "calc/worker/answer_sink.h"
#include "calc/worker/plugin_library.h"
#include "calc/worker/sdk_values.h"
#include "calc/worker/spread.h"

#include <unistd.h>

#include <cstdio>
#include <exception>
#include <new>
#include <optional>
#include <string>

namespace fettle::calc {
namespace {

using nlohmann::json;

// An endless loop whose program has gone away meets this alarm instead of running for ever.
constexpr unsigned kOrphanSeconds = 120;

json failure_json(const Failure& failure) {
    return {{"failure", failure.sentence},
            {"refused", failure.kind == FailureKind::refused},
            {"detail", failure.detail}};
}

Failure fault(std::string sentence) {
    return {FailureKind::plugin, std::move(sentence)};
}

// The last net under foreign code: the contract forbids throwing, but a throw must not be the end.
Result<json> computed(const PluginLibrary::Pair& found, const std::vector<SiValue>& values) {
    const SdkValues laid_out(*found.sheet, values);
    AnswerSink sink(*found.sheet);
    try {
        const auto returned =
            found.declared->compute(laid_out.pointers(), laid_out.count(), &sink.callbacks());
        auto answer = sink.finish(returned);
        if (answer)
            (*answer)["spreads"] = found.sheet->smooth
                                       ? spreads(found, values, answer->at("outputs"))
                                       : json::object();
        return answer;
    } catch (const std::bad_alloc&) {
        return fault("it asked for more memory than it is allowed.");
    } catch (const std::exception& thrown) {
        return fault(std::string("it threw an exception: ") + thrown.what());
    } catch (...) {
        return fault("it threw an exception.");
    }
}

class Worker {
  public:
    explicit Worker(const char* library) : path_(library) {}

    // Loads on the first request, so that a library that crashes or loops while being loaded does
    // so under the patience of whoever asked. Loading reads files; calculating does not.
    Result<json> answer(const json& request) {
        if (!library_) {
            auto shut_off = confine(Confinement::loads_a_library);
            auto loaded = PluginLibrary::load(path_);
            if (!loaded) return loaded.failure();
            library_.emplace(std::move(*loaded));
            if (shut_off) shut_off = confine(Confinement::opens_nothing_more);
            if (!shut_off) not_shut_off_ = shut_off.failure().detail;
        }
        if (request.at("do") == "describe")
            return json{{"plugin", library_->plugin()}, {"not_shut_off", not_shut_off_}};
        const auto found = library_->find(request.at("sheet").get<std::string>());
        if (!found.sheet) return fault("it no longer has that sheet.");
        return computed(found, request.at("values").get<std::vector<SiValue>>());
    }

  private:
    std::filesystem::path path_;
    std::optional<PluginLibrary> library_;
    std::string not_shut_off_; // why the kernel did not do it
};

Frame answered(Worker& worker, const Frame& request) {
    alarm(kOrphanSeconds);
    json reply, serial;
    try {
        const json asked = json::parse(request.text);
        serial = asked.at("serial");
        auto result = worker.answer(asked);
        reply = result ? std::move(*result) : failure_json(result.failure());
    } catch (const std::exception& thrown) {
        reply =
            failure_json(fault(std::string("the request cannot be answered: ") + thrown.what()));
    }
    alarm(0);
    reply["serial"] = serial;
    return {reply.dump(-1, ' ', false, json::error_handler_t::replace), {}};
}

} // namespace
} // namespace fettle::calc

#if defined(FETTLE_SANITIZED)
// Crashes are to look as they do without it, and great allocations to be refused; the search for
// leaks at the end starts a process that stops this one, and a report with names one that looks
// them up: neither is allowed here.
extern "C" __attribute__((visibility("default"))) const char* __asan_default_options() {
    return "detect_leaks=0:handle_segv=0:max_allocation_size_mb=2048:symbolize=0";
}
extern "C" __attribute__((visibility("default"))) const char* __tsan_default_options() {
    return "handle_segv=0:handle_sigbus=0:handle_abort=0:handle_sigfpe=0:exitcode=1:"
           "max_allocation_size_mb=2048:symbolize=0";
}
#endif

int main(int count, char** arguments) {
    if (count != 2) {
        std::fputs("usage: fettlebook-calc LIBRARY (started by fettlebook for each plugin)\n",
                   stderr);
        return 2;
    }
    fettle::calc::Worker worker(arguments[1]);
    return fettle::serve_requests([&worker](const fettle::Frame& request) {
        return fettle::calc::answered(worker, request);
    });
}
