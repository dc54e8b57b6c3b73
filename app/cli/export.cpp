#include "cli/interrupt.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "cli/which_photos.h"
#include "desk/sidecars.h"

namespace fettle::cli {
namespace {

struct OutVerbWish {
    std::string folder; // of export
    WhichPhotos which;
    bool with_place = false;
};

constexpr const char* kWhatIsTold =
    "A sidecar (XMP) tells what the photo is tied to and its marks, by Dublin Core and the regions "
    "of the\nMetadata Working Group; take-in reads it back. What other programs wrote in one "
    "stays.\nExit code 1 when a photo had to be left out; each is named on standard error.\n";

void declare_common(CLI::App& verb, OutVerbWish& wish) {
    add_which_photos(verb, wish.which);
    verb.add_flag("--with-place", wish.with_place,
                  "Tell where photos were taken; without it that is left out everywhere");
}

void declare_export(CLI::App& verb, OutVerbWish& wish) {
    verb.add_option("DIR", wish.folder, "The folder for the copies; made when it is missing")
        ->required();
    declare_common(verb, wish);
    verb.footer(std::string(kWhatIsTold) +
                "JSON: {folder, written, left_out, stopped}; left_out lists {photo, sentence}.");
}

void declare_sidecars(CLI::App& verb, OutVerbWish& wish) {
    declare_common(verb, wish);
    verb.footer(std::string("Only for photos that were taken in with --in-place; the originals "
                            "are not touched.\n") +
                kWhatIsTold +
                "JSON: {written, left_out, stopped}; left_out lists {photo, "
                "sentence}.");
}

Json out_json(const desk::OutReport& report) {
    Json left_out = Json::array();
    for (const auto& [photo, sentence] : report.left_out)
        left_out.push_back(Json{{"photo", photo.value}, {"sentence", sentence}});
    return {{"written", report.written}, {"left_out", left_out}, {"stopped", report.stopped}};
}

// `write` gives the report of one of the two ways out.
template <class Write>
Result<Report> write_out(const Call& call, const OutVerbWish& wish, const std::string& where,
                         Write write) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto filter = filter_of(*notebook, wish.which);
    if (!filter) return filter.failure();
    const Interrupt interrupt;
    desk::OutWish asked{
        .photos = *filter, .with_place = wish.with_place, .stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = write(*notebook, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    for (const auto& [photo, sentence] : report->left_out)
        call.err << "Photo " << photo.value << " is left out: " << one_line(sentence) << '\n';
    if (report->stopped) call.err << "Stopped before the end; what was written stays.\n";
    return Report{counted(report->written, "photo") + where + '\n', out_json(*report),
                  !report->left_out.empty() || report->stopped};
}

Result<Report> export_to(const Call& call, const OutVerbWish& wish) {
    auto report = write_out(call, wish, " with sidecars in " + one_line(wish.folder),
                            [&](const Notebook& notebook, const desk::OutWish& asked) {
                                return desk::export_photos(notebook, wish.folder, asked);
                            });
    if (report) report->json["folder"] = wish.folder;
    return report;
}

Result<Report> sidecars(const Call& call, const OutVerbWish& wish) {
    return write_out(call, wish, " given a sidecar", desk::write_sidecars);
}

} // namespace

void add_export(Line& line) {
    add_verb(line, line.app, "export", "Copy photos with what is known of them into a folder",
             declare_export, export_to);
    add_verb(line, line.app, "sidecars", "Write what is known of photos beside their originals",
             declare_sidecars, sidecars);
}

} // namespace fettle::cli
