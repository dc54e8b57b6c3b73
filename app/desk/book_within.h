// For the files book_*.cpp of this room alone: what is read of the notebook once, and the chapters
// made of it.
#pragma once

#include "base/names_in_text.h"
#include "base/text.h"
#include "desk/book.h"
#include "notebook/consignments.h"
#include "notebook/entries.h"
#include "notebook/parts.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "notebook/ties.h"
#include "notebook/vehicles.h"

#include <string>
#include <vector>

namespace fettle::desk {

// A failure anywhere ends the making of a book; the chapters need not hand it on line by line.
struct BookTrouble {
    Failure failure;
};
template <class T>
T book_must(Result<T> result) {
    if (!result) throw BookTrouble{result.failure()};
    return std::move(*result);
}

// What the chapters share: the records of the notebook that the wish leaves in.
class BookSources {
  public:
    BookSources(const Notebook& notebook, const BookWish& wish);

    const Notebook& notebook;
    const BookWish& wish;
    Vehicle vehicle;
    std::vector<Vehicle> vehicles;
    std::map<PositionId, Position> positions;
    std::vector<PositionFill> fills; // of the vehicle, or of all
    std::map<PartId, Part> parts;    // all
    std::map<TaskId, Task> tasks;    // all
    std::vector<Entry> entries;      // those wanted, the oldest first
    std::vector<Consignment> consignments;

    bool of_vehicle(const Part& part) const;
    bool within(Day day) const;
    // Parts of the vehicle, by tag.
    std::vector<Part> vehicle_parts() const;
    std::string group_of(const Part& part) const; // of its position; empty: none
    const Photo& photo(PhotoId id) const;         // read when first asked for

  private:
    bool wanted(const Entry& entry) const;
    mutable std::map<PhotoId, Photo> photos_;
};

inline std::string name_of(const Part& part) {
    return part.tag + " " + part.name;
}

// "H7 spring hanger, before, 7 Mar 2026": what a photo shows, for a caption or who cannot see it.
Shot shot_of(const BookSources& sources, PhotoId photo, const std::string& shows);

// One entry with its photos and worked results.
void add_entry(const BookSources& sources, const Entry& entry, std::vector<Block>& blocks);
// The worked answer as the screen shows it: typed, figures, tables, charts, working, notes,
// sources.
void add_worked(const BookWish& wish, const calc::Answer& answer, std::vector<Block>& blocks);
// A part: what is known of it, condition steps, measurements, entries, where it was.
void add_history(const BookSources& sources, const Part& part, std::vector<Block>& blocks);
std::optional<BeforeAfter> before_after(const BookSources& sources, const Part& part);
void add_marks_of(const BookSources& sources, const std::vector<Mark>& marks,
                  std::vector<Block>& blocks);

// Empty chapters are left out by the caller.
Chapter glance_chapter(const BookSources& sources);
std::vector<Chapter> entry_chapters(const BookSources& sources);
Chapter pairs_chapter(const BookSources& sources);
Chapter histories_chapter(const BookSources& sources);
Chapter marks_chapter(const BookSources& sources);
Chapter sent_out_chapter(const BookSources& sources);
void add_consignment(const BookSources& sources, const Consignment& consignment,
                     std::vector<Block>& blocks);
Chapter costs_chapter(const BookSources& sources);
Chapter credits_chapter(const BookSources& sources);
Chapter open_points_chapter(const BookSources& sources);

// A book with its title and period, and no chapter yet.
BookContent begun_book(const BookSources& sources, const std::string& subject);
BookContent since_of(const BookSources& sources);

// Has the names in entries lead to where the book tells of what they name; elsewhere they are words
// alone. Photos that are led to get their anchors.
void lead_names(BookContent& content);
// What leads to a part's history or a photo: "part-12", "photo-33".
std::string anchor_of_name(const NameInText& name);

// Letters and digits of the words in small, the rest `-`: "chapter-2026-03".
std::string anchor_of(const std::string& words);

} // namespace fettle::desk
