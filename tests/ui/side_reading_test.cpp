// Reading a large notebook beside the frames: what is shown meanwhile, what came too late, what
// failed, and that nothing typed is lost to an answer that comes after it.
#include "ui/beside/side_reading.h"
#include "ui/screens/bench/bench.h"
#include "ui/screens/find_results.h"
#include "ui/screens/log/log.h"
#include "ui/screens/marks/marks.h"
#include "ui/screens/parts/part_page.h"
#include "ui/screens/parts/parts.h"
#include "ui/screens/photos/photos.h"
#include "ui/screens/positions/missing_list.h"
#include "ui/screens/tasks/tasks.h"
#include "ui/workshop.h"

#include <chrono>
#include <filesystem>
#include <future>
#include <thread>

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::Workshop;

namespace {

// Holds up all readings asked for after it until it is opened.
class Gate {
  public:
    explicit Gate(SideReading& side) {
        side.ask<int>(std::make_shared<Coming<ReadBeside<int>>>(),
                      [until = until_](const Notebook&) -> Result<int> {
                          until.wait();
                          return 0;
                      });
    }
    ~Gate() { open(); }
    void open() {
        if (!std::exchange(is_open_, true)) opened_.set_value();
    }

  private:
    std::promise<void> opened_;
    std::shared_future<void> until_ = opened_.get_future().share();
    bool is_open_ = false;
};

Result<std::size_t> count_entries(const Notebook& book, int) {
    auto days = list_entry_days(book);
    if (!days) return days.failure();
    return days->size();
}

// Every notebook is a large one.
struct Beside : Workshop {
    SideReading side{book, {}, 0};
    Snapshot<std::size_t> entries;

    Beside() { context.side = &side; }
    std::size_t shown() { return entries.beside(&side, book, 0, count_entries); }
    std::size_t newest() {
        for (shown(); entries.is_reading(); shown())
            side.settle();
        return shown();
    }
};

// The same with frames of a screen, each after all that was asked for has been read.
void settle(SideReading& side, Driver& driver) {
    for (int i = 0; i < 3; ++i) {
        side.settle();
        driver.settle();
    }
}

void type_over(Driver& driver, const std::string& key, const std::string& text) {
    driver.reveal(key);
    driver.click(key);
    driver.press(Chord{'A', true});
    driver.type(text);
}

} // namespace

TEST_CASE("while a reading is under way the last answer is shown, then the new one") {
    Beside beside;
    {
        Gate gate(beside.side);
        CHECK(beside.shown() == 0);
        CHECK(beside.entries.nothing_yet());
    }
    beside.entry("2026-03-07", "Freed the king pin.");
    CHECK(beside.newest() == 1);
    CHECK_FALSE(beside.entries.nothing_yet());
    const auto before = beside.entries.readings();
    Gate gate(beside.side);
    beside.entry("2026-03-08", "Fitted it.");
    CHECK(beside.shown() == 1);
    CHECK(beside.entries.is_reading());
    CHECK_FALSE(beside.entries.nothing_yet());
    gate.open();
    CHECK(beside.newest() == 2);
    CHECK(beside.entries.readings() > before);
    // Nothing more is read while nothing has changed.
    const auto after = beside.entries.readings();
    CHECK(beside.newest() == 2);
    CHECK(beside.entries.readings() == after);
}

TEST_CASE("an answer that is older than an act is not taken for the newest") {
    Beside beside;
    beside.entry("2026-03-07", "Freed the king pin.");
    std::promise<void> has_read, goes_on;
    auto until = goes_on.get_future().share();
    bool held = false; // the first reading only
    const auto slow = [&, until](const Notebook& book, int) {
        auto count = count_entries(book, 0);
        if (!std::exchange(held, true)) {
            has_read.set_value();
            until.wait();
        }
        return count;
    };
    Snapshot<std::size_t> snapshot;
    (void)snapshot.beside(&beside.side, beside.book, 0, slow);
    has_read.get_future().wait(); // the one entry is read, and the answer not given yet
    beside.entry("2026-03-08", "Fitted it.");
    goes_on.set_value();
    beside.side.settle();
    // What has come was read before the act: it is shown, and another one is asked for.
    const std::size_t first = snapshot.beside(&beside.side, beside.book, 0, slow);
    CHECK((first == 1 || first == 2)); // 2: the other one has come within the frame
    CHECK((first == 2) == !snapshot.is_reading());
    beside.side.settle();
    CHECK(snapshot.beside(&beside.side, beside.book, 0, slow) == 2);
    CHECK_FALSE(snapshot.is_reading());
}

TEST_CASE("with an act in every frame answers still come") {
    Beside beside;
    for (int i = 0; i < 20; ++i) {
        beside.entry("2026-03-07", "Entry " + std::to_string(i) + ".");
        (void)beside.shown();
        beside.side.settle();
    }
    CHECK(beside.entries.readings() >= 10);
    CHECK(beside.newest() == 20);
}

