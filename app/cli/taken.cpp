#include "cli/taken.h"

#include <ostream>

namespace fettle::cli {
namespace {

std::vector<std::int64_t> numbers(const std::vector<PhotoId>& photos) {
    std::vector<std::int64_t> plain;
    for (auto photo : photos)
        plain.push_back(photo.value);
    return plain;
}

Json left_out(const std::vector<desk::NotTaken>& files) {
    Json list = Json::array();
    for (const auto& [file, sentence] : files)
        list.push_back(Json{{"file", file.string()}, {"sentence", sentence}});
    return list;
}

} // namespace

std::string taken_summary(const desk::TakeInReport& report) {
    std::string text = "taken " + std::to_string(report.taken.size()) + ", already held " +
                       std::to_string(report.already_held.size()) + ", tied by tag " +
                       std::to_string(report.tied_by_tag) + ", unreadable " +
                       std::to_string(report.unreadable.size());
    if (!report.came_back.empty()) text += ", come back " + std::to_string(report.came_back.size());
    if (!report.damaged.empty()) text += ", damaged " + std::to_string(report.damaged.size());
    if (!report.guessed.empty()) text += ", time guessed " + std::to_string(report.guessed.size());
    text += '\n';
    if (report.proposed > 0)
        text += counted(std::size_t(report.proposed), "photo") +
                " proposed to follow a tag; `runs list` shows them\n";
    if (report.tied_by_sidecar + report.marks_by_sidecar > 0)
        text += "by sidecars: " + counted(std::size_t(report.tied_by_sidecar), "tie") + ", " +
                counted(std::size_t(report.marks_by_sidecar), "mark") + "\n";
    return text;
}

Json to_json(const desk::TakeInReport& report) {
    return {{"taken", numbers(report.taken)},
            {"already_held", numbers(report.already_held)},
            {"came_back", numbers(report.came_back)},
            {"tied_by_tag", report.tied_by_tag},
            {"proposed", report.proposed},
            {"tags_without_part", report.tags_without_part},
            {"tied_by_sidecar", report.tied_by_sidecar},
            {"marks_by_sidecar", report.marks_by_sidecar},
            {"guessed", numbers(report.guessed)},
            {"damaged", left_out(report.damaged)},
            {"unreadable", left_out(report.unreadable)}};
}

void tell_left_out(std::ostream& err, const desk::TakeInReport& report) {
    for (const auto* files : {&report.damaged, &report.unreadable, &report.sidecars_left})
        for (const auto& [file, sentence] : *files)
            err << one_line(sentence) << '\n';
    for (const auto& tag : report.tags_without_part)
        err << "The tag " << tag
            << " was read, but no part has it: add the part, then `runs propose`.\n";
}

void add_pause(CLI::App& verb, int& minutes) {
    verb.add_option("--pause", minutes,
                    "How many minutes without a photo end what follows a tag; without it 10")
        ->option_text("MINUTES")
        ->check(CLI::Range(1, 24 * 60));
}

} // namespace fettle::cli
