#include "cli/interrupt.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/data_in.h"
#include "desk/data_out.h"

namespace fettle::cli {
namespace {

struct GivingOutWish {
    std::string folder;
    bool photos = false;
};

struct TakingInWish {
    std::string folder, notebook;
    bool csv = false;
};

void declare_data_out(CLI::App& verb, GivingOutWish& wish) {
    verb.add_option("DIR", wish.folder, "A new or empty folder for the files")->required();
    verb.add_flag("--photos", wish.photos,
                  "The photos, too, each with a sidecar; with the place they were taken at");
    verb.footer(
        "Writes each table as JSON Lines and as CSV, and README.md with the schema. All of "
        "it, or nothing.\n"
        "Exit code 1 when a photo had to be left out; each is named on standard error.\n"
        "JSON: {folder, tables, rows, photos, left_out}; left_out lists {photo, sentence}.");
}

void declare_data_in(CLI::App& verb, TakingInWish& wish) {
    verb.add_option("DIR", wish.folder, "A folder that `data out` has written")->required();
    verb.add_option("FOLDER", wish.notebook, "A new or empty folder for the notebook")->required();
    verb.add_flag("--csv", wish.csv, "Read the CSV files instead of the JSON Lines");
    verb.footer("Photos are looked for by their hash in DIR/photos; what is missing there is named "
                "on standard error,\nand their records are kept.\n"
                "JSON: {notebook, rows, photos, missing_photos, notices}.");
}

Result<Report> give_data_out(const Call& call, const GivingOutWish& wish) {
    const Interrupt interrupt;
    desk::DataOutWish asked{.photos = wish.photos, .stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = desk::data_out(call.notebook, wish.folder, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    Json left_out = Json::array();
    for (const auto& [photo, sentence] : report->photos.left_out) {
        call.err << "Photo " << photo.value << " is left out: " << one_line(sentence) << '\n';
        left_out.push_back(Json{{"photo", photo.value}, {"sentence", sentence}});
    }
    const std::string folder = report->folder.string();
    return Report{counted(report->rows, "row") + " of " + counted(report->tables, "table") +
                      (wish.photos ? " and " + counted(report->photos.written, "photo") : "") +
                      " in " + one_line(folder) + '\n',
                  {{"folder", folder},
                   {"tables", report->tables},
                   {"rows", report->rows},
                   {"photos", report->photos.written},
                   {"left_out", left_out}},
                  !report->photos.left_out.empty()};
}

Result<Report> take_data_in(const Call& call, const TakingInWish& wish) {
    const Interrupt interrupt;
    desk::DataInWish asked{.form = wish.csv ? desk::DataForm::csv : desk::DataForm::json_lines,
                           .stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = desk::data_in(wish.folder, wish.notebook, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    for (const auto& notice : report->notices)
        call.err << one_line(notice) << '\n';
    for (const auto& file : report->missing_photos)
        call.err << "The file of a photo is missing, its record is kept: " << one_line(file)
                 << '\n';
    const std::string folder = report->notebook.string();
    return Report{"notebook " + one_line(folder) + ": " + counted(report->rows, "row") + ", " +
                      counted(report->photos, "photo") + " brought" +
                      (report->missing_photos.empty()
                           ? ""
                           : ", " + std::to_string(report->missing_photos.size()) + " missing") +
                      '\n',
                  {{"notebook", folder},
                   {"rows", report->rows},
                   {"photos", report->photos},
                   {"missing_photos", report->missing_photos},
                   {"notices", report->notices}}};
}

} // namespace

void add_data(Line& line) {
    auto& data = add_group(line, "data", "Everything as JSON Lines and CSV: out, in");
    add_verb(line, data, "out", "Write everything into files that other programs read",
             declare_data_out, give_data_out);
    add_verb(line, data, "in", "Make a notebook of such files", declare_data_in, take_data_in);
}

} // namespace fettle::cli