TEST_CASE("an act on tables that were not read asks for no reading") {
    Beside beside;
    CHECK(beside.newest() == 0);
    const auto before = beside.entries.readings();
    beside.part("H7", "spring hanger");
    CHECK(beside.newest() == 0);
    CHECK(beside.entries.readings() == before);
}

TEST_CASE("a reading that fails is told, keeps the last answer, and the next one mends it") {
    Beside beside;
    beside.entry("2026-03-07", "Freed the king pin.");
    const auto read = [](const Notebook& book, int question) -> Result<std::size_t> {
        if (question == 1) return Failure{FailureKind::io, "The disk gave an error."};
        return count_entries(book, 0);
    };
    Snapshot<std::size_t> snapshot;
    const auto ask = [&](int question) {
        (void)snapshot.beside(&beside.side, beside.book, question, read);
        beside.side.settle();
        return snapshot.beside(&beside.side, beside.book, question, read);
    };
    CHECK(ask(0) == 1);
    CHECK(snapshot.failure().empty());
    CHECK(ask(1) == 1);
    CHECK(snapshot.failure() == "The disk gave an error.");
    CHECK_FALSE(snapshot.is_reading());
    CHECK(ask(0) == 1);
    CHECK(snapshot.failure().empty());
}

TEST_CASE("a notebook that was moved away meanwhile is told as by a reading within the frame") {
    Beside beside;
    CHECK(beside.newest() == 0);
    const auto folder = beside.book.folder();
    std::filesystem::rename(folder / "notebook.db", folder / "elsewhere.db");
    Snapshot<std::size_t> snapshot;
    (void)snapshot.beside(&beside.side, beside.book, 0, count_entries);
    beside.side.settle();
    (void)snapshot.beside(&beside.side, beside.book, 0, count_entries);
    CHECK(holds(snapshot.failure(), "was removed, moved or replaced"));
    std::filesystem::rename(folder / "elsewhere.db", folder / "notebook.db");
}

TEST_CASE("an answer to another question is not taken for this one's") {
    Beside beside;
    const auto itself = [](const Notebook&, int question) { return Result<int>(question); };
    Snapshot<int> snapshot;
    Gate gate(beside.side);
    (void)snapshot.beside(&beside.side, beside.book, 7, itself);
    (void)snapshot.beside(&beside.side, beside.book, 8, itself);
    gate.open();
    beside.side.settle();
    CHECK(snapshot.beside(&beside.side, beside.book, 8, itself) == 8);
    CHECK(snapshot.readings() == 1);
}

TEST_CASE("ending while a reading is under way waits for it and leaves the others out") {
    Workshop shop;
    bool ended = false, begun = false;
    {
        SideReading side(shop.book, {}, 0);
        std::promise<void> started;
        side.ask<int>(std::make_shared<Coming<ReadBeside<int>>>(),
                      [&](const Notebook& book) -> Result<int> {
                          started.set_value();
                          // Long enough for the ending to begin; nothing is judged by it.
                          std::this_thread::sleep_for(std::chrono::milliseconds(50));
                          ended = list_entry_days(book).ok();
                          return 0;
                      });
        started.get_future().wait();
        side.ask<int>(std::make_shared<Coming<ReadBeside<int>>>(),
                      [&](const Notebook&) -> Result<int> {
                          begun = true;
                          return 0;
                      });
    }
    CHECK(ended);
    CHECK_FALSE(begun);
    shop.entry("2026-03-07", "Freed the king pin."); // the notebook goes on
}

TEST_CASE("a small notebook is read within the frame, on the thread of the window") {
    Workshop shop;
    SideReading side(shop.book, {});
    CHECK_FALSE(side.is_needed());
    std::thread::id read_on;
    Snapshot<int> snapshot;
    CHECK(snapshot.beside(&side, shop.book, 3, [&](const Notebook&, int question) {
        read_on = std::this_thread::get_id();
        return Result<int>(question);
    }) == 3);
    CHECK(read_on == std::this_thread::get_id());
    CHECK_FALSE(snapshot.is_reading());
}

TEST_CASE("a screen that is being read for the first time says so, and not that it is empty") {
    Beside beside;
    SideWork work{[] {}};
    PhotosState photos;
    PartsState parts;
    TasksState tasks;
    MarksState marks;
    BenchState bench;
    MissingListState missing;
    auto& context = beside.context;
    const std::vector<std::pair<std::string, std::function<void(Page&)>>> screens{
        {"photos", [&](Page& page) { draw_photos(page, context, photos); }},
        {"parts", [&](Page& page) { draw_parts(page, context, work, parts); }},
        {"tasks", [&](Page& page) { draw_tasks(page, context, tasks); }},
        {"marks", [&](Page& page) { draw_marks(page, context, marks); }},
        {"bench", [&](Page& page) { draw_bench(page, context, bench); }},
        {"missing", [&](Page& page) { draw_missing(page, context, missing); }}};
    for (const auto& [name, draw] : screens) {
        CAPTURE(name);
        Gate gate(beside.side);
        auto driver = beside.drive(draw);
        CHECK(driver.shows(name + ".reading"));
        CHECK_FALSE(driver.shows(name + ".empty"));
        gate.open();
        settle(beside.side, driver);
        CHECK_FALSE(driver.shows(name + ".reading"));
        if (name != "missing") CHECK(driver.shows(name + ".empty"));
    }
}

