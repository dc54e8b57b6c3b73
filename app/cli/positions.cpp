#include "base/text.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/list_file.h"
#include "notebook/parts_list.h"

namespace fettle::cli {
namespace {

struct PositionsWish {
    std::string file, vehicle;
    std::vector<std::string> columns;
    bool preview = false, windows_1252 = false;
};

void declare_positions(CLI::App& verb, PositionsWish& wish) {
    verb.add_option("FILE.csv", wish.file, "The parts list; without it the positions are listed");
    verb.add_option("--vehicle", wish.vehicle, "The vehicle by its name; without it the first one")
        ->option_text("NAME");
    add_repeated(verb, "--column", wish.columns,
                 "Which column is which where the first row does not say: name=3")
        ->option_text("WORD=N");
    verb.add_flag("--preview", wish.preview, "Say what would be done, and do nothing");
    verb.add_flag("--windows-1252", wish.windows_1252, "The file is in Windows-1252, not in UTF-8");
    verb.footer("Columns: group, number, name, quantity, spec, by the words in the first row. "
                "Comma, semicolon or\ntab between them; UTF-8. All or nothing: each wrong field "
                "is named by row and column.\nJSON: {adds, changes, troubles}; troubles lists "
                "{row, column, sentence}. Without FILE: a list of\n{position, group, name, "
                "quantity, on_hand, in_place, out, on_its_way, missing, to_get, spec, chosen}.");
}

Done put_columns(ListColumns& columns, const std::vector<std::string>& typed) {
    for (const auto& each : typed) {
        auto pair = parse_pair(each, SplitAt::first, "name=3");
        if (!pair) return pair.failure();
        const auto word = std::ranges::find(kListColumns, pair->first);
        const auto number = parse_record_number("column", pair->second);
        if (word == kListColumns.end() || !number || *number < 1)
            return Failure{FailureKind::invalid,
                           fettle::quoted(each) + " names no column: accepted are group, number, "
                                                  "name, quantity or spec, = and a number from 1."};
        columns.from[static_cast<std::size_t>(word - kListColumns.begin())] =
            static_cast<std::size_t>(*number - 1);
    }
    return done();
}

Report previewed(const ListPreview& preview, const std::string& how) {
    std::string text =
        how + ": " + counted(std::size_t(preview.adds), "new position") + ", " +
        std::to_string(preview.changes) + " changed, " +
        std::to_string(preview.rows.size() - std::size_t(preview.adds + preview.changes)) +
        " as they were\n";
    Json troubles = Json::array();
    for (const auto& [row, column, sentence] : preview.troubles) {
        text += sentence + '\n';
        troubles.push_back(Json{{"row", row}, {"column", column}, {"sentence", sentence}});
    }
    return {text, {{"adds", preview.adds}, {"changes", preview.changes}, {"troubles", troubles}}};
}

Result<Report> positions_listed(const Notebook& notebook, const Vehicle& vehicle) {
    auto fills = list_positions(notebook, vehicle.id);
    if (!fills) return fills.failure();
    auto names = names_in(notebook);
    if (!names) return names.failure();
    Columns columns({"position", "group", "name", "quantity", "missing", "spec"});
    Json json = Json::array();
    for (const auto& fill : *fills) {
        const auto& position = fill.position;
        columns.row({position.number, position.group, position.name,
                     std::to_string(position.quantity),
                     fill.missing() ? std::to_string(fill.missing()) : "", position.spec});
        json.push_back(to_json(fill, *names));
    }
    return Report{columns.empty() ? "no positions\n" : columns.text(), std::move(json)};
}

Result<Report> positions(const Call& call, const PositionsWish& wish) {
    auto notebook = wish.file.empty() || wish.preview ? call.for_reading() : call.for_writing();
    if (!notebook) return notebook.failure();
    auto vehicle = vehicle_or_first(*notebook, wish.vehicle);
    if (!vehicle) return vehicle.failure();
    if (wish.file.empty()) return positions_listed(*notebook, *vehicle);
    auto table =
        desk::read_list_file(wish.file, wish.windows_1252 ? CsvText::windows_1252 : CsvText::utf8);
    if (!table) return table.failure();
    auto columns = match_columns(*table);
    if (auto put = put_columns(columns, wish.columns); !put) return put.failure();
    auto preview = preview_list(*notebook, vehicle->id, *table, columns);
    if (!preview) return preview.failure();
    if (wish.preview) return previewed(*preview, "would take in");
    for (const auto& trouble : preview->troubles)
        call.err << trouble.sentence << '\n';
    if (auto taken = take_in_list(*notebook, vehicle->id, *preview); !taken) return taken.failure();
    return previewed(*preview, "taken in");
}

} // namespace

void add_positions(Line& line) {
    add_verb(line, line.app, "positions", "Take in a vehicle's parts list, or list its positions",
             declare_positions, positions);
}

} // namespace fettle::cli
