#include "desk/consignment_papers.h"

#include "base/text.h"
#include "desk/paper_sheet.h"
#include "desk/places.h"
#include "notebook/evidence.h"
#include "notebook/marks.h"
#include "notebook/photos.h"
#include "notebook/ties.h"
#include "notebook/vehicles.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;
using Sheet = PaperSheet;

constexpr std::size_t kMostPhotosOfAPart = 6;

using Sums = std::map<std::string, std::int64_t>; // minor units by currency

std::string sums_words(const Sums& sums) {
    std::vector<std::string> words;
    for (const auto& [currency, minor] : sums)
        words.push_back(to_words(Money{minor, currency}));
    return join(words, " and ");
}

// The part of an item's value that is missing, to the whole minor unit.
std::int64_t missing_minor(const ConsignmentItem& item) {
    return std::llround(static_cast<double>(item.value->minor) * item.missing() / item.quantity);
}

std::string vehicle_words(const Notebook& notebook) {
    std::vector<std::string> names;
    if (auto vehicles = list_vehicles(notebook))
        for (const auto& vehicle : *vehicles)
            names.push_back(vehicle.name);
    return names.empty() ? std::string() : names.front();
}

std::string or_blank(const std::optional<Day>& day) {
    return day ? to_words(*day) : std::string();
}

struct Shot {
    PhotoId id{};
    fs::path file;
    std::string caption;
};

Result<Shot> shot_of(const Notebook& notebook, PhotoId id, const std::string& what) {
    auto photo = photo_by_id(notebook, id);
    if (!photo) return photo.failure();
    const std::string when = photo->taken ? to_words(*photo->taken) : photo->original_name;
    return Shot{id, photo_file(notebook, *photo),
                (what.empty() ? "" : what + ", ") + when + ", photo " + std::to_string(id.value)};
}

// Photos of a part up to the day it went, the last first; photos of papers do not count.
Result<std::vector<Shot>> shots_of(const Notebook& notebook, PartId part,
                                   const std::optional<Day>& until) {
    auto ties = ties_to(notebook, part);
    if (!ties) return ties.failure();
    std::vector<Shot> shots, later;
    for (const auto& tie : *ties) {
        if (tie.stage == Stage::proof) continue;
        auto photo = photo_by_id(notebook, tie.photo);
        if (!photo) return photo.failure();
        auto shot = shot_of(notebook, tie.photo, std::string(word(tie.stage)));
        if (!shot) return shot.failure();
        const bool after = until && photo->taken && photo->taken->day() > *until;
        (after ? later : shots).push_back(std::move(*shot));
    }
    if (shots.empty()) return later;
    std::ranges::reverse(shots);
    return shots;
}

// Everything a paper is made of, and where it is drawn.
struct Making {
    const Notebook& notebook;
    const Consignment& consignment;
    Sheet& sheet;
    photos::Decoder decoder{decode_program()};
};

void head(Making& making) {
    const auto& all = making.consignment;
    auto& sheet = making.sheet;
    sheet.fact(all.inward ? "from" : "to", all.firm);
    sheet.fact("for", all.purpose);
    sheet.fact("vehicle", vehicle_words(making.notebook));
    sheet.fact("sent", or_blank(all.sent_on));
    sheet.fact("due back", or_blank(all.due_on));
    sheet.fact("carrier",
               all.carrier + (all.carrier_number.empty() ? "" : ", number " + all.carrier_number));
    sheet.fact("declared value", declared_words(all));
    sheet.fact("note", all.note);
}

std::string pieces_line(const ConsignmentItem& item) {
    return item.quantity == 1 ? "1 piece" : std::to_string(item.quantity) + " pieces";
}

// One part: photo, tag large, what it is, and a square to tick.
Done packed_item(Making& making, const ConsignmentItem& item) {
    constexpr double kTall = 36, kPhotoWide = 48, kTagSize = 9;
    auto& sheet = making.sheet;
    sheet.need(kTall + 4);
    const double top = sheet.y(), left = Sheet::kLeft + kPhotoWide + 6;
    auto shots = shots_of(making.notebook, item.part, making.consignment.sent_on);
    if (!shots) return shots.failure();
    const Box area{Sheet::kLeft, top, kPhotoWide, kTall};
    if (shots->empty()) {
        sheet.box(area);
        sheet.text({area.left + 2, area.top + 6, area.width - 4}, "no photo of it", Sheet::kSmall);
    } else {
        sheet.photo(making.decoder, shots->front().file,
                    "photo " + std::to_string(shots->front().id.value), area);
    }
    const double width = Sheet::kLeft + Sheet::kWidth - left - 14;
    double y = top + kTagSize * 0.75;
    sheet.text({left, y, width}, item.tag, kTagSize, Ink::bold);
    y += 6.5;
    y += sheet.text({left, y, width}, item.name, Sheet::kBody + 0.4, Ink::plain, 2);
    std::string facts = pieces_line(item) + ", " + std::string(word(item.condition_out));
    if (item.value) facts += ", value " + to_words(*item.value);
    y += sheet.text({left, y, width}, facts, Sheet::kBody, Ink::plain, 2);
    sheet.text({left, y, width}, item.note, Sheet::kSmall, Ink::plain, 2);
    sheet.box({Sheet::kLeft + Sheet::kWidth - 9, top + 1, 8, 8});
    sheet.down(kTall + 2);
    sheet.rule();
    sheet.down(2);
    return done();
}

