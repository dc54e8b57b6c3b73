// What the files that tell the demo share. For them only.
#pragma once

#include "notebook/notebook.h"

#include <nlohmann/json.hpp>

#include <map>
#include <string>

namespace fettle::desk {

using nlohmann::json;

// Thrown within the demo only: the scenario does not read, or an act refused a record of it.
struct Faulty {
    Failure failure;
};

template <class T>
T must(Result<T> result, const std::string& record) {
    if (result) return std::move(*result);
    auto failure = result.failure();
    failure.sentence = "The demo's " + record + ": " + failure.sentence;
    throw Faulty{std::move(failure)};
}

inline std::string text(const json& record, const char* field) {
    auto found = record.find(field);
    return found == record.end() || found->is_null() ? std::string() : found->get<std::string>();
}

template <class T>
T named(const std::map<std::string, T>& names, const std::string& name, const std::string& kind) {
    auto found = names.find(name);
    if (found != names.end()) return found->second;
    throw Faulty{{FailureKind::not_found,
                  "The demo names a " + kind + " \"" + name + "\" that it does not have."}};
}

// What the scenario's names stand for.
struct DemoNames {
    const std::map<std::string, PartId>& parts;
    const std::map<std::string, PhotoId>& photos;
};
// Evidence, and what was sent out and came in. Days are dates, or days from today: "-26". Gives the
// consignments that have an "id".
std::map<std::string, ConsignmentId> tell_sent_out(Notebook& notebook, const json& scenario,
                                                   const DemoNames& names);
// Costs, estimates, and what people gave, lent and did.
void tell_money(Notebook& notebook, const json& scenario,
                const std::map<std::string, PartId>& parts,
                const std::map<std::string, TaskId>& tasks);

} // namespace fettle::desk
