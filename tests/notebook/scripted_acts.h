// An evening's acts, each of which changes the notebook, always the same: for runs in which
// something breaks at every place in turn. Starts from Notebook::create and changes no file.
#pragma once

#include "notebook/consignments.h"
#include "notebook/drafts.h"
#include "notebook/entries.h"
#include "notebook/part_pieces.h"
#include "notebook/people.h"
#include "notebook/photos.h"
#include "notebook/positions.h"
#include "notebook/tasks.h"
#include "notebook/ties.h"
#include "notebook/vehicles.h"

#include <functional>
#include <string>
#include <vector>

namespace notebook_tests {

using Act = std::function<fettle::Done(fettle::Notebook&)>;

namespace detail {

template <class T>
fettle::Done told(const fettle::Result<T>& result) {
    return result ? fettle::done() : fettle::Done(result.failure());
}

inline fettle::Day day(unsigned of_march) {
    using namespace std::chrono;
    return year(2026) / March / std::chrono::day(of_march);
}

// Part number `number` of those the script has added: ids count from 1.
inline fettle::PartId part(std::int64_t number) {
    return {number};
}

inline Act adds_part(const std::string& tag, const std::string& name, int quantity = 1) {
    return [=](fettle::Notebook& book) {
        fettle::Part part;
        part.tag = tag;
        part.name = name;
        part.quantity = quantity;
        return told(fettle::add_part(book, part));
    };
}

inline Act adds_photo(char digit) {
    return [=](fettle::Notebook& book) {
        fettle::Photo photo;
        photo.hash = std::string(32, digit);
        photo.file = std::string("photos/") + digit + ".jpg";
        photo.original_name = std::string(1, digit) + ".jpg";
        photo.format = "JPEG";
        photo.width = 1600;
        photo.height = 1200;
        return told(fettle::add_photo(book, photo));
    };
}

inline Act writes_entry(unsigned on, std::size_t letters) {
    return [=](fettle::Notebook& book) {
        std::string text = "Freed the shackle pin. ";
        while (text.size() < letters)
            text += "Heat and patience, " + std::to_string(text.size()) + " times over. ";
        return told(fettle::write_entry(book, {.day = day(on),
                                               .hours = 1.5,
                                               .text = text,
                                               .parts = {part(1)},
                                               .photos = {{{1}, fettle::Stage::during}}}));
    };
}

inline Act undoes() {
    return [](fettle::Notebook& book) { return told(book.undo()); };
}
inline Act redoes() {
    return [](fettle::Notebook& book) { return told(book.redo()); };
}

inline Act sends_out() {
    return [](fettle::Notebook& book) -> fettle::Done {
        auto id = fettle::keep_consignment(
            book, {.firm = "Saltash Row Blasting", .purpose = "crack testing"});
        return told(id);
    };
}

} // namespace detail

inline std::vector<Act> scripted_acts() {
    using namespace detail;
    using fettle::Notebook;
    return {
        adds_part("H7", "spring hanger"),
        adds_part("B3", "spring bush", 8),
        adds_photo('a'),
        adds_photo('b'),
        [](Notebook& book) {
            return fettle::tie_photos(book, {{1}, {2}}, part(1), fettle::Stage::as_found);
        },
        writes_entry(7, 100),
        writes_entry(8, 20'000), // more than one page of the database
        [](Notebook& book) {
            return fettle::keep_draft(book, {.hours = "2", .text = "Half a sentence"});
        },
        undoes(),
        undoes(),
        redoes(),
        [](Notebook& book) { return told(fettle::keep_task(book, {.title = "Ream the bushes"})); },
        [](Notebook& book) {
            return fettle::set_task_state(book, {1}, fettle::TaskState::done, day(9));
        },
        [](Notebook& book) {
            return told(fettle::set_part_field(book, "H7", "condition", "stripped"));
        },
        [](Notebook& book) { return told(fettle::divide_lot(book, part(2), 3, "B4")); },
        sends_out(),
        [](Notebook& book) { return fettle::put_on(book, {1}, {.part = part(1)}); },
        [](Notebook& book) { return fettle::send_consignment(book, {1}, day(10)); },
        undoes(),
        [](Notebook& book) { return fettle::remove_entry(book, {1}); },
        undoes(),
        [](Notebook& book) { return fettle::drop_draft(book); },
        [](Notebook& book) { return told(fettle::keep_contact(book, {.name = "Nora Vane"})); },
    };
}

} // namespace notebook_tests
