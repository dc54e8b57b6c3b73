// A notebook used roughly: a disk that is really full, meetings under a disk that breaks, clocks
// that jump, two programs at once.
#include "notebook/two_machines.h"
#include "notebook/whole_book.h"
#include "small_disk.h"
#include "store/fault_disk.h"

#include <atomic>
#include <thread>

using namespace fettle;
using notebook_tests::what_is_wrong_with;
using store::Access;
using store_tests::Fault;
using store_tests::FaultDisk;

namespace {

namespace fs = std::filesystem;

// Writes a moment into the clock's last reading, as if it had stood there when the last act was
// done: it has gone backwards since.
void clock_stood_at(Notebook& book, std::int64_t moment) {
    must(book.write_aside([&](store::Database& database) {
        database.run("UPDATE sides SET seen = ? WHERE side = (SELECT side FROM here)", moment);
    }));
}

// Two machines that share a beginning; what each holds.
struct Pair {
    Desk garage;
    Notebook house = begun_house();

    Notebook begun_house() {
        garage.part("H7", "spring hanger");
        return begun(garage.folder / "house", carried(garage.book));
    }
    void exchange() {
        met(house, carried(garage.book));
        met(garage.book, carried(house));
    }
};

} // namespace

TEST_CASE("on a disk that is really full acts fail in a sentence, and go on when there is room") {
    const SmallDisk disk(2048);
    if (!disk.mounted()) {
        MESSAGE("skipped: no small disk can be mounted here");
        return;
    }
    auto book = must(Notebook::create(disk / "book", "Drover"));
    must(add_part(book, {.name = "spring hanger"}));
    disk.fill();
    int done_before = 0;
    std::string refused;
    for (; refused.empty() && done_before < 1000; ++done_before) {
        const auto went = write_entry(
            book, {.day = must(parse_day("2026-03-07")), .text = std::string(3000, 'x')});
        if (!went) refused = went.failure().sentence;
    }
    CHECK(refused == "The disk is full: nothing of this act was written.");
    CHECK(must(list_parts(book)).size() == 1); // still read
    CHECK(holds(sentence(Notebook::create(disk / "other", "Drover")), "."));
    CHECK_FALSE(fs::exists(disk / "other/notebook.db"));
    disk.empty();
    must(add_part(book, {.name = "spring pin"}));
    CHECK(must(list_entries(book)).size() == static_cast<std::size_t>(done_before - 1));
    CHECK(what_is_wrong_with(book) == "");
}

TEST_CASE("wherever the power is cut in a meeting, it is there as a whole or not at all") {
    Pair pair;
    std::set<std::string> before, after; // records: moments differ from run to run
    std::optional<ToCarry> set;
    {
        must(set_part_field(pair.house, "H7", "condition", "stripped"));
        pair.garage.part("B3", "spring bush");
        must(set_part_field(pair.garage.book, "H7", "condition", "cleaned"));
        set = carried(pair.garage.book);
        before = all_of(pair.house);
        const auto closed = std::move(pair.house);
    }
    const auto house = pair.garage.folder / "house", kept = pair.garage.folder / "kept";
    fs::copy(house, kept, fs::copy_options::recursive);
    const auto meet = [&]() -> Done {
        auto book = Notebook::open(house, Access::write);
        if (!book) return book.failure();
        if (auto fine = check_set(*book, set->told); !fine) return fine;
        auto arrival = Unpacked::unpack(*book, set->told, set->changes);
        if (!arrival) return arrival.failure();
        auto went = bring_in(*book, *arrival, {});
        return went ? done() : Done(went.failure());
    };
    must(meet());
    after = all_of(must(Notebook::open(house, Access::read)));
    REQUIRE(after != before);
    FaultDisk disk;
    std::mt19937_64 random(20260311);
    int broken = 0;
    for (long call = 1;; call += 29) {
        CAPTURE(call);
        fs::remove_all(house);
        fs::copy(kept, house, fs::copy_options::recursive);
        disk.forget();
        disk.fail_at(call % 2 == 0 ? Fault::full : Fault::gone, call);
        const Done went = meet();
        disk.heal();
        if (disk.failed() && call % 2 != 0) disk.settle(random, 0.5);
        if (!went) CHECK(went.failure().sentence.ends_with('.'));
        std::set<std::string> found;
        {
            const auto book = must(Notebook::open(house, Access::write));
            CHECK(what_is_wrong_with(book) == "");
            found = all_of(book);
        }
        CHECK((found == after || (!went && found == before)));
        if (found == after && !disk.failed()) break;
        const Done again = meet();
        if (found == before)
            ++broken, must(again);
        else
            CHECK(again.failure().kind == FailureKind::cancelled); // met already
        CHECK(all_of(must(Notebook::open(house, Access::read))) == after);
    }
    CHECK(broken > 5);
}

