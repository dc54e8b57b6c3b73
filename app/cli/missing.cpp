// missing: the shopping list, on the screen, as CSV or as a page to print.
#include "cli/missing.h"

#include "base/date.h"
#include "base/whole_file.h"
#include "cli/verbs.h"
#include "desk/missing_paper.h"
#include "notebook/vehicles.h"

namespace fettle::cli {
namespace {

struct MissingWish {
    std::string vehicle, csv, pdf;
};

void declare_missing(CLI::App& verb, MissingWish& wish) {
    verb.add_option("--vehicle", wish.vehicle, "Only of this vehicle, by its name")
        ->option_text("NAME");
    verb.add_option("--csv", wish.csv, "Write it there as CSV (RFC 4180), too")
        ->option_text("FILE");
    verb.add_option("--pdf", wish.pdf, "Write it there as pages to print, too")
        ->option_text("FILE");
    verb.footer(std::string("Positions with fewer pieces at hand and in place than they need. Not "
                            "counted: scrap, parts on hold\nor to be replaced, and pieces that are "
                            "away. To get is what still lacks when those have come.\nMight fit: "
                            "parts of that name held for another vehicle, or intended for nothing."
                            "\nJSON: a list of ") +
                kMissingFields + ".");
}

Json away_json(const std::vector<AwayForIt>& all) {
    Json json = Json::array();
    for (const auto& away : all)
        json.push_back(Json{{"tag", away.tag},
                            {"inward", away.inward},
                            {"pieces", away.pieces},
                            {"firm", away.firm},
                            {"consignment", away.consignment},
                            {"due", away.due ? Json(to_iso(*away.due)) : Json()}});
    return json;
}

Json fits_json(const std::vector<MightFit>& all) {
    Json json = Json::array();
    for (const auto& fit : all)
        json.push_back(Json{{"tag", fit.tag},
                            {"name", fit.name},
                            {"held_for", fit.held_for},
                            {"pieces", fit.pieces}});
    return json;
}

Result<Report> missing_verb(const Call& call, const MissingWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    VehicleId only;
    std::string of = "all vehicles";
    if (!wish.vehicle.empty()) {
        auto vehicle = vehicle_named(*notebook, wish.vehicle);
        if (!vehicle) return vehicle.failure();
        only = vehicle->id;
        of = vehicle->name;
    }
    auto lines = list_missing(*notebook, only);
    if (!lines) return lines.failure();
    if (!wish.csv.empty())
        if (auto written = write_whole(wish.csv, missing_csv(*lines, today())); !written)
            return written.failure();
    if (!wish.pdf.empty())
        if (auto pages = desk::write_missing(*lines, of, today(), wish.pdf); !pages)
            return pages.failure();
    return missing_report(*lines);
}

} // namespace

Report missing_report(const std::vector<MissingLine>& lines) {
    Columns columns({"position", "name", "group", "missing", "of", "to get", "vehicle"});
    Json json = Json::array();
    for (const auto& [fill, vehicle, away, might_fit] : lines) {
        const Position& at = fill.position;
        columns.row({at.number, at.name, at.group, std::to_string(fill.missing()),
                     std::to_string(at.quantity), std::to_string(fill.to_get()), vehicle});
        for (const auto& one : away)
            columns.row({"", one.words(today())});
        for (const auto& one : might_fit)
            columns.row({"", "might fit: " + one.words()});
        json.push_back(Json{{"vehicle", vehicle},
                            {"group", at.group},
                            {"position", at.number},
                            {"name", at.name},
                            {"spec", at.spec},
                            {"quantity", at.quantity},
                            {"on_hand", fill.on_hand},
                            {"in_place", fill.used},
                            {"out", fill.out},
                            {"on_its_way", fill.coming},
                            {"missing", fill.missing()},
                            {"to_get", fill.to_get()},
                            {"away", away_json(away)},
                            {"might_fit", fits_json(might_fit)}});
    }
    return {columns.empty() ? "nothing is missing\n" : columns.text(), std::move(json)};
}

void add_missing(Line& line) {
    add_verb(line, line.app, "missing",
             "List what vehicles lack, what is on its way, what might fit", declare_missing,
             missing_verb);
}

} // namespace fettle::cli
