#include "campaigns/kill_acts.h"

#include "base/whole_file.h"
#include "notebook/consignments.h"
#include "notebook/drafts.h"
#include "notebook/entries.h"
#include "notebook/part_pieces.h"
#include "notebook/parts.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "notebook/ties.h"
#include "photos/hashing.h"

#include <fstream>
#include <iterator>
#include <optional>
#include <span>

namespace kill_campaign {
namespace {

using namespace fettle;
using Random = std::mt19937_64;

std::size_t below(Random& random, std::size_t count) {
    return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
}

std::string words(Random& random, std::size_t most) {
    static const std::vector<std::string> kWords = {
        "shackle", "seized", "heat", "5/16", "hanger", "½ in", "bush", "Federbock", "patience"};
    std::string text;
    for (auto left = 1 + below(random, most); left > 0; --left)
        text += (text.empty() ? "" : " ") + kWords[below(random, kWords.size())];
    return text;
}

Day some_day(Random& random) {
    using namespace std::chrono;
    return year(2026) / March / day(1 + static_cast<unsigned>(below(random, 28)));
}

std::optional<Part> some_part(const Notebook& book, Random& random) {
    auto parts = list_parts(book);
    if (!parts || parts->empty()) return std::nullopt;
    return (*parts)[below(random, parts->size())];
}

void add_a_part(Notebook& book, Random& random) {
    Part part;
    part.name = words(random, 3);
    part.tag = "T" + std::to_string(random() % 1'000'000);
    part.quantity = 1 + static_cast<int>(below(random, 12));
    (void)add_part(book, part);
}

void change_a_part(Notebook& book, Random& random) {
    const auto part = some_part(book, random);
    if (!part) return;
    static const std::vector<std::pair<std::string, std::string>> kFields = {
        {"condition", "stripped"},
        {"condition", "cleaned"},
        {"place", "shelf 2"},
        {"note", "bent, and straightened cold"}};
    const auto& [field, value] = kFields[below(random, kFields.size())];
    (void)set_part_field(book, part->tag, field, value);
}

void divide_a_lot(Notebook& book, Random& random) {
    if (const auto part = some_part(book, random)) (void)divide_lot(book, part->id, 1);
}

void add_a_photo(Notebook& book, Random& random) {
    std::ifstream picture(book.folder().parent_path() / kTinyPicture, std::ios::binary);
    // What stands after a picture's end makes it another file.
    const std::string bytes =
        std::string(std::istreambuf_iterator<char>(picture), {}) + std::to_string(random());
    photos::Hashing hashing;
    hashing.add(std::as_bytes(std::span(bytes)));
    Photo photo;
    photo.hash = hashing.digits();
    photo.file = "photos/" + photo.hash + ".jpg";
    if (!write_whole(book.folder() / photo.file, bytes)) return;
    photo.original_name = photo.hash + ".jpg";
    photo.format = "JPEG";
    photo.bytes = static_cast<std::int64_t>(bytes.size());
    photo.width = 40;
    photo.height = 30;
    (void)add_photo(book, photo);
}

void tie_a_photo(Notebook& book, Random& random) {
    const auto part = some_part(book, random);
    auto photos = list_photos(book);
    if (!part || !photos || photos->empty()) return;
    (void)tie_photos(book, {(*photos)[below(random, photos->size())].id}, part->id,
                     Stage::as_found);
}

void write_an_entry(Notebook& book, Random& random) {
    Entry entry{.day = some_day(random), .hours = 0.5, .text = words(random, 2000)};
    if (const auto part = some_part(book, random)) entry.parts = {part->id};
    (void)write_entry(book, entry);
}

void remove_an_entry(Notebook& book, Random& random) {
    auto entries = list_entries(book);
    if (entries && !entries->empty())
        (void)remove_entry(book, (*entries)[below(random, entries->size())].id);
}

void send_something(Notebook& book, Random& random) {
    (void)keep_consignment(book, {.firm = words(random, 2), .purpose = "crack testing"});
}

void pack_something(Notebook& book, Random& random) {
    const auto part = some_part(book, random);
    auto consignments = list_consignments(book, some_day(random));
    if (!part || !consignments || consignments->empty()) return;
    (void)put_on(book, consignments->front().id, {.part = part->id});
}

void think_of_a_task(Notebook& book, Random& random) {
    (void)keep_task(book, {.title = words(random, 4), .estimate_hours = 2.0});
}

void type(Notebook& book, Random& random) {
    (void)keep_draft(book, {.hours = "1", .text = words(random, 30)});
}

void go_back(Notebook& book, Random&) {
    (void)book.undo();
}

void go_forth(Notebook& book, Random&) {
    (void)book.redo();
}

} // namespace

void act_at_random(Notebook& book, Random& random) {
    static constexpr void (*kActs[])(Notebook&, Random&) = {
        add_a_part,     add_a_part,     change_a_part, divide_a_lot,    add_a_photo,
        tie_a_photo,    write_an_entry, type,          remove_an_entry, think_of_a_task,
        send_something, pack_something, go_back,       go_back,         go_back,
        go_forth,       go_forth};
    kActs[below(random, std::size(kActs))](book, random);
}

std::vector<std::string> verb_at_random(Random& random) {
    switch (below(random, 5)) {
    case 0:
        return {"part", "add", words(random, 3)};
    case 1:
        return {"log", words(random, 300)};
    case 2:
        return {"task", "add", words(random, 4)};
    case 3:
        return {"redo"};
    default:
        return {"undo"};
    }
}

} // namespace kill_campaign