TEST_CASE("a clock that has gone backwards loses no later change when two machines meet") {
    Pair pair;
    constexpr std::int64_t kYear2099 = 4'070'908'800'000; // ms since 1970 (date -d 2099-01-01 +%s)
    clock_stood_at(pair.garage.book, kYear2099);
    must(set_part_field(pair.garage.book, "H7", "condition", "stripped"));
    pair.exchange();
    CHECK(must(part_tagged(pair.house, "H7")).condition == Condition::stripped);
    // The house's clock says this year: what is done there now is later all the same.
    must(set_part_field(pair.house, "H7", "condition", "cleaned"));
    pair.exchange();
    pair.exchange();
    CHECK(must(part_tagged(pair.garage.book, "H7")).condition == Condition::cleaned);
    CHECK(must(list_differences(pair.garage.book, true)).empty());
    // And after the garage's clock was put right.
    must(set_part_field(pair.garage.book, "H7", "note", "bent"));
    pair.exchange();
    CHECK(must(part_tagged(pair.house, "H7")).note == "bent");
    CHECK(all_of(pair.house) == all_of(pair.garage.book));
}

TEST_CASE("dates in the far future, or long before, are kept and shown, and nothing crashes") {
    Desk desk;
    const auto part = desk.part("H7", "spring hanger");
    for (const char* day : {"9999-12-31", "2999-02-28", "1900-01-01"})
        desk.entry(day, "Greased.");
    const auto entries = must(list_entries(desk.book));
    REQUIRE(entries.size() == 3);
    CHECK(to_iso(entries.front().day) == "9999-12-31"); // the newest first
    CHECK(to_iso(entries.back().day) == "1900-01-01");
    std::vector<PhotoId> photos;
    for (const char* taken : {"2999-03-07T19:42:05", "2999-03-07T19:42:50", "9999-12-31T23:59:59",
                              "1900-01-01T00:00:00"})
        photos.push_back(desk.photo(std::string(taken) + ".jpg", taken));
    CHECK(must(list_photos(desk.book)).size() == 4);
    must(propose_runs(desk.book));
    must(tie_photos(desk.book, photos, part.id, Stage::before));
    (void)carried(desk.book);
    while (desk.book.undo()) {
    }
    CHECK(must(list_parts(desk.book)).empty());
}

TEST_CASE("what another program reads meanwhile are whole acts only") {
    Desk desk;
    auto reader = must(Notebook::open(desk.folder / "book", Access::read));
    std::atomic<bool> over = false;
    std::jthread writing([&] { // a connection of its own, as another program's
        for (int act = 0; act < 150; ++act)
            (void)desk.book.act("two parts", [&](store::Database&) -> Done {
                for (const char* name : {"pin", "bush"})
                    if (auto added = add_part(desk.book, {.name = name}); !added)
                        return added.failure();
                return done();
            });
        over = true;
    });
    const auto count = [](store::Database& database, const char* name) {
        auto row = database.query("SELECT count(*) FROM parts WHERE name = ?", name);
        row.next();
        return row.get<int>(0);
    };
    int readings = 0, last = 0;
    while (!over) {
        const auto [pins, bushes] = must(reader.read([&](store::Database& database) {
            const int before = count(database, "pin");
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
            return std::pair(before, count(database, "bush")); // two queries, one state
        }));
        CHECK(pins == bushes);
        CHECK(pins >= last);
        last = pins;
        ++readings;
    }
    CHECK(readings > 1);
    writing.join();
    CHECK(must(list_parts(reader)).size() == 300);
}
