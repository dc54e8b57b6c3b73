#include "cli/verb.h"
#include "cli/verbs.h"

namespace fettle::cli {
namespace {

struct StartWish {
    std::string folder;
    std::string vehicle;
};

void declare_start(CLI::App& verb, StartWish& wish) {
    verb.add_option("DIR", wish.folder, "The folder to make the notebook in")->required();
    verb.add_option("--vehicle", wish.vehicle, "What the first vehicle is called")
        ->required()
        ->option_text("NAME");
    verb.footer("JSON: {notebook, vehicle}.");
}

Result<Report> start(const Call&, const StartWish& wish) {
    auto notebook = Notebook::create(wish.folder, wish.vehicle);
    if (!notebook) return notebook.failure();
    const std::string folder = notebook->folder().string();
    return Report{one_line("notebook " + folder + ", vehicle " + wish.vehicle) + '\n',
                  {{"notebook", folder}, {"vehicle", wish.vehicle}}};
}

} // namespace

void add_start(Line& line) {
    add_verb(line, line.app, "start", "Make a notebook with its first vehicle", declare_start,
             start);
}

} // namespace fettle::cli
