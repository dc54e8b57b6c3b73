// What the window asks of the database while it is used, gathered as SQLite runs it, must not read
// whole tables to answer a question about a few rows. New queries are gathered by themselves.
#include "bench/big_book.h"
#include "notebook/search.h"
#include "workroom_fixture.h"

#include <sqlite3.h>

#include <algorithm>
#include <mutex>
#include <set>

using namespace fettle;
using namespace fettle::ui::testing;

namespace {

// Everything the connection runs while this lives, each wording once; work beside the frames asks
// through it from its own thread.
class Gathered {
  public:
    explicit Gathered(Notebook& book) : book_(book) {
        trace([](unsigned, void* to, void* statement, void* text) -> int {
            // What FTS5 asks of its own tables is its own matter, and comes as a comment.
            const std::string_view said = static_cast<const char*>(text);
            const char* sql = sqlite3_sql(static_cast<sqlite3_stmt*>(statement));
            if (sql && !said.starts_with("--")) static_cast<Gathered*>(to)->add(sql);
            return 0;
        });
    }
    ~Gathered() { trace(nullptr); }
    std::set<std::string> take() {
        const std::lock_guard lock(mutex_);
        return std::exchange(all_, {});
    }

  private:
    void add(const char* sql) {
        const std::lock_guard lock(mutex_);
        all_.insert(sql);
    }
    void trace(int (*note)(unsigned, void*, void*, void*)) {
        (void)must(book_.read([&](store::Database& database) {
            return sqlite3_trace_v2(database.connection(), note ? SQLITE_TRACE_STMT : 0, note,
                                    this);
        }));
    }
    Notebook& book_;
    std::mutex mutex_;
    std::set<std::string> all_;
};

// The tables that grow with the years.
const std::set<std::string> kLarge = {
    "photos",     "parts",       "entries",           "ties",           "marks",
    "costs",      "entry_parts", "entry_tasks",       "history",        "condition_steps",
    "run_photos", "tag_reads",   "consignment_items", "worked_results", "measurements"};

struct Whole {
    std::string table;
    std::string line; // of the plan
};

// The lines of its plan that go through a large table from end to end.
std::vector<Whole> whole_tables(Notebook& book, const std::string& sql) {
    return must(book.read([&](store::Database& database) {
        std::vector<Whole> whole;
        // By the name that stands in for a table in the query: "photos f" gives f.
        auto row = database.query("EXPLAIN QUERY PLAN " + sql);
        while (row.next()) {
            const auto line = row.get<std::string>(3);
            if (!line.starts_with("SCAN ")) continue;
            const std::string name = line.substr(5, line.find(' ', 5) - 5);
            for (const auto& table : kLarge)
                if (name == table || holds(sql, ' ' + table + ' ' + name + ' ') ||
                    holds(sql, ' ' + table + ' ' + name + ')'))
                    whole.push_back({table, line});
        }
        return whole;
    }));
}

// What may read a whole table, by a piece of its wording, and why.
struct Allowed {
    const char* wording;
    const char* why;
};
const std::vector<Allowed> kAllowed = {
    {"DELETE FROM history WHERE undone = 1 AND step >", "ends at the last step not undone"},
    {"SELECT step, words, met FROM history", "its first row is read, along an index"},
    {"ORDER BY t.id DESC", "the last ties, until there are nine things they are to"},
    {"SELECT (SELECT count(*) FROM photos)", "counts along two indexes, when ties have changed"},
    {"FROM photos f ORDER BY f.at NULLS LAST", "Photos lists all of them"},
    {"ORDER BY a.tag COLLATE NOCASE", "Parts lists all; what is missing looks among all spares"},
    {"SELECT id, on_date FROM entries ORDER BY", "Log lists the days of all"},
    {"hours, text FROM entries e ORDER BY", "all can be tied to, and stand in the build book"},
    {"ON k.id = m.maker_id ORDER BY", "Marks lists all"},
    {"SELECT a.id, coalesce(p.vehicle_id, a.vehicle_id)", "Marks compares all"},
    {"SELECT o.id, o.on_date, o.amount_minor", "Money lists all costs"},
    {"WITH spent(", "Money adds all up"},
    {"SELECT contact_id, id, ", "People tells what everybody sold or was paid for"},
    {"FROM consignment_items i JOIN consignments g", "what is away, of all that ever went"},
    {"SELECT p.id, p.within_id FROM parts p", "pieces of all assemblies, along an index"},
    {"sum(e.hours) FROM entry_tasks", "hours spent on all tasks"},
    {"FROM parts a JOIN positions p ON p.id = a.position_id", "the rebuild counts all that fills"},
    {"SELECT on_date, ifnull(hours, 0) FROM entries", "the rebuild adds up the hours of all"},
    {"FROM tag_reads t", "tags read that wait for a part, or for one that is out"},
};

} // namespace

TEST_CASE(
    "what the window asks of the database while it is used reads no large table from end to end") {
    TempFolder folder;
    Notebook book = benchmarks::make_big_book(folder / "book", {.photos = 500, .files = false});
    calc::Catalogue sheets{FETTLEBOOK_BIN_DIR "/fettlebook-calc", {}};
    Gathered gathered(book);
    Workbench bench(book, sheets);
    for (const std::string& key : bench.room->screen_keys()) {
        bench.room->show({key});
        bench.driver.settle();
    }
    for (const auto& place :
         {ui::Place{"parts", 5}, ui::Place{"photos", 7}, ui::Place{"tasks", 3}, ui::Place{"log", 9},
          ui::Place{"parts", 0, 0, 0, "positions"}, ui::Place{"parts", 2, 0, 0, "positions"},
          ui::Place{"parts", 0, 0, 0, "missing"}}) {
        bench.room->show(place);
        bench.driver.settle();
    }
    for (const char* words : {"k", "king pin", "QM"}) // in the window: tests/ui/workroom_test.cpp
        (void)must(find(book, words));
    must(write_entry(book, {.day = today(), .text = "Freed the king pin.", .parts = {PartId{5}}}));
    bench.driver.settle();
    must(book.undo());
    bench.driver.settle();
    const auto asked = gathered.take();
    CHECK(asked.size() > 100); // or nothing was gathered
    std::set<std::string> used;
    for (const std::string& sql : asked)
        for (const Whole& whole : whole_tables(book, sql)) {
            const auto allowed = std::ranges::find_if(
                kAllowed, [&](const Allowed& one) { return holds(sql, one.wording); });
            if (allowed != kAllowed.end()) {
                used.insert(allowed->wording);
                continue;
            }
            CAPTURE(sql);
            FAIL_CHECK(whole.line << " reads all of " << whole.table);
        }
    for (const Allowed& one : kAllowed) // what is not needed any more is taken off the list
        CHECK_MESSAGE(used.contains(one.wording), one.wording);
}
