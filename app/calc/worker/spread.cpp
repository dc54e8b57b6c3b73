#include "calc/worker/spread.h"

#include "calc/worker/answer_sink.h"
#include "calc/worker/sdk_values.h"

#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace fettle::calc {
namespace {

using nlohmann::json;

bool beyond(const Input& input, double si) {
    return (input.least && si < *input.least) || (input.greatest && si > *input.greatest);
}

// The contract promises the plugin that numbers keep to their bounds, so a move turns back there.
double moved(const Input& input, double si, double step) {
    if (!beyond(input, si + step)) return si + step;
    return beyond(input, si - step) ? si : si - step;
}

// The value with all its numbers moved the same way, as one gauge would; nothing when none moves.
std::optional<SiValue> moved(const Input& input, SiValue value) {
    if (!value.given || (value.half_step == 0 && value.half_steps.empty())) return std::nullopt;
    value.number = moved(input, value.number, value.half_step);
    for (std::size_t at = 0; at < value.half_steps.size(); ++at)
        value.numbers[at] = moved(input, value.numbers[at], value.half_steps[at]);
    return value;
}

json outputs_of(const PluginLibrary::Pair& found, std::vector<SiValue> values) {
    const SdkValues laid_out(*found.sheet, std::move(values));
    AnswerSink sink(*found.sheet);
    const auto returned =
        found.declared->compute(laid_out.pointers(), laid_out.count(), &sink.callbacks());
    auto answer = sink.finish(returned);
    return answer ? std::move(answer->at("outputs")) : json::object();
}

} // namespace

json spreads(const PluginLibrary::Pair& found, const std::vector<SiValue>& values,
             const json& outputs) {
    std::map<std::string, double> squares;
    for (std::size_t at = 0; at < values.size(); ++at) {
        auto other = moved(found.sheet->inputs[at], values[at]);
        if (!other) continue;
        std::vector<SiValue> all = values;
        all[at] = std::move(*other);
        const json beside = outputs_of(found, std::move(all));
        for (const auto& [id, number] : beside.items()) {
            const auto before = outputs.find(id);
            if (before == outputs.end() || !before->is_number() || !number.is_number()) continue;
            const double change = number.get<double>() - before->get<double>();
            squares[id] += change * change;
        }
    }
    json all = json::object();
    for (const auto& [id, square] : squares)
        if (square > 0) all[id] = std::sqrt(square);
    return all;
}

} // namespace fettle::calc
