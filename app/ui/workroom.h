// The whole of what the window shows, over one notebook: the room with its screens, the entry being
// written, and the work that goes on beside. Needs a Page and an InputQueue and no window, so tests
// drive it headless. UI thread only; owns the draft, the screens' states and the jobs.
#pragma once

#include "ui/beside/book_job.h"
#include "ui/beside/carry_job.h"
#include "ui/beside/keeping_job.h"
#include "ui/beside/out_job.h"
#include "ui/beside/side_reading.h"
#include "ui/beside/side_work.h"
#include "ui/beside/snapshot.h"
#include "ui/beside/take_in_job.h"
#include "ui/beside/watch_job.h"
#include "ui/context.h"
#include "ui/entry/entry_desk.h"
#include "ui/entry/entry_panel.h"
#include "ui/frame/input_queue.h"
#include "ui/pictures/pixels.h"
#include "ui/screens/bench/bench.h"
#include "ui/screens/book/book.h"
#include "ui/screens/find_results.h"
#include "ui/screens/keeping/keeping.h"
#include "ui/screens/keeping/two_machines.h"
#include "ui/screens/log/log.h"
#include "ui/screens/marks/marks.h"
#include "ui/screens/money/money.h"
#include "ui/screens/parts/parts.h"
#include "ui/screens/people.h"
#include "ui/screens/photos/photos.h"
#include "ui/screens/sent_out/sent_out.h"
#include "ui/screens/sheets.h"
#include "ui/screens/tasks/tasks.h"
#include "ui/shell.h"
#include "ui/widgets/keys_page.h"
#include "ui/window_state.h"

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fettle::ui {

class Workroom {
  public:
    struct Settings {
        Surface surface = Surface::opengl;
        std::function<void()> wake; // asks for a frame, from any thread
        RoomState state = {};
        std::uintmax_t large_from = SideReading::kLarge; // bytes; ui/beside/side_reading.h
    };
    Workroom(Notebook& book, calc::Catalogue& sheets, const Settings& settings);
    ~Workroom(); // stops a take-in between two files and keeps the draft

    void frame(Page& page, InputQueue& input);
    void show(const Place& place);
    void open_sheet(const std::string& id);
    void show_tasks(bool as_picture);
    void take_in(std::vector<std::filesystem::path> paths) { job_.start(std::move(paths)); }

    // As the person wants it, to be kept for the next time.
    RoomState state() const;
    std::vector<std::string> screen_keys();
    // For pictures: views within screens, and pages of what has the most to show.
    std::vector<std::pair<std::string, Place>> further_places() const;
    // For pictures: lets everything under way arrive.
    void settle();

  private:
    // What a person chose of each, by its key.
    static auto tables(auto& room) {
        return std::array{std::pair{"parts", &room.parts_.table},
                          std::pair{"missing", &room.parts_.missing.table},
                          std::pair{"money", &room.money_.table},
                          std::pair{"costs", &room.money_.noted}};
    }

    // What the room around the screens says, read when the notebook has changed.
    struct Headline {
        std::string title, next_undo, next_redo, air, humidity;
        std::string to_settle; // differences between two machines; empty: none
    };
    static Result<Headline> read_headline(const Notebook& book, Day day);
    const std::string& untied_photos(); // how many; empty: none
    const std::string& sent_out_said(); // how much is out or overdue; empty: nothing

    std::vector<Screen> screens(const Headline& headline);
    ShellShown shown();
    void answer(const ShellAsked& asked);
    void find(Page& page, const ShellAsked& asked);
    void stop_work();
    void set_day();
    void take_report();
    void take_carried();
    void close_report();
    void change_size(const ShellAsked& asked);
    std::optional<Work> work_under_way() const;
    void tell_report(ShellShown& shown) const;
    void watch(const std::filesystem::path& folder);
    void watch_on();
    void take_dropped(InputQueue& input);
    void draw_report(Page& page);
    void after_frame();

    Notebook& book_;
    SideWork work_;
    SideReading reading_;
    Pixels pixels_;
    EntryDesk desk_;
    Context context_;
    ShellState shell_;
    KeysPageState keys_;
    EntryPanelState panel_;
    FindState find_;
    BenchState bench_;
    LogState log_;
    PhotosState photos_;
    PartsState parts_;
    TasksState tasks_;
    SentOutState sent_out_;
    MarksState marks_;
    MoneyState money_;
    PeopleState people_;
    SheetsState sheets_;
    BookState book_pages_;
    KeepingState kept_;
    TwoMachinesState machines_;
    Snapshot<Headline, Day> headline_;
    // Costly to count, and changed by few acts.
    Snapshot<std::string> untied_;
    Snapshot<std::string, Day> out_said_;
    TakeInJob job_;
    WatchJob watch_;
    OutJob out_;
    BookJob writing_;
    KeepingJob keeping_;
    CarryJob carrying_;
    std::optional<desk::TakeInReport> report_;
    std::optional<OutDone> given_out_;
    std::optional<BookDone> written_;
    std::optional<CarryDone> carried_;
    std::string as_found_; // what was amiss when the notebook was opened
    bool report_unfolded_ = false;
    std::string day_error_;
    Light light_;
    float text_scale_;
    Surface surface_;
};

} // namespace fettle::ui