void signatures(Sheet& sheet) {
    sheet.need(34);
    sheet.down(18);
    const double y = sheet.y(), half = Sheet::kWidth / 2 - 4;
    for (const auto& [left, said] : {std::pair{Sheet::kLeft, "packed by, date"},
                                     std::pair{Sheet::kLeft + half + 8, "received by, date"}}) {
        sheet.box({left, y, half, 0});
        sheet.text({left, y + 4.5, half}, said, Sheet::kSmall);
    }
}

std::string sent_back_missing(const ConsignmentItem& item) {
    return "sent " + std::to_string(item.quantity) + ", back " + std::to_string(item.back) +
           ", missing " + std::to_string(item.missing());
}

// The list of the claim: a line an item in columns.
void claim_list(Making& making) {
    auto& sheet = making.sheet;
    constexpr double kTag = 0, kName = 24, kPieces = 92, kValue = 174;
    for (const auto& item : making.consignment.items) {
        sheet.need(14);
        const double baseline = sheet.y() + Sheet::kBody;
        const bool missing = item.missing() > 0;
        const Ink ink = missing ? Ink::bold : Ink::plain;
        sheet.text({Sheet::kLeft + kTag, baseline, kName - 2}, item.tag, Sheet::kBody, ink);
        const double tall = sheet.text({Sheet::kLeft + kName, baseline, kPieces - kName - 3},
                                       item.name, Sheet::kBody, ink, 2);
        sheet.text({Sheet::kLeft + kPieces, baseline, 56}, sent_back_missing(item), Sheet::kBody,
                   ink);
        if (item.value)
            sheet.text_to_right(Sheet::kLeft + kValue, baseline, to_words(*item.value),
                                Sheet::kBody, ink);
        sheet.down(tall);
        const std::string under =
            item.missing() == 0 ? standing_words(item)
            : !item.settled_how.empty()
                ? "settled: " + item.settled_how
                : "went " + std::string(word(item.condition_out)) + ", not come back";
        sheet.down(sheet.text({Sheet::kLeft + kName, sheet.y() + Sheet::kSmall * 0.8, 140}, under,
                              Sheet::kSmall));
        sheet.down(1.5);
        sheet.rule();
        sheet.down(1.5);
    }
}

// Photos two to a line, with their captions.
void photo_pairs(Making& making, const std::vector<Shot>& shots) {
    constexpr double kWide = 84, kTall = 63, kStep = 90;
    auto& sheet = making.sheet;
    for (std::size_t at = 0; at < shots.size(); ++at) {
        if (at % 2 == 0) sheet.need(kTall + 9);
        const double left = Sheet::kLeft + (at % 2 == 0 ? 0 : kStep);
        const std::string name = "photo " + std::to_string(shots[at].id.value);
        sheet.photo(making.decoder, shots[at].file, name, {left, sheet.y(), kWide, kTall});
        sheet.text({left, sheet.y() + kTall + 3.8, kWide}, shots[at].caption, Sheet::kSmall);
        if (at % 2 == 1 || at + 1 == shots.size()) sheet.down(kTall + 8);
    }
}

Done claim_photos(Making& making) {
    const auto& items = making.consignment.items;
    const bool any =
        std::ranges::any_of(items, [](const ConsignmentItem& item) { return item.missing() > 0; });
    for (const auto& item : items) {
        if (any && item.missing() == 0) continue;
        auto shots = shots_of(making.notebook, item.part, making.consignment.sent_on);
        if (!shots) return shots.failure();
        if (shots->size() > kMostPhotosOfAPart) shots->resize(kMostPhotosOfAPart);
        making.sheet.section("Photos of " + item.tag + ", " + item.name, shots->empty() ? 12 : 72);
        if (shots->empty()) making.sheet.paragraph("There is no photo of it in the notebook.");
        photo_pairs(making, *shots);
    }
    return done();
}

