// Tying the chosen photos: the words of the stages with their keys, and the line where a part or a
// task is chosen by a few letters. Used by the screen of photos and the large photo.
#pragma once

#include "notebook/photos.h"
#include "notebook/ties.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/widgets/find_as_you_type.h"

#include <set>
#include <string>
#include <unordered_map>
#include <vector>

namespace fettle::ui {

inline constexpr int kNumbered = 9; // targets tied to by one digit

// What a person is in the middle of, and what was tied to lately.
struct TyingState {
    bool open = false;
    FindLine line;
    fettle::Stage stage = fettle::Stage::before;
    std::vector<TieTarget> lately; // in this session, the last first
    // Those with a digit: what was tied to last in this notebook. One keeps its digit until nine
    // others have been tied to since.
    std::vector<Target> numbered;
    Snapshot<std::vector<Target>> recent;
    Snapshot<std::vector<Candidate>, std::vector<std::int64_t>> known;
};

// Stage words; a press or Alt 1 to 6 sets the stage, T opens the line with it. The keys are said
// beside the words where there is room for it.
enum class Digits { set_the_stage, are_taken };
void stage_words(Page& page, TyingState& state, Digits digits);

// What was tied to last, a digit each: pressed, it ties the photos there at the stage. True when
// they were tied.
bool numbered_targets(Page& page, Context& context, TyingState& state,
                      const std::vector<PhotoId>& photos);

// The line itself while it is open. True when the photos were tied.
bool tie_line(Page& page, Context& context, TyingState& state, const std::vector<PhotoId>& photos);

// Parts, those tied to lately and those in the entry being written first, then open tasks, then
// entries, the newest first.
const std::vector<Candidate>& tie_candidates(const Notebook& book, TyingState& state,
                                             const std::vector<PartId>& in_entry);
// A part as a candidate has its id, a task the negative of its own, an entry one beyond all parts.
TieTarget target_of(std::int64_t candidate);

void put_into_entry(Context& context, const std::vector<PhotoId>& photos, fettle::Stage stage);

// The ties of photos, read again only when an act has changed what they say. With one photo those
// around it in the list are read: asking for each by itself takes many times as long.
class TieWords {
  public:
    const std::vector<Tie>& of(const Notebook& book, const std::vector<Photo>& photos,
                               std::size_t at);

  private:
    std::uint64_t counter_ = 0;
    std::set<std::string> tables_; // that they were read from
    std::unordered_map<std::int64_t, std::vector<Tie>> ties_;
};

} // namespace fettle::ui
