// Everything out and in, backups while somebody writes, and the description of the tables.
//
// JSON Lines (jsonlines.org: UTF-8, a JSON value a line; memory), RFC 8259 and RFC 4180 are the
// forms; who judges is the sqlite3 program, which prints both notebooks.
#include "desk/backup.h"
#include "desk/check.h"
#include "desk/data_in.h"
#include "desk/data_out.h"
#include "notebook/consignments.h"
#include "notebook/costs.h"
#include "notebook/credits.h"
#include "notebook/described.h"
#include "notebook/drafts.h"
#include "notebook/fixture.h"
#include "notebook/part_pieces.h"
#include "notebook/positions.h"
#include "notebook/weather.h"
#include "record_text.h"

#include <atomic>
#include <random>
#include <set>
#include <thread>

using namespace fettle;

namespace fs = std::filesystem;

namespace {

// Acts at random, with texts that trip up whoever writes files: by one seed always the same.
class RandomBook {
  public:
    explicit RandomBook(unsigned seed) : luck_(seed) { fill(); }
    const fs::path& folder() const { return desk_.book.folder(); }

  private:
    int below(int most) { return int(luck_() % unsigned(most)); }
    double number() { return std::ldexp(double(luck_()), below(60) - 50); }
    std::string text() {
        static const std::vector<std::string> kPieces = {
            "a",    "\"", ",",      "\n",   "\r\n", ";", "\\N", "\\x41", "\\",
            "null", "é",  "\u2028", "=1+1", "\t",   "'", "{}",  "🛠",  " "};
        std::string all;
        for (int i = below(6); i >= 0; --i)
            all += kPieces[std::size_t(below(int(kPieces.size())))];
        return all;
    }
    std::string title() { return "n" + std::to_string(luck_()) + text() + "z"; }
    Day day() {
        return Day(std::chrono::sys_days(must(parse_day("2026-01-01"))) +
                   std::chrono::days(below(300)));
    }

    void fill() {
        Notebook& book = desk_.book;
        std::vector<PartId> parts;
        std::vector<TaskId> tasks;
        for (int i = 0; i < 12; ++i) {
            const auto position = must(add_position(book, {.vehicle = desk_.drover,
                                                           .group = "g" + text() + "g",
                                                           .number = "N" + std::to_string(i),
                                                           .name = title(),
                                                           .quantity = 1 + below(9)}));
            Part part{.tag = "T" + std::to_string(i),
                      .name = title(),
                      .position = below(2) ? position : PositionId{},
                      .place = text(),
                      .from = below(2) ? title() : "",
                      .quantity = 1 + below(20),
                      .note = text()};
            if (below(2)) part.cost = Money{std::int64_t(luck_()) << below(20), "GBP"};
            if (below(2)) part.acquired = day();
            parts.push_back(must(add_part(book, part)).id);
            Task task{.title = title(), .note = text()};
            if (below(2)) task.estimate_hours = (1 + below(9999)) / 7.0;
            if (!tasks.empty()) task.needs = {tasks[std::size_t(below(int(tasks.size())))]};
            tasks.push_back(must(keep_task(book, task)));
            photo(i, parts.back());
            must(write_entry(book, {.day = day(), .text = title(), .parts = {parts.back()}}));
        }
        must(keep_cost(book, {.on = day(), .amount = {5, "JPY"}, .what = title()}));
        must(note_help(book, title(), {.did = Did::lent, .what = title()}));
        must(keep_consignment(book, {.firm = title(), .purpose = title(), .note = text()}));
        must(set_weather(book, day(), {.temperature_c = below(400) / 9.0, .humidity = 0.1 + 0.2}));
        must(keep_draft(book, {.day = "today", .text = text() + "not written yet"}));
    }

    void photo(int number_of, PartId part) {
        Photo fresh;
        char hash[33];
        std::snprintf(hash, sizeof hash, "%032x", unsigned(luck_()) | 1u);
        fresh.hash = hash;
        fresh.file = "photos/" + std::to_string(number_of) + ".jpg";
        fresh.original_name = title();
        fresh.format = "JPEG";
        fresh.width = 100;
        fresh.height = 80;
        fresh.latitude = number();
        fresh.longitude = -0.0;
        fresh.sharpness = 1.0 / (1 + below(99));
        fresh.likeness = (std::uint64_t(luck_()) << 32) | luck_();
        const auto id = must(add_photo(desk_.book, fresh));
        must(tie_photos(desk_.book, {id}, part, Stage::before));
        must(
            keep_mark(desk_.book,
                      {.photo = id, .region = {1, 2, 3, 4}, .reading = title(), .maker = title()}));
    }

    std::mt19937 luck_;
    Desk desk_;
};

} // namespace

TEST_CASE("the description of the tables is that of the database") {
    Desk desk;
    std::set<std::string> there;
    must(desk.book.read([&](store::Database& database) {
        auto names = database.query("SELECT name FROM pragma_table_list WHERE type = 'table' AND "
                                    "schema = 'main' AND name NOT LIKE 'sqlite%'");
        while (names.next())
            there.insert(names.get<std::string>(0));
        return 0;
    }));
    for (const auto kept_back : kKeptBack)
        CHECK(there.erase(std::string(kept_back)) == 1);
    std::set<std::string> described;
    for (const auto& table : described_tables()) {
        const std::string name(table.name);
        CAPTURE(name);
        described.insert(name);
        std::vector<std::string> said, found;
        for (const auto& column : table.columns) {
            const bool refers = column.holds == Holds::reference;
            said.push_back(std::string(column.name) + ' ' + std::string(stored_as(column.holds)) +
                           (column.always ? " always" : "") +
                           (refers ? " to " + std::string(column.detail) : ""));
            CHECK_FALSE(column.meaning.empty());
            CHECK((column.holds == Holds::word) == (column.words != nullptr));
        }
        must(desk.book.read([&](store::Database& database) {
            auto rows = database.query(
                "SELECT c.name || ' ' || c.type || iif(c.\"notnull\" OR c.pk, ' always', '') || "
                "ifnull(' to ' || f.\"table\", '') FROM pragma_table_info(?1) c LEFT JOIN "
                "pragma_foreign_key_list(?1) f ON f.\"from\" = c.name ORDER BY c.cid",
                name);
            while (rows.next())
                found.push_back(rows.get<std::string>(0));
            return 0;
        }));
        CHECK(said == found);
    }
    CHECK(described == there);
}

