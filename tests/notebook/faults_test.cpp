// What becomes of a notebook when the disk under it fails at any moment: at every call that SQLite
// makes of it in turn, over an evening's acts.
#include "base/sanitized.h"
#include "notebook/scripted_acts.h"
#include "notebook/whole_book.h"
#include "store/fault_disk.h"
#include "temp_folder.h"

#include <doctest/doctest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>

using namespace fettle;
using namespace notebook_tests;
using store::Access;
using store_tests::Fault;
using store_tests::FaultDisk;

namespace {

namespace fs = std::filesystem;

const std::vector<Act> kActs = scripted_acts();

// The evening without a fault: what the notebook holds at its beginning and after each act.
class Evening {
  public:
    Evening() {
        auto book = Notebook::create(begun_ / "book", "Drover");
        REQUIRE(book.ok());
        after_.push_back(content_of(*book));
        for (const auto& act : kActs) {
            const Done went = act(*book);
            REQUIRE_MESSAGE(went.ok(), went.failure().sentence);
            after_.push_back(content_of(*book));
            REQUIRE(after_.back() != after_[after_.size() - 2]);
        }
        fs::remove_all(begun_ / "book");
        REQUIRE(Notebook::create(begun_ / "book", "Drover").ok());
    }
    // A notebook as at the beginning.
    void lay_out(const fs::path& folder) const {
        fs::remove_all(folder);
        fs::copy(begun_ / "book", folder, fs::copy_options::recursive);
    }
    // What it holds after so many acts.
    const std::string& after(std::size_t acts) const { return after_[acts]; }

  private:
    TempFolder begun_;
    std::vector<std::string> after_;
};

const Evening& evening() {
    static const Evening known;
    return known;
}

struct Ended {
    std::size_t acknowledged = 0;
    std::string sentence; // of the act that failed
};

Ended act_until_trouble(const fs::path& folder) {
    Ended ended;
    auto book = Notebook::open(folder, Access::write);
    if (!book) return {0, book.failure().sentence};
    for (const auto& act : kActs) {
        if (const Done went = act(*book); !went) {
            ended.sentence = went.failure().sentence;
            break;
        }
        ++ended.acknowledged;
    }
    return ended;
}

// What was acknowledged is there; the act that failed is there as a whole or not at all.
void check_found(const fs::path& folder, const Ended& ended) {
    auto book = Notebook::open(folder, Access::write);
    REQUIRE_MESSAGE(book.ok(), book.failure().sentence);
    CHECK(what_is_wrong_with(*book) == "");
    const auto content = content_of(*book);
    const bool as_acknowledged = content == evening().after(ended.acknowledged);
    const bool one_more = !ended.sentence.empty() && ended.acknowledged < kActs.size() &&
                          content == evening().after(ended.acknowledged + 1);
    CHECK((as_acknowledged || one_more));
}

// What `body` says when it is run by a user who has no rights here: in a process of its own.
template <class Body>
std::string as_somebody_else(Body&& body) {
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        constexpr uid_t kNobody = 65534;
        const bool became = geteuid() != 0 || setuid(kNobody) == 0; // root may write anywhere
        const std::string said = became ? body() : "cannot become another user";
        const auto size = static_cast<ssize_t>(said.size());
        _exit(write(ends[1], said.data(), said.size()) == size ? 0 : 1);
    }
    close(ends[1]);
    std::string said;
    char piece[4096];
    for (ssize_t got; (got = read(ends[0], piece, sizeof piece)) > 0;)
        said.append(piece, static_cast<std::size_t>(got));
    close(ends[0]);
    waitpid(child, nullptr, 0);
    return said;
}

// Every call takes a minute of processor time; the suite takes each seventh (under a sanitizer each
// nineteenth), beginning elsewhere in each test, unless FETTLEBOOK_FAULTS=every.
const long kStride = std::getenv("FETTLEBOOK_FAULTS") ? 1 : fettle::kSanitized ? 19 : 7;

// Breaks the disk at one call after the other until the evening passes untouched; gives how many
// places there were.
template <class Check>
long at_every_call(FaultDisk& disk, Fault fault, long first, Check&& check) {
    TempFolder folder;
    for (long call = first;; call += kStride) {
        CAPTURE(call);
        evening().lay_out(folder / "book");
        disk.forget();
        disk.fail_at(fault, call);
        const Ended ended = act_until_trouble(folder / "book");
        disk.heal();
        if (!disk.failed()) return call - 1;
        check(folder / "book", ended);
    }
}

} // namespace

