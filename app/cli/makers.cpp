#include "base/text.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "notebook/marks_compared.h"
#include "notebook/people.h"

#include <algorithm>

namespace fettle::cli {
namespace {

struct MakersWish {
    std::string name, sign;
    std::vector<std::string> on, not_on;

    void check() const {
        if (name.empty() && !(sign.empty() && on.empty() && not_on.empty()))
            throw CLI::ValidationError("--sign, --on and --not-on go with a NAME");
    }
};

void declare_makers(CLI::App& verb, MakersWish& wish) {
    verb.add_option("NAME", wish.name, "The maker to be told something about; a new name is added");
    verb.add_option("--sign", wish.sign, "What the mark looks like: OV in an oval")
        ->option_text("TEXT");
    add_repeated(verb, "--on", wish.on, "Their marks belong on this vehicle; may be repeated")
        ->option_text("VEHICLE");
    add_repeated(verb, "--not-on", wish.not_on, "They do not")->option_text("VEHICLE");
    verb.footer("Where makers are told for a vehicle, `mark --wrong` lists its parts with marks of "
                "others.\nJSON: a list of {maker, sign, marks, on}; marks counts them, on lists "
                "vehicles.");
}

Done tell_on(Notebook& notebook, const std::string& name, const std::string& vehicle_name,
             bool belongs) {
    auto vehicle = vehicle_named(notebook, vehicle_name);
    if (!vehicle) return vehicle.failure();
    auto makers = makers_on(notebook, vehicle->id);
    if (!makers) return makers.failure();
    std::erase(*makers, name);
    if (belongs) makers->push_back(name);
    return set_makers_on(notebook, *vehicle, *makers);
}

// One act for all that was told of the maker.
Done tell(Notebook& notebook, const MakersWish& wish) {
    return notebook.act("noted maker " + wish.name, [&](store::Database&) -> Done {
        auto makers = list_makers(notebook);
        if (!makers) return makers.failure();
        const auto held = std::ranges::find(*makers, wish.name, &Maker::name);
        Maker maker = held == makers->end() ? Maker{.name = wish.name} : *held;
        if (!wish.sign.empty()) maker.sign = wish.sign;
        if (auto kept = keep_maker(notebook, maker); !kept) return kept.failure();
        for (const auto& vehicle : wish.on)
            if (auto told = tell_on(notebook, wish.name, vehicle, true); !told) return told;
        for (const auto& vehicle : wish.not_on)
            if (auto told = tell_on(notebook, wish.name, vehicle, false); !told) return told;
        return done();
    });
}

Result<Report> listed(const Notebook& notebook) {
    auto makers = list_makers(notebook);
    if (!makers) return makers.failure();
    auto marks = list_marks(notebook);
    if (!marks) return marks.failure();
    auto vehicles = list_vehicles(notebook);
    if (!vehicles) return vehicles.failure();
    Columns columns({"maker", "sign", "marks", "belong on"});
    Json json = Json::array();
    for (const auto& maker : *makers) {
        std::vector<std::string> on;
        for (const auto& vehicle : *vehicles) {
            auto told = makers_on(notebook, vehicle.id);
            if (!told) return told.failure();
            if (std::ranges::find(*told, maker.name) != told->end()) on.push_back(vehicle.name);
        }
        const auto count = std::ranges::count(*marks, maker.name, &Mark::maker);
        columns.row({maker.name, maker.sign, std::to_string(count), join(on, "; ")});
        json.push_back(
            Json{{"maker", maker.name}, {"sign", maker.sign}, {"marks", count}, {"on", on}});
    }
    return Report{columns.empty() ? "no makers\n" : columns.text(), std::move(json)};
}

Result<Report> makers(const Call& call, const MakersWish& wish) {
    if (wish.name.empty()) {
        auto notebook = call.for_reading();
        if (!notebook) return notebook.failure();
        return listed(*notebook);
    }
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    if (auto told = tell(*notebook, wish); !told) return told.failure();
    return listed(*notebook);
}

} // namespace

void add_makers(Line& line) {
    add_verb(line, line.app, "makers", "List makers, or tell their sign and where they belong",
             declare_makers, makers);
}

} // namespace fettle::cli
