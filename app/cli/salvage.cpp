#include "desk/salvage.h"

#include "cli/interrupt.h"
#include "cli/verb.h"
#include "cli/verbs.h"

namespace fettle::cli {
namespace {

struct SalvageVerbWish {
    std::string damaged, out;
};

constexpr std::size_t kMostListed = 20; // lost rows named in text; JSON has them all

void declare_salvage(CLI::App& verb, SalvageVerbWish& wish) {
    verb.add_option("DIR", wish.damaged,
                    "The damaged notebook, or a database file; it is only read")
        ->required();
    verb.add_option("OUT", wish.out, "A new or empty folder for the notebook made of it")
        ->required();
    verb.footer(
        "Rows are read around what is damaged; rows that are lost are brought back from the "
        "changes kept for undo.\nPhotos are found by their content and copied. Undo begins "
        "anew.\n"
        "Exit code 1 when something was lost or is doubtful; each is told by table.\n"
        "JSON: {notebook, tables, photos, missing_photos, notices}; tables lists {table, "
        "saved, from_changes, strays, unread, lost, left_out, unnamed, doubtful}.");
}

std::string some_of(const std::vector<std::string>& names) {
    std::string text;
    for (std::size_t at = 0; at < std::min(names.size(), kMostListed); ++at)
        text += (at == 0 ? "" : ", ") + one_line(names[at]);
    if (names.size() > kMostListed)
        text += " and " + std::to_string(names.size() - kMostListed) + " more";
    return text;
}

std::string table_text(const SalvagedTable& table) {
    std::string text = table.name + ": " + counted(table.saved, "row") + " saved";
    if (table.from_changes > 0)
        text += ", " + std::to_string(table.from_changes) + " of them from the changes kept";
    if (table.strays > 0)
        text += ", " + std::to_string(table.strays) + " of them from pages cut off";
    text += '\n';
    if (table.unread > 0) text += "  " + counted(table.unread, "place") + " cannot be read\n";
    if (!table.lost.empty()) text += "  lost: " + some_of(table.lost) + '\n';
    if (table.left_out > 0)
        text += "  " + counted(table.left_out, "row") + " left out: what they speak of is lost\n";
    if (table.unnamed > 0)
        text += "  " + counted(table.unnamed, "row") + " no longer speak of what is lost\n";
    if (!table.doubtful.empty())
        text += "  not what was written last: " + some_of(table.doubtful) + '\n';
    return text;
}

Json table_json(const SalvagedTable& table) {
    return {{"table", table.name},
            {"saved", table.saved},
            {"from_changes", table.from_changes},
            {"strays", table.strays},
            {"unread", table.unread},
            {"lost", table.lost},
            {"left_out", table.left_out},
            {"unnamed", table.unnamed},
            {"doubtful", table.doubtful}};
}

Result<Report> salvage_notebook(const Call& call, const SalvageVerbWish& wish) {
    const Interrupt interrupt;
    desk::SalvageWish asked{.stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = desk::salvage(wish.damaged, wish.out, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    const std::string folder = report->notebook.string();
    std::string text;
    Json tables = Json::array();
    for (const auto& table : report->record.tables) {
        text += table_text(table);
        tables.push_back(table_json(table));
    }
    for (const auto& notice : report->record.notices)
        call.err << one_line(notice) << '\n';
    for (const auto& file : report->missing_photos)
        call.err << "The file of a photo is missing, its record is kept: " << one_line(file)
                 << '\n';
    text += "notebook " + one_line(folder) + ": " + counted(report->photos, "photo") +
            " copied; check it: fettlebook check --notebook " + one_line(folder) + '\n';
    return Report{text,
                  {{"notebook", folder},
                   {"tables", tables},
                   {"photos", report->photos},
                   {"missing_photos", report->missing_photos},
                   {"notices", report->record.notices}},
                  !report->record.is_whole() || !report->missing_photos.empty()};
}

} // namespace

void add_salvage(Line& line) {
    add_verb(line, line.app, "salvage", "Make a notebook of what can be saved of a damaged one",
             declare_salvage, salvage_notebook);
}

} // namespace fettle::cli