Done claim_papers(Making& making) {
    making.sheet.section("Papers", making.consignment.papers.empty() ? 12 : 125);
    std::vector<Shot> papers;
    for (const auto photo : making.consignment.papers) {
        auto shot = shot_of(making.notebook, photo, {});
        if (!shot) return shot.failure();
        papers.push_back(std::move(*shot));
    }
    if (papers.empty())
        making.sheet.paragraph("No paper was photographed. Add the carrier's receipt and the "
                               "invoice of what was lost.");
    constexpr double kTall = 116;
    for (const auto& paper : papers) { // large, so that they can be read
        making.sheet.need(kTall + 9);
        making.sheet.photo(making.decoder, paper.file, "photo " + std::to_string(paper.id.value),
                           {Sheet::kLeft, making.sheet.y(), Sheet::kWidth, kTall});
        making.sheet.text({Sheet::kLeft, making.sheet.y() + kTall + 3.8, Sheet::kWidth},
                          paper.caption, Sheet::kSmall);
        making.sheet.down(kTall + 8);
    }
    return done();
}

Result<Consignment> filled_consignment(const Notebook& notebook, ConsignmentId id) {
    auto all = consignment_by_id(notebook, id);
    if (all && all->items.empty())
        return Failure{FailureKind::refused, "Nothing is on consignment " +
                                                 std::to_string(id.value) +
                                                 " yet: put a part on first."};
    return all;
}

std::string foot_of(const Consignment& all) {
    return "consignment " + std::to_string(all.id.value) + ", " + all.firm + "     made " +
           to_words(today());
}

} // namespace

std::string declared_words(const Consignment& consignment) {
    if (consignment.value) return to_words(*consignment.value);
    Sums sums;
    for (const auto& item : consignment.items)
        if (item.value) sums[item.value->currency] += item.value->minor;
    return sums_words(sums);
}

std::string missing_value_words(const Consignment& consignment) {
    Sums sums;
    for (const auto& item : consignment.items)
        if (item.value && item.missing() > 0) sums[item.value->currency] += missing_minor(item);
    return sums_words(sums);
}

Result<int> write_packing_list(const Notebook& notebook, ConsignmentId id, const fs::path& file) {
    auto all = filled_consignment(notebook, id);
    if (!all) return all.failure();
    Sheet sheet("Packing list", foot_of(*all));
    Making making{notebook, *all, sheet};
    sheet.heading("Packing list, consignment " + std::to_string(id.value));
    head(making);
    int pieces = 0;
    for (const auto& item : all->items)
        pieces += item.quantity;
    sheet.section(std::to_string(all->items.size()) +
                  (all->items.size() == 1 ? " tag, " : " tags, ") +
                  (pieces == 1 ? "1 piece" : std::to_string(pieces) + " pieces"));
    for (const auto& item : all->items)
        if (auto drawn = packed_item(making, item); !drawn) return drawn.failure();
    signatures(sheet);
    return sheet.write(file, "packing list");
}

Result<int> write_claim_pack(const Notebook& notebook, ConsignmentId id, const fs::path& file) {
    auto all = filled_consignment(notebook, id);
    if (!all) return all.failure();
    Sheet sheet("Claim", foot_of(*all));
    Making making{notebook, *all, sheet};
    sheet.heading("Claim, consignment " + std::to_string(id.value));
    head(making);
    sheet.fact("stands", standing_words(*all, today()));
    sheet.fact("settled", all->settled_how);
    const auto value = missing_value_words(*all);
    sheet.fact("value missing", value.empty() ? "not said for the items" : value);
    sheet.section("What went, and what is missing");
    claim_list(making);
    if (auto drawn = claim_photos(making); !drawn) return drawn.failure();
    if (auto drawn = claim_papers(making); !drawn) return drawn.failure();
    return sheet.write(file, "claim pack");
}

Result<int> write_paper(const Notebook& notebook, ConsignmentId id, ConsignmentPaper kind,
                        const fs::path& file) {
    return kind == ConsignmentPaper::packing_list ? write_packing_list(notebook, id, file)
                                                  : write_claim_pack(notebook, id, file);
}

fs::path place_of_paper(const Notebook& notebook, ConsignmentId id, ConsignmentPaper kind) {
    return notebook.folder() / "papers" /
           ("consignment-" + std::to_string(id.value) +
            (kind == ConsignmentPaper::packing_list ? "-packing-list.pdf" : "-claim.pdf"));
}

} // namespace fettle::desk
