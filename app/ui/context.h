// What every screen is given beside the Page it draws on: the notebook and the rooms below it, the
// entry being written, and the ways to lead elsewhere and to say how an act went.
// Made by the app once; screens keep no reference beyond the frame. UI thread only.
#pragma once

#include "calc/catalogue.h"
#include "notebook/drafts.h"
#include "notebook/notebook.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace fettle::ui {

class Pixels;      // ui/pictures/pixels.h
class SideReading; // ui/beside/side_reading.h
struct BookAsk;    // ui/beside/book_job.h
struct OutAsk;     // ui/beside/out_job.h
struct CarryAsk;   // ui/beside/carry_job.h

// Where a link leads: a screen by its key and the record to show there (0: the screen as it is).
struct Place {
    // "bench", "log", "photos", "parts", "tasks", "sent_out", "marks", "sheets", "money", "people",
    // "book", "keeping", "two_machines"
    std::string screen;
    std::int64_t record = 0;
    std::int64_t mark = 0; // with a photo: show it where this mark was read
    std::int64_t with = 0; // with a photo: compare it with this other one
    // With parts and tasks: "new". With photos: "take-in". With parts: "positions" (the record is
    // one), "group" (the first position of it, `with` its vehicle), "missing", "parts". With bench:
    // "rebuild", "today". With book: the dossier of a "part" or a "consignment". With marks:
    // "torch", of the photos below, or the set of the mark that is the record, made again; "marks".
    std::string view = {};
    std::vector<PhotoId> photos = {}; // of a torch set
};

struct Context {
    Notebook& book;
    calc::Catalogue& sheets;
    Pixels& pixels;
    EntryDraft& draft;         // the entry being written; whatever is looked at can be put into it
    bool draft_edited = false; // set when a screen has changed the draft: it is kept and shown
    std::optional<Place> go;   // set to lead somewhere after this frame
    bool write_on = false;     // set to put the caret into the entry after this frame
    std::string trouble;       // the sentence of the last act that failed; empty: none
    // Takes photos in, as when files are dropped on the window. Returns at once.
    std::function<void(std::vector<std::filesystem::path>)> take_in = {};
    // Copies photos into a folder, or writes sidecars. Returns at once.
    std::function<void(const OutAsk&)> give_out = {};
    // Writes the build book. Returns at once.
    std::function<void(const BookAsk&)> write_book = {};
    // Carries to the other machine, or meets what came from there. Returns at once.
    std::function<void(const CarryAsk&)> exchange = {};
    // The folder whose new photos are taken in by themselves.
    std::function<void(const std::filesystem::path&)> watch = {};
    std::function<void()> stop_watching = {};
    std::string watched; // as shown; empty: none
    // Held while photos are taken in, on whatever thread: one take-in at a time.
    std::shared_ptr<std::mutex> taking_in = std::make_shared<std::mutex>();
    // Where what grows with the notebook is read; none: within the frame.
    SideReading* side = nullptr;

    // Notes how an act went; true when it went well. The bottom line takes the words of what was
    // done from the notebook's history.
    template <class T>
    bool went_well(const Result<T>& result) {
        trouble = result ? std::string() : result.failure().sentence;
        return result.ok();
    }
};

} // namespace fettle::ui
