// The entry being written and what happens to it: kept on every pause in typing, written beside the
// window, opened for changing, put aside and brought back. Nothing typed is lost on the way.
// Knows no widgets. UI thread only; owns the draft.
#pragma once

#include "calc/catalogue.h"
#include "notebook/drafts.h"
#include "ui/beside/side_work.h"

#include <memory>
#include <optional>
#include <string>

namespace fettle::ui {

class EntryDesk {
  public:
    // Takes up the draft left from last time.
    EntryDesk(Notebook& book, calc::Catalogue& sheets, SideWork& work);
    ~EntryDesk(); // keeps what is not kept yet

    EntryDraft draft;

    // Once a frame: keeps the draft half a second after the last edit, or at once when nobody is
    // typing; takes over a writing that has ended. `now` in seconds of any steady clock.
    void tick(double now, bool edited, bool typing);
    void keep_now();

    void write(); // ends with a later tick, mostly the next one
    bool writing() const { return writing_->awaited(); }

    // Opens an entry for changing. With another entry under way it only asks: see wants_to_change.
    void change(EntryId entry);
    EntryId wants_to_change{};
    void write_then_change(); // what the question offers

    void put_aside(); // the draft makes room for a blank one
    bool has_put_aside() const { return put_aside_.has_value(); }
    void bring_back(); // what was put aside; what is being written then makes room

    std::string trouble;  // why the last act failed; empty: it did not
    std::string kept_at;  // "10:42" of the last keeping; empty: nothing kept yet
    std::string not_kept; // why the draft could not be kept; empty: it could
    bool kept() const { return !edited_since_kept_; } // all that was typed
    std::optional<EntryId> take_written();            // the entry written since the last call
    bool take_replaced(); // the draft is another one than in the last frame

  private:
    void begin(EntryDraft fresh);
    void take_up(EntryId entry);
    void finish_writing(Result<EntryId> outcome);

    Notebook& book_;
    calc::Catalogue& sheets_;
    SideWork& work_;
    std::shared_ptr<Coming<Result<EntryId>>> writing_ = std::make_shared<Coming<Result<EntryId>>>();
    std::optional<EntryDraft> put_aside_;
    std::optional<EntryId> written_;
    EntryId change_after_{};
    bool edited_since_kept_ = false, replaced_ = false;
    double edited_at_ = 0;
};

} // namespace fettle::ui