TEST_CASE(
    "wherever the disk fails once, the act says so, nothing is half done and the evening goes on") {
    evening();
    FaultDisk disk;
    TempFolder folder;
    long call = 1;
    for (; call < 100'000; call += kStride) {
        CAPTURE(call);
        evening().lay_out(folder / "book");
        disk.forget();
        disk.fail_at(Fault::once, call);
        auto book = Notebook::open(folder / "book", Access::write);
        if (!book) continue;
        for (std::size_t act = 0; act < kActs.size(); ++act) {
            if (kActs[act](*book)) continue;
            // The same program goes on: it sees the act or does not, and can do it now.
            const bool done_all_the_same = content_of(*book) == evening().after(act + 1);
            if (done_all_the_same) continue;
            REQUIRE(content_of(*book) == evening().after(act));
            REQUIRE(kActs[act](*book).ok());
        }
        if (!disk.failed()) break;
        CHECK(content_of(*book) == evening().after(kActs.size()));
        CHECK(what_is_wrong_with(*book) == "");
    }
    MESSAGE("places at which the disk failed once: ", call - 1);
    CHECK(call > 100);
}

TEST_CASE(
    "wherever the disk becomes full, what was acknowledged is there and nothing is half done") {
    evening();
    FaultDisk disk;
    const long places =
        at_every_call(disk, Fault::full, 2, [](const fs::path& folder, const Ended& ended) {
            if (!ended.sentence.empty())
                CHECK(ended.sentence == "The disk is full: nothing of this act was written.");
            check_found(folder, ended);
        });
    MESSAGE("places at which the disk became full: ", places);
    CHECK(places > 100);
}

TEST_CASE(
    "wherever the disk is pulled out, acts fail in a sentence and all that was done is on it") {
    evening();
    FaultDisk disk;
    const long places =
        at_every_call(disk, Fault::gone, 3, [](const fs::path& folder, const Ended& ended) {
            CHECK((ended.acknowledged == kActs.size() || ended.sentence.ends_with('.')));
            check_found(folder, ended);
        });
    MESSAGE("places at which the disk was pulled out: ", places);
}

TEST_CASE("wherever the power is cut, what was acknowledged is there and nothing is half done") {
    evening();
    FaultDisk disk;
    std::mt19937_64 random(20260307);
    constexpr double kChances[] = {0, 0.5, 0.9, 1};
    for (long round = 0; round < (kStride == 1 ? 4 : 1); ++round)
        at_every_call(disk, Fault::gone, 1 + round,
                      [&](const fs::path& folder, const Ended& ended) {
                          const double chance = kChances[random() % std::size(kChances)];
                          CAPTURE(chance);
                          disk.settle(random, chance);
                          check_found(folder, ended);
                      });
}

TEST_CASE("a notebook that does not wait for the disk would lose what was acknowledged") {
    // The control of the tests above: without syncs the power cut is noticed.
    evening();
    FaultDisk disk;
    TempFolder folder;
    std::mt19937_64 random(20260308);
    bool lost = false;
    for (long call = 100; call < 600 && !lost; call += 50) {
        disk.forget();
        evening().lay_out(folder / "book");
        std::size_t acknowledged = 0;
        {
            auto book = Notebook::open(folder / "book", Access::write);
            REQUIRE(book.ok());
            REQUIRE(book->read([](store::Database& database) {
                            database.run_script("PRAGMA synchronous = OFF");
                            return 0;
                        })
                        .ok());
            disk.fail_at(Fault::gone, call);
            while (acknowledged < kActs.size() && kActs[acknowledged](*book))
                ++acknowledged;
        }
        disk.heal();
        disk.settle(random, 0);
        auto book = Notebook::open(folder / "book", Access::write);
        lost = !book || content_of(*book) != evening().after(acknowledged);
    }
    CHECK(lost);
}

TEST_CASE("wherever the making of a notebook breaks off, there is none or a whole one") {
    FaultDisk disk;
    TempFolder folder;
    std::mt19937_64 random(20260309);
    for (long call = 1;; call += 3 * kStride) {
        CAPTURE(call);
        fs::remove_all(folder / "book");
        disk.forget();
        disk.fail_at(Fault::gone, call);
        const bool made = Notebook::create(folder / "book", "Drover").ok();
        disk.heal();
        disk.settle(random, 0.5);
        const bool there = fs::exists(folder / "book/notebook.db");
        CHECK((there || !made));
        auto book = there ? Notebook::open(folder / "book", Access::write)
                          : Notebook::create(folder / "book", "Drover");
        REQUIRE_MESSAGE(book.ok(), book.failure().sentence);
        CHECK(content_of(*book) == evening().after(0));
        CHECK(what_is_wrong_with(*book) == "");
        if (!disk.failed()) break;
    }
}

TEST_CASE("wherever bringing an old notebook up breaks off, the next opening completes it") {
    FaultDisk disk;
    TempFolder folder;
    const auto lay_out = [&] {
        fs::remove_all(folder / "book");
        fs::create_directories(folder / "book/photos");
        fs::copy_file(FETTLEBOOK_SOURCE_DIR "/tests/notebook/data/schema1.db",
                      folder / "book/notebook.db");
    };
    lay_out();
    disk.fail_at(Fault::none, 0);
    const auto untouched = content_of(*Notebook::open(folder / "book", Access::write));
    const long calls = disk.calls();
    std::mt19937_64 random(20260310);
    for (long call = 1; call < calls; call += 3 * kStride) {
        CAPTURE(call);
        lay_out();
        disk.forget();
        disk.fail_at(Fault::gone, call);
        (void)Notebook::open(folder / "book", Access::write);
        disk.heal();
        disk.settle(random, 0.5);
        auto book = Notebook::open(folder / "book", Access::write);
        REQUIRE_MESSAGE(book.ok(), book.failure().sentence);
        CHECK(content_of(*book) == untouched);
        CHECK(what_is_wrong_with(*book) == "");
    }
}

