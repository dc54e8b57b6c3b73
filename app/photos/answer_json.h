// What the answers of the worker have in common as JSON. For the conversation's own files.
#pragma once

#include "base/process.h"
#include "base/result.h"
#include "photos/look.h"

#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <utility>

namespace fettle::photos {

using nlohmann::json;

inline std::string dumped(const json& value) {
    return value.dump(-1, ' ', false, json::error_handler_t::replace);
}

json to_json(const Place& place);
Place place_from(const json& value);
Failure failure_from(const json& value);

// Reads an answer with `read(json)`; what it throws, or a failure in the answer, is the Failure.
template <class T, class Read>
Result<T> answer_from(const Frame& frame, Read&& read) {
    const Failure garbage{FailureKind::plugin, "its answer makes no sense",
                          frame.text.substr(0, 200)};
    try {
        const auto value = json::parse(frame.text);
        if (value.contains("failure")) return failure_from(value.at("failure"));
        if (auto answer = read(value)) return std::move(*answer);
    } catch (const json::exception&) {
    }
    return garbage;
}

} // namespace fettle::photos
