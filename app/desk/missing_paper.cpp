#include "desk/missing_paper.h"

#include "desk/paper_sheet.h"

namespace fettle::desk {
namespace {

using Sheet = PaperSheet;
constexpr double kNumber = 9, kName = 27, kPieces = 124; // columns from the left edge

std::string pieces_words(const PositionFill& fill) {
    std::string said =
        "get " + std::to_string(fill.to_get()) + " of " + std::to_string(fill.position.quantity);
    return fill.to_get() == 0 ? "all of it is away" : said;
}

void small_line(Sheet& sheet, const std::string& said) {
    if (said.empty()) return;
    sheet.down(
        sheet.text({Sheet::kLeft + kName, sheet.y() + Sheet::kSmall * 0.9, Sheet::kWidth - kName},
                   said, Sheet::kSmall, Ink::plain, 3));
}

void draw_line(Sheet& sheet, const MissingLine& line, Day today) {
    const Position& at = line.fill.position;
    const double extra = double(line.away.size() + line.might_fit.size() + 1) * 4.5;
    sheet.need(10 + std::min(extra, 60.0));
    const double baseline = sheet.y() + Sheet::kBody;
    sheet.box({Sheet::kLeft, sheet.y(), 4.5, 4.5});
    sheet.text({Sheet::kLeft + kNumber, baseline, kName - kNumber - 2}, at.number);
    const double tall = sheet.text({Sheet::kLeft + kName, baseline, kPieces - kName - 3}, at.name,
                                   Sheet::kBody, Ink::bold, 2);
    sheet.text({Sheet::kLeft + kPieces, baseline, Sheet::kWidth - kPieces}, pieces_words(line.fill),
               Sheet::kBody, Ink::bold);
    sheet.down(tall);
    small_line(sheet, at.spec);
    for (const auto& away : line.away)
        small_line(sheet, away.words(today));
    for (const auto& fit : line.might_fit)
        small_line(sheet, "might fit: " + fit.words());
    sheet.down(1.5);
    sheet.rule();
    sheet.down(1.5);
}

} // namespace

Result<int> write_missing(const std::vector<MissingLine>& lines, const std::string& of, Day today,
                          const std::filesystem::path& file) {
    Sheet sheet("Missing", of + "     made " + to_words(today));
    sheet.heading("Missing on " + of);
    if (lines.empty()) sheet.paragraph("Nothing is missing.");
    const MissingLine* before = nullptr;
    for (const auto& line : lines) {
        const auto& group = line.fill.position.group;
        if (!before || before->fill.position.group != group || before->vehicle != line.vehicle) {
            const std::string title = group.empty() ? "Without a group" : group;
            sheet.section(line.vehicle == of ? title : line.vehicle + ": " + title, 20);
        }
        draw_line(sheet, line, today);
        before = &line;
    }
    return sheet.write(file, "shopping list");
}

std::filesystem::path place_of_missing(const Notebook& notebook, const std::string& ending) {
    return notebook.folder() / "papers" / ("missing." + ending);
}

} // namespace fettle::desk