TEST_CASE("the hours of the day stay as typed, whatever comes while they are written") {
    Beside beside;
    beside.task("Strip the axle");
    BenchState bench;
    auto driver = beside.drive([&](Page& page) { draw_bench(page, beside.context, bench); });
    settle(beside.side, driver);
    Gate gate(beside.side);
    type_over(driver, "bench.hours", "3");
    driver.press(Key::enter);
    CHECK(driver.value("bench.hours") == "3");
    type_over(driver, "bench.hours", "4.5");
    gate.open();
    settle(beside.side, driver);
    CHECK(driver.value("bench.hours") == "4.5");
    driver.press(Key::enter);
    settle(beside.side, driver);
    CHECK(driver.value("bench.hours") == "4.5");
    must(beside.book.undo());
    settle(beside.side, driver);
    CHECK(driver.value("bench.hours") == "3");
}

TEST_CASE("two fields of a part kept before it is read again are both kept") {
    Beside beside;
    SideWork work{[] {}};
    const auto hanger = beside.part("H7", "spring hanger");
    PartPageState state;
    state.open(hanger.id);
    auto driver =
        beside.drive([&](Page& page) { draw_part_page(page, beside.context, work, state); });
    settle(beside.side, driver);
    Gate gate(beside.side);
    driver.click("part.condition.2"); // cleaned
    type_over(driver, "part.edit.place", "box under the bench");
    driver.press(Key::enter);
    CHECK(driver.value("part.edit.place") == "box under the bench");
    gate.open();
    settle(beside.side, driver);
    const auto kept = must(part_by_id(beside.book, hanger.id));
    CHECK(kept.condition == Condition::cleaned);
    CHECK(kept.place == "box under the bench");
    CHECK(driver.value("part.edit.place") == "box under the bench");
}

TEST_CASE("an entry that is gone while the list still has it is drawn on its day") {
    Beside beside;
    const auto entry = beside.entry("2026-03-07", "Freed the king pin.");
    SideWork work{[] {}};
    EntryDesk desk(beside.book, beside.sheets, work);
    LogState log;
    auto driver =
        beside.drive([&](Page& page) { draw_log(page, beside.context, desk, work, log); });
    settle(beside.side, driver);
    const std::string day = "log." + std::to_string(entry.value) + ".day";
    CHECK(driver.expect_visible(day).label == "7 Mar 2026");
    Gate gate(beside.side);
    must(remove_entry(beside.book, entry));
    driver.settle();
    CHECK(driver.expect_visible(day).label == "7 Mar 2026");
    gate.open();
    settle(beside.side, driver);
    CHECK(driver.shows("log.empty"));
}

TEST_CASE("Enter pressed before the words are found waits for them, and takes none found before") {
    Beside beside;
    beside.part("H7", "spring hanger");
    const auto pin = beside.part("KP", "king pin");
    FindState find;
    std::string words;
    bool edited = false, entered = false;
    std::optional<Place> taken;
    auto driver = beside.drive([&](Page& page) {
        const auto place = draw_find_results(
            page, beside.context,
            {words, std::exchange(edited, false), std::exchange(entered, false), {0, 0, 800, 30}},
            find);
        if (place) taken = place;
    });
    const auto type = [&](const std::string& text) {
        words = text;
        edited = true;
        driver.settle();
    };
    {
        Gate gate(beside.side);
        type("hanger");
        CHECK(driver.shows("find.reading"));
        CHECK_FALSE(driver.shows("find.nothing"));
    }
    settle(beside.side, driver);
    CHECK(driver.expect_visible("find.0").label == "H7 spring hanger");
    Gate gate(beside.side);
    type("king");
    entered = true;
    driver.settle();
    CHECK(driver.expect_visible("find.0").label == "H7 spring hanger");
    CHECK_FALSE(taken.has_value());
    SUBCASE("then it leads there") {
        gate.open();
        settle(beside.side, driver);
        REQUIRE(taken.has_value());
        CHECK(taken->record == pin.id.value);
    }
    SUBCASE("but not when other words are typed meanwhile") {
        type("hang");
        gate.open();
        settle(beside.side, driver);
        CHECK_FALSE(taken.has_value());
        CHECK(driver.expect_visible("find.0").label == "H7 spring hanger");
    }
}
