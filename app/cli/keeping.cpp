#include "cli/interrupt.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/backup.h"
#include "desk/check.h"

namespace fettle::cli {
namespace {

struct BackupVerbWish {
    std::string file;
};

struct RestoreVerbWish {
    std::string file, folder;
};

struct CheckVerbWish {
    bool mend = false;
};

void declare_backup(CLI::App& verb, BackupVerbWish& wish) {
    verb.add_option("FILE", wish.file, "The zip file to write, best on another disk")->required();
    verb.footer("The database and all photos, those left in place elsewhere too; may run while the "
                "window is open.\nIt is read through again before it counts. A backup of that name "
                "gives way to the new one.\n"
                "Exit code 1 when something had to be left out; each is named on standard error.\n"
                "JSON: {file, made, files, photos, bytes, verified, left_out}.");
}

void declare_restore(CLI::App& verb, RestoreVerbWish& wish) {
    verb.add_option("FILE", wish.file, "A backup")->required();
    verb.add_option("DIR", wish.folder, "A new or empty folder for the notebook")->required();
    verb.footer("Everything is verified before the folder gets its name.\n"
                "JSON: {notebook, files, moved_in, made}.");
}

void declare_check(CLI::App& verb, CheckVerbWish& wish) {
    verb.add_flag("--mend", wish.mend,
                  "Put right what can be: photos that were moved within the notebook, the index of "
                  "words, the cache");
    verb.footer("Reads the database and every photo; may run while the window is open, without "
                "--mend.\nExit code 1 when something is wrong.\n"
                "JSON: {photos, wrong, findings}; findings lists {kind, sentence, advice, wrong, "
                "mended}.");
}

Result<Report> make_backup(const Call& call, const BackupVerbWish& wish) {
    const Interrupt interrupt;
    desk::BackupWish asked{.stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = desk::back_up(call.notebook, wish.file, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    for (const auto& sentence : report->left_out)
        call.err << one_line(sentence) << '\n';
    const std::string file = report->file.string();
    return Report{"backup " + one_line(file) + ": " + counted(report->files, "file") + ", " +
                      counted(report->photos, "photo") + ", verified\n",
                  {{"file", file},
                   {"made", report->made},
                   {"files", report->files},
                   {"photos", report->photos},
                   {"bytes", report->bytes},
                   {"verified", true},
                   {"left_out", report->left_out}},
                  !report->left_out.empty()};
}

Result<Report> restore_backup(const Call& call, const RestoreVerbWish& wish) {
    const Interrupt interrupt;
    desk::BackupWish asked{.stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = desk::restore(wish.file, wish.folder, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    const std::string folder = report->notebook.string();
    return Report{"notebook " + one_line(folder) + ": " + counted(report->files, "file") +
                      ", verified; the backup was made " + report->made + '\n' +
                      (report->moved_in == 0 ? ""
                                             : counted(report->moved_in, "photo") +
                                                   " that stood elsewhere now in photos/outside\n"),
                  {{"notebook", folder},
                   {"files", report->files},
                   {"moved_in", report->moved_in},
                   {"made", report->made}}};
}

Json finding_json(const desk::CheckFinding& finding) {
    return {{"kind", desk::word(finding.kind)},
            {"sentence", finding.sentence},
            {"advice", finding.advice},
            {"wrong", finding.is_wrong()},
            {"mended", finding.mended}};
}

Result<desk::CheckReport> checked(const Call& call, bool mend, const desk::CheckWish& asked) {
    if (!mend) return desk::check(call.notebook, asked);
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    return desk::check_and_mend(*notebook, asked);
}

Result<Report> check_notebook(const Call& call, const CheckVerbWish& wish) {
    const Interrupt interrupt;
    desk::CheckWish asked{.stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = checked(call, wish.mend, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    std::string text;
    Json findings = Json::array();
    for (const auto& finding : report->findings) {
        text += one_line(finding.sentence) + '\n' + indented(finding.advice, 2);
        findings.push_back(finding_json(finding));
    }
    const auto wrong = report->wrong();
    text += counted(report->photos, "photo") + " looked at; " +
            (wrong == 0 ? "nothing is wrong" : counted(wrong, "thing") + " wrong") + '\n';
    if (wrong > 0) call.err << "The notebook is not sound: see what to do with each finding.\n";
    return Report{
        text, {{"photos", report->photos}, {"wrong", wrong}, {"findings", findings}}, wrong > 0};
}

} // namespace

void add_keeping(Line& line) {
    add_verb(line, line.app, "check", "Whether the notebook is sound, and what to do if not",
             declare_check, check_notebook);
    add_verb(line, line.app, "backup", "Write everything into one file, and verify it",
             declare_backup, make_backup);
    add_verb(line, line.app, "restore", "Make a notebook of a backup", declare_restore,
             restore_backup);
}

} // namespace fettle::cli