TEST_CASE("a notebook that is removed or replaced behind its program takes no more acts") {
    TempFolder folder;
    evening().lay_out(folder / "book");
    auto book = Notebook::open(folder / "book", Access::write);
    REQUIRE(book.ok());
    REQUIRE(kActs[0](*book).ok());
    auto reader = Notebook::open(folder / "book", Access::read);
    REQUIRE(reader.ok());
    fs::rename(folder / "book/notebook.db", folder / "elsewhere.db");
    const std::string told =
        " was removed, moved or replaced while it was open: nothing was read or written. "
        "Put it back (plug in its disk), or close it and open the one that is there now.";
    CHECK(kActs[1](*book).failure().sentence ==
          "The notebook in " + (folder / "book").string() + told);
    CHECK(list_parts(*book).failure().sentence.ends_with(told));
    CHECK(list_parts(*reader).failure().sentence.ends_with(told));
    fs::copy_file(folder / "elsewhere.db",
                  folder / "book/notebook.db"); // another file of that name
    CHECK(kActs[1](*book).failure().sentence.ends_with(told));
    CHECK(book->undo().failure().sentence.ends_with(told));
    CHECK(keep_draft(*book, {.text = "x"}).failure().sentence.ends_with(told));
    fs::remove(folder / "book/notebook.db");
    fs::rename(folder / "elsewhere.db", folder / "book/notebook.db"); // put back
    CHECK(kActs[1](*book).ok());
    CHECK(list_parts(*reader)->size() == 2);
    // With its whole folder, as a stick is pulled out and plugged in again.
    fs::rename(folder / "book", folder / "away");
    CHECK(kActs[2](*book).failure().sentence.ends_with(told));
    CHECK(list_parts(*reader).failure().sentence.ends_with(told));
    CHECK(Notebook::open(folder / "book", Access::read).failure().kind == FailureKind::not_found);
    fs::rename(folder / "away", folder / "book");
    CHECK(kActs[2](*book).ok());
    CHECK(content_of(*book) == evening().after(3));
    CHECK(content_of(*reader) == evening().after(3));
}

TEST_CASE("a clock that has gone backwards changes nothing of what is undone and in which order") {
    TempFolder folder;
    evening().lay_out(folder / "book");
    auto book = Notebook::open(folder / "book", Access::write);
    REQUIRE(book.ok());
    for (std::size_t act = 0; act < 4; ++act) {
        REQUIRE(kActs[act](*book).ok());
        // As if each act had been done an hour before the one before it, in years to come.
        REQUIRE(book->write_aside([&](store::Database& database) {
                        database.run("UPDATE history SET made = ? WHERE id = (SELECT max(id) FROM "
                                     "history)",
                                     "2099-01-01T0" + std::to_string(9 - act) + ":00:00");
                    })
                    .ok());
    }
    for (std::size_t act = 4; act-- > 0;) {
        CHECK(book->undo().ok());
        CHECK(list_parts(*book)->size() == std::min<std::size_t>(act, 2));
    }
    for (std::size_t act = 0; act < 4; ++act)
        CHECK(book->redo().ok());
    CHECK(content_of(*book) == evening().after(4));
}

TEST_CASE(
    "a notebook in a folder that cannot be written is read, and writing is refused in a sentence") {
    TempFolder folder;
    evening().lay_out(folder / "book");
    const auto may = [&](fs::perms folder_may, fs::perms file_may) {
        fs::permissions(folder / "book/notebook.db", file_may);
        fs::permissions(folder / "book", folder_may);
        fs::permissions(folder.path(),
                        fs::perms::owner_all | fs::perms::others_exec | fs::perms::group_exec);
    };
    const auto read = fs::perms::owner_read | fs::perms::group_read | fs::perms::others_read;
    const auto enter = fs::perms::owner_exec | fs::perms::group_exec | fs::perms::others_exec;
    may(read | enter, read);
    fs::remove(folder / "book/notebook.lock");
    const auto told = as_somebody_else([&] {
        auto writing = Notebook::open(folder / "book", Access::write);
        auto reading = Notebook::open(folder / "book", Access::read);
        return (writing ? "open for writing" : writing.failure().sentence) + "\n" +
               (reading ? content_of(*reading) : reading.failure().sentence);
    });
    CHECK(told == "The notebook in " + (folder / "book").string() +
                      " cannot be opened for writing: Permission denied.\n" + evening().after(0));
    may(fs::perms::owner_all, read | fs::perms::owner_write);
}
