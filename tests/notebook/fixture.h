// A notebook with one vehicle in a folder of the test's own, and short ways to fill it.
#pragma once

#include "notebook/entries.h"
#include "notebook/marks.h"
#include "notebook/parts.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "notebook/vehicles.h"
#include "temp_folder.h"

#include <doctest/doctest.h>

#include <cstdio>

// The value of a Result that must be there; the test stops with the sentence when it isn't.
template <class T>
T must(fettle::Result<T> result) {
    if (!result) FAIL(result.failure().sentence << " / " << result.failure().detail);
    return std::move(*result);
}

// The sentence of a Result that must have failed.
template <class T>
std::string sentence(const fettle::Result<T>& result) {
    REQUIRE_FALSE(result.ok());
    return result.failure().sentence;
}

inline bool holds(const std::string& text, const std::string& piece) {
    return text.find(piece) != std::string::npos;
}

struct Desk {
    TempFolder folder;
    fettle::Notebook book = must(fettle::Notebook::create(folder / "book", "Drover"));
    fettle::VehicleId drover = must(fettle::vehicle_named(book, "Drover")).id;

    fettle::Part part(const std::string& tag, const std::string& name) {
        fettle::Part fresh;
        fresh.tag = tag;
        fresh.name = name;
        return must(fettle::add_part(book, fresh));
    }
    fettle::PhotoId photo(const std::string& name, const std::string& taken = {}) {
        fettle::Photo fresh;
        char hash[33];
        std::snprintf(hash, sizeof hash, "%032zx", std::hash<std::string>()(name));
        fresh.hash = hash;
        fresh.file = "photos/" + name;
        fresh.original_name = name;
        fresh.format = "JPEG";
        fresh.width = 1600;
        fresh.height = 1200;
        if (!taken.empty()) fresh.taken = must(fettle::parse_moment(taken));
        return must(fettle::add_photo(book, fresh));
    }
    fettle::TaskId task(const std::string& title, std::vector<fettle::TaskId> needs = {}) {
        return must(fettle::keep_task(book, {.title = title, .needs = std::move(needs)}));
    }
    fettle::EntryId entry(const std::string& day, const std::string& text) {
        return must(fettle::write_entry(book, {.day = must(fettle::parse_day(day)), .text = text}));
    }
};
