#include "desk/demo.h"

#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/places.h"
#include "notebook/entries.h"
#include "notebook/parts.h"
#include "notebook/photos.h"

#include <ostream>

namespace fettle::cli {
namespace {

struct DemoWish {
    std::string folder;
};

void declare_demo(CLI::App& verb, DemoWish& wish) {
    verb.add_option("DIR", wish.folder, "The folder to make it in")->required();
    verb.footer("JSON: {notebook, photos, parts, entries}, the last three how many.");
}

Result<Report> demo(const Call& call, const DemoWish& wish) {
    calc::Catalogue sheets(desk::calc_program(), desk::plugin_folders());
    std::function<void(std::size_t, std::size_t, const std::string&)> progress;
    if (call.err_is_terminal) progress = progress_line(call.err);
    auto notebook = desk::make_demo(wish.folder, desk::demo_assets(), sheets, progress);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!notebook) return notebook.failure();
    auto photos = list_photos(*notebook);
    if (!photos) return photos.failure();
    auto parts = list_parts(*notebook);
    if (!parts) return parts.failure();
    auto entries = list_entries(*notebook);
    if (!entries) return entries.failure();
    const std::string folder = notebook->folder().string();
    return Report{one_line("demo notebook " + folder + ": " + counted(photos->size(), "photo") +
                           ", " + counted(parts->size(), "part") + ", " +
                           std::to_string(entries->size()) + " entries") +
                      '\n',
                  {{"notebook", folder},
                   {"photos", photos->size()},
                   {"parts", parts->size()},
                   {"entries", entries->size()}}};
}

} // namespace

void add_demo(Line& line) {
    add_verb(line, line.app, "demo",
             "Make the demo notebook, an invented rebuild to look around in", declare_demo, demo);
}

} // namespace fettle::cli