TEST_CASE("notebooks made at random come back equal to the last field from either form") {
    for (const unsigned seed : {1u, 20260307u, 4077u}) {
        CAPTURE(seed);
        RandomBook book(seed);
        TempFolder out;
        const auto written = must(desk::data_out(book.folder(), out / "data", {}));
        CHECK(written.rows > 100);
        const std::string before = record_text(book.folder());
        for (const auto form : {desk::DataForm::json_lines, desk::DataForm::csv}) {
            const bool csv = form == desk::DataForm::csv;
            CAPTURE(csv);
            const auto back = out / (csv ? "csv" : "jsonl");
            const auto read = must(desk::data_in(out / "data", back, {.form = form}));
            CHECK(read.rows == written.rows);
            CHECK(read.notices.empty());
            CHECK(read.missing_photos.size() == 12); // no files behind these records
            const bool is_equal = record_text(back) == before;
            CHECK(is_equal);
            // Search and every list, too.
            for (const auto& finding : must(desk::check(back, {})).findings)
                CHECK(finding.kind == desk::FindingKind::photo_gone);
        }
    }
}

TEST_CASE("data of an earlier schema are taken in and brought up") {
    TempFolder folder;
    fs::create_directories(folder / "data/jsonl");
    write_file(folder / "data/notebook.json", R"({"fettlebook_data": 1, "schema": 3})");
    write_file(folder / "data/jsonl/vehicles.jsonl",
               R"({"id":7,"name":"Drover","maker":"","year":1936,"note":""})"
               "\n");
    write_file(folder / "data/jsonl/contacts.jsonl", R"({"id":2,"name":"Ansel","note":""})"
                                                     "\n");
    must(desk::data_in(folder / "data", folder / "book", {}));
    const auto book = must(Notebook::open(folder / "book", store::Access::read));
    CHECK(must(list_vehicles(book)).front().id.value == 7);
    CHECK(must(list_contacts(book)).front().in_credits); // a column that schema 3 has not
}

TEST_CASE("a backup made while another writes holds one state of the notebook") {
    Desk desk;
    const auto two_parts = [&](int number) {
        must(desk.book.act("two parts", [&](store::Database&) -> Done {
            for (const char* letter : {"A", "B"}) {
                Part part{.tag = letter + std::to_string(number), .name = std::string(2000, 'x')};
                if (auto added = add_part(desk.book, part); !added) return added.failure();
            }
            return done();
        }));
    };
    for (int i = 0; i < 200; ++i)
        two_parts(i);
    std::atomic<bool> over = false;
    std::atomic<int> written = 200;
    std::thread writer([&] {
        while (!over)
            two_parts(written++);
    });
    std::set<std::size_t> counts;
    for (int i = 0; i < 5; ++i) {
        const int before = written;
        const auto report = must(desk::back_up(desk.book.folder(), desk.folder / "b.zip", {}));
        CHECK(report.left_out.empty());
        const auto to = desk.folder / ("r" + std::to_string(i));
        must(desk::restore(report.file, to, {}));
        CHECK(
            said_by("sqlite3 '" + (to / "notebook.db").string() +
                    "' 'PRAGMA integrity_check; SELECT count(*) FROM parts WHERE tag LIKE \"A%\"; "
                    "SELECT count(*) FROM pragma_foreign_key_check'")
                .starts_with("ok\n"));
        const auto book = must(Notebook::open(to, store::Access::read));
        std::size_t a = 0, b = 0;
        for (const auto& part : must(list_parts(book)))
            ++(part.tag.starts_with('A') ? a : b);
        CHECK(a == b); // both of an act or none
        CHECK(a + 1 >= std::size_t(before));
        counts.insert(a);
    }
    over = true;
    writer.join();
    CHECK(counts.size() > 1); // it did write meanwhile
    CHECK(desk::last_backup(desk.book.folder())->file == desk.folder / "b.zip");
}

TEST_CASE("what is stopped leaves nothing behind") {
    Desk desk;
    std::stop_source stop;
    stop.request_stop();
    const auto token = stop.get_token();
    must(desk::back_up(desk.book.folder(), desk.folder / "b.zip", {}));
    const auto names = [&] {
        std::set<std::string> all;
        for (const auto& entry : fs::directory_iterator(desk.folder.path()))
            all.insert(entry.path().filename());
        return all;
    };
    const auto before = names();
    const auto folder = desk.book.folder();
    CHECK(desk::back_up(folder, desk.folder / "c.zip", {.stop = token}).failure().kind ==
          FailureKind::cancelled);
    CHECK(desk::restore(desk.folder / "b.zip", desk.folder / "r", {.stop = token}).failure().kind ==
          FailureKind::cancelled);
    CHECK(desk::data_out(folder, desk.folder / "d", {.stop = token}).failure().kind ==
          FailureKind::cancelled);
    CHECK(names() == before);
}
