// A notebook on two machines, met through what is carried; what stands in it, to the last field;
// and a hand that does things at random.
#pragma once

#include "fixture.h"
#include "notebook/clocks.h"
#include "notebook/condition_steps.h"
#include "notebook/consignments.h"
#include "notebook/costs.h"
#include "notebook/credits.h"
#include "notebook/differences.h"
#include "notebook/evidence.h"
#include "notebook/measurements.h"
#include "notebook/meeting.h"
#include "notebook/part_pieces.h"
#include "notebook/positions.h"
#include "notebook/recorded_tables.h"
#include "notebook/runs.h"
#include "notebook/ties.h"
#include "notebook/weather.h"

#include <random>
#include <regex>
#include <set>

// Random acts come by the hundred, and no power fails meanwhile.
inline void hurry(fettle::Notebook& book) {
    must(book.write_aside(
        [](fettle::store::Database& database) { database.run("PRAGMA synchronous = OFF"); }));
}

inline fettle::ToCarry carried(fettle::Notebook& from, bool everything = false) {
    auto set = must(fettle::prepare_to_carry(from, {.everything = everything}));
    must(fettle::note_carried(from, set.told));
    return set;
}

inline fettle::Met met(fettle::Notebook& at, const fettle::ToCarry& set) {
    must(fettle::check_set(at, set.told));
    const auto arrival = must(fettle::Unpacked::unpack(at, set.told, set.changes));
    return must(fettle::bring_in(at, arrival, {}));
}

// The same where there is no notebook yet.
inline fettle::Notebook begun(const std::filesystem::path& folder, const fettle::ToCarry& set) {
    auto book = must(fettle::Notebook::create_blank(folder));
    const auto arrival = must(fettle::Unpacked::unpack(book, set.told, set.changes));
    must(fettle::bring_in(book, arrival, {}));
    return book;
}

// A line for each record of the user's, with all its fields but where photos lie on the machine.
inline std::set<std::string> all_of(const fettle::Notebook& book) {
    return must(book.read([](fettle::store::Database& database) {
        std::set<std::string> lines;
        for (const auto& table : fettle::recorded_tables()) {
            std::string sql = "'" + std::string(table.name) + "'";
            auto column =
                database.query("SELECT name FROM pragma_table_info(?) ORDER BY cid", table.name);
            while (column.next())
                if (!fettle::field_of(table, column.get<std::string>(0)).empty())
                    sql += " || '|' || quote(\"" + column.get<std::string>(0) + "\")";
            auto row = database.query("SELECT " + sql + " FROM " + table.name);
            while (row.next())
                CHECK(lines.insert(row.get<std::string>(0)).second);
        }
        return lines;
    }));
}

inline void check_sound(const fettle::Notebook& book) {
    must(book.read([](fettle::store::Database& database) {
        CHECK_FALSE(database.query("PRAGMA foreign_key_check").next());
        auto whole = database.query("PRAGMA integrity_check");
        whole.next();
        CHECK(whole.get<std::string>(0) == "ok");
        // The words that are searched are those of the records.
        for (const char* kind : {"part", "task", "entry", "photo", "position", "cost", "contact"}) {
            auto words = database.query("SELECT count(*), (SELECT count(*) FROM says_" +
                                            std::string(kind) + ") FROM words WHERE kind = ?",
                                        kind);
            words.next();
            CHECK(words.get<int>(0) == words.get<int>(1));
        }
        return 0;
    }));
}

// Does one thing after the other as a person at a machine would, by the acts themselves. Every text
// it writes holds a token that is written once: "w12w".
class Hand {
  public:
    Hand(fettle::Notebook& book, std::mt19937& dice, int& tokens)
        : book_(book), dice_(dice), tokens_(tokens) {}

    void act() {
        const auto before = tokens_in(book_);
        one_act();
        const auto after = tokens_in(book_);
        for (const auto& token : before)
            if (!after.contains(token)) gone_.insert(token);
        written_.insert(after.begin(), after.end());
    }
    // What was written over or removed by somebody who had it before them.
    const std::set<std::string>& gone() const { return gone_; }

    // What an act has brought into the notebook; a refused one brings nothing.
    const std::set<std::string>& written() const { return written_; }

    static std::set<std::string> tokens_in(const fettle::Notebook& book) {
        static const std::regex kToken("w[0-9]+w");
        std::set<std::string> tokens;
        for (const auto& line : all_of(book))
            for (std::sregex_iterator at(line.begin(), line.end(), kToken), end; at != end; ++at)
                tokens.insert(at->str());
        return tokens;
    }

  private:
    int roll(int sides) { return std::uniform_int_distribution<int>(0, sides - 1)(dice_); }
    std::string token() { return "w" + std::to_string(tokens_++) + "w"; }
    // A row's id, or none; with pools small enough for both machines to take hold of the same.
    std::int64_t any(const std::string& table) {
        return must(book_.read([&](fettle::store::Database& database) {
            auto row = database.query("SELECT id FROM " + table + " ORDER BY id");
            std::vector<std::int64_t> ids;
            while (row.next())
                ids.push_back(row.get<std::int64_t>(0));
            return ids.empty() ? 0 : ids[static_cast<std::size_t>(roll(int(ids.size())))];
        }));
    }
    template <class I>
    I any_of(const std::string& table) {
        return I{any(table)};
    }
    fettle::Day day() { return must(fettle::parse_day("2026-03-0" + std::to_string(1 + roll(5)))); }
    std::string name() { return "Ansel " + std::to_string(roll(4)); }

    void one_act() { roll(30) < 14 ? act_on_parts_and_tasks() : act_on_the_rest(); }

    void act_on_parts_and_tasks() {
        using namespace fettle;
        switch (roll(14)) {
        case 0:
            (void)add_part(book_, {.name = token(), .from = roll(2) ? name() : ""});
            break;
        case 1:
            (void)add_part(book_, {.tag = "T" + std::to_string(roll(6)), .name = token()});
            break;
        case 2:
        case 3:
        case 4:
            change_part();
            break;
        case 5:
            (void)add_photo();
            break;
        case 6:
            (void)tie_photos(book_, {any_of<PhotoId>("photos")}, any_target(),
                             roll(2) ? Stage::before : Stage::after);
            break;
        case 7:
            (void)untie_photos(book_, {any_of<PhotoId>("photos")}, any_target());
            break;
        case 8:
        case 9:
        case 10:
            write_an_entry();
            break;
        case 11:
            (void)remove_entry(book_, any_of<EntryId>("entries"));
            break;
        case 12:
        case 13:
            change_task();
            break;
        }
    }

    void act_on_the_rest() {
        using namespace fettle;
        switch (roll(16)) {
        case 0:
            (void)add_position(book_, a_position());
            break;
        case 1:
            (void)remove_position(book_, any_of<PositionId>("positions"));
            break;
        case 2:
            change_position();
            break;
        case 3:
            (void)keep_mark(book_, {.id = roll(2) ? any_of<MarkId>("marks") : MarkId{},
                                    .photo = any_of<PhotoId>("photos"),
                                    .region = {roll(9), 1, 20, 20},
                                    .reading = token(),
                                    .maker = name(),
                                    .part = any_of<PartId>("parts")});
            break;
        case 4:
            (void)remove_mark(book_, any_of<MarkId>("marks"));
            break;
        case 5:
            (void)keep_cost(book_, {.id = roll(2) ? any_of<CostId>("costs") : CostId{},
                                    .on = day(),
                                    .amount = {100 + roll(900), roll(2) ? "GBP" : "EUR"},
                                    .what = token(),
                                    .part = roll(2) ? any_of<PartId>("parts") : PartId{},
                                    .paid_to = name()});
            break;
        case 6:
            (void)remove_cost(book_, any_of<CostId>("costs"));
            break;
        case 7:
            (void)note_help(book_, name(), {.did = Did::lent, .what = token()});
            break;
        case 8:
            (void)set_weather(book_, day(), {double(roll(20)), 0.5});
            break;
        case 9:
            set_a_clock();
            break;
        case 10:
            send_something();
            break;
        case 11:
            (void)add_vehicle(book_, {.name = "Donor " + std::to_string(roll(2)), .note = token()});
            break;
        case 12:
            (void)propose_runs(book_);
            break;
        case 13:
            (void)note_no_evidence(book_, any_of<PartId>("parts"), Evidence::marks, token());
            break;
        case 14:
            (void)book_.undo();
            break;
        case 15:
            if (roll(2))
                (void)book_.redo();
            else
                (void)keep_measurement(book_, {.part = any_of<PartId>("parts"),
                                               .feature = "bore",
                                               .day = day(),
                                               .sheet = "fit.wear",
                                               .plugin_version = "1",
                                               .answer = "{}",
                                               .verdict = "reuse",
                                               .note = token()});
            break;
        }
    }

    fettle::TieTarget any_target() {
        using namespace fettle;
        switch (roll(3)) {
        case 0:
            return any_of<PartId>("parts");
        case 1:
            return any_of<TaskId>("tasks");
        default:
            return any_of<EntryId>("entries");
        }
    }

    void change_part() {
        using namespace fettle;
        auto known = part_by_id(book_, any_of<PartId>("parts"));
        if (!known) return;
        auto part = *known;
        switch (roll(8)) {
        case 0:
            part.note = token();
            break;
        case 1:
            part.place = token();
            break;
        case 2:
            part.cost = Money{100 + roll(1000), roll(2) ? "GBP" : "EUR"};
            break;
        case 3:
            part.cost.reset();
            break;
        case 4:
            part.quantity = 1 + roll(9);
            part.used = 0;
            break;
        case 5:
            part.position = any_of<PositionId>("positions");
            break;
        case 6:
            part.tag = "T" + std::to_string(roll(6));
            break;
        case 7:
            (void)set_condition(book_, part.id, roll(2) ? Condition::cleaned : Condition::primed,
                                day());
            if (roll(2)) (void)split_part(book_, part.id, {{token()}, {token()}}, day());
            return;
        }
        (void)set_part(book_, part);
    }

    // Out of a few pictures, of which both machines may take in the same.
    void add_photo() {
        using namespace fettle;
        const int which = roll(12);
        Photo photo;
        photo.hash = std::string(31, '0') + "0123456789ab"[which];
        photo.file = "photos/" + std::to_string(which) + ".jpg";
        photo.original_name = "IMG_" + std::to_string(which) + ".jpg";
        photo.format = "JPEG";
        photo.width = 1600;
        photo.height = 1200;
        photo.camera_model = "P4";
        photo.taken = must(parse_moment("2026-03-01T10:0" + std::to_string(which % 10) + ":00"));
        const auto id = fettle::add_photo(book_, photo);
        if (id && roll(2)) (void)note_tags(book_, *id, {"T" + std::to_string(roll(6))});
    }

    void write_an_entry() {
        using namespace fettle;
        Entry entry;
        if (roll(2))
            if (auto known = entry_by_id(book_, any_of<EntryId>("entries"))) entry = *known;
        entry.day = day();
        if (roll(2)) entry.text = token();
        if (entry.text.empty()) entry.text = token();
        if (roll(3) == 0) entry.hours = roll(8);
        if (const auto part = any_of<PartId>("parts"); part && roll(2)) entry.parts = {part};
        if (const auto task = any_of<TaskId>("tasks"); task && roll(2)) entry.tasks = {task};
        if (const auto photo = any_of<PhotoId>("photos"); photo && roll(2))
            entry.photos = {{photo, Stage::during}};
        if (roll(3) == 0)
            entry.results.push_back({{}, {}, "shim.stack", "1", "{\"t\":\"" + token() + "\"}"});
        (void)write_entry(book_, entry);
    }

    void change_task() {
        using namespace fettle;
        Task task;
        if (roll(3))
            if (auto known = task_by_id(book_, any_of<TaskId>("tasks"))) task = *known;
        if (task.title.empty() || roll(2)) task.title = token();
        if (roll(2)) task.note = token();
        if (const auto other = any_of<TaskId>("tasks"); other && roll(2)) task.needs = {other};
        if (const auto position = any_of<PositionId>("positions"); position && roll(2))
            task.positions = {{position, roll(2) ? Condition::cleaned : Condition::primed}};
        const auto id = keep_task(book_, task);
        if (id && roll(3) == 0) (void)set_task_state(book_, *id, TaskState::done, day());
    }

    fettle::Position a_position() {
        fettle::Position position;
        position.vehicle = any_of<fettle::VehicleId>("vehicles");
        position.group = "Front";
        position.number = std::to_string(roll(6));
        position.name = token();
        return position;
    }

    void change_position() {
        using namespace fettle;
        auto known = position_by_id(book_, any_of<PositionId>("positions"));
        if (!known) return;
        if (roll(2)) {
            known->number = std::to_string(roll(6));
            known->spec = token();
            (void)set_position(book_, *known);
        } else {
            (void)choose_part(book_, known->id, any_of<PartId>("parts"));
        }
    }

    void set_a_clock() {
        using namespace fettle;
        const auto cameras = must(list_cameras(book_));
        if (!cameras.empty())
            (void)set_clock(book_, cameras.front(), {std::chrono::hours(roll(3)), {}});
    }

    void send_something() {
        using namespace fettle;
        const auto known = any_of<ConsignmentId>("consignments");
        if (known && roll(2)) {
            const auto consignment = must(consignment_by_id(book_, known));
            if (!consignment.items.empty() && roll(2))
                (void)receive(book_, known,
                              {.items = {{consignment.items.front().part}}, .on = day()});
            else
                (void)put_on(book_, known, {.part = any_of<PartId>("parts")});
            return;
        }
        const auto id =
            keep_consignment(book_, {.firm = name(), .purpose = "turning", .note = token()});
        if (!id) return;
        (void)put_on(book_, *id, {.part = any_of<PartId>("parts")});
        (void)send_consignment(book_, *id, day());
    }

    fettle::Notebook& book_;
    std::mt19937& dice_;
    int& tokens_;
    std::set<std::string> gone_, written_;
};

struct TwoMachines {
    Desk desk;
    fettle::Notebook& garage = desk.book;
    fettle::Part hanger = desk.part("H7", "spring hanger");
    fettle::Notebook house = begun(desk.folder / "house", carried(garage));

    void exchange() {
        bring(house, garage);
        bring(garage, house);
    }
    // As the refusal says where the other machine no longer holds the state a set starts from.
    static void bring(fettle::Notebook& from, fettle::Notebook& to) {
        auto set = carried(from);
        if (!check_set(to, set.told)) set = carried(from, true);
        (void)met(to, set);
    }
};

// One round of two people's doings, and of sets that arrive, are lost, cross or come twice; at the
// end all is exchanged. Gives the number of differences there were.
inline int live_on_two_machines(unsigned seed, int acts) {
    CAPTURE(seed);
    TwoMachines two;
    hurry(two.garage);
    hurry(two.house);
    std::mt19937 dice(seed);
    int tokens = 1;
    Hand here(two.garage, dice, tokens), there(two.house, dice, tokens);
    const auto roll = [&](int sides) {
        return std::uniform_int_distribution<int>(0, sides - 1)(dice);
    };
    std::vector<fettle::ToCarry> for_garage, for_house;
    const auto meet_any = [&](fettle::Notebook& book, const std::vector<fettle::ToCarry>& sets) {
        if (sets.empty()) return;
        const auto& set = sets[static_cast<std::size_t>(roll(int(sets.size())))];
        const auto before = all_of(book);
        if (!check_set(book, set.told)) {
            CHECK(all_of(book) == before);
            return;
        }
        (void)met(book, set);
        check_sound(book);
        CHECK_FALSE(check_set(book, set.told)); // twice changes nothing
    };
    for (int turn = 0; turn < acts; ++turn) {
        roll(2) ? here.act() : there.act();
        const int what = roll(16);
        if (what == 0) for_house.push_back(carried(two.garage, roll(6) == 0));
        if (what == 1) for_garage.push_back(carried(two.house, roll(6) == 0));
        if (what == 2) meet_any(two.garage, for_garage);
        if (what == 3) meet_any(two.house, for_house);
    }
    two.exchange();
    const auto one = all_of(two.garage), other = all_of(two.house);
    for (const auto& line : one)
        if (!other.contains(line)) MESSAGE("here alone: " << line);
    for (const auto& line : other)
        if (!one.contains(line)) MESSAGE("there alone: " << line);
    REQUIRE(one == other);
    check_sound(two.garage);
    check_sound(two.house);
    auto kept = Hand::tokens_in(two.garage);
    for (const auto* hand : {&here, &there})
        kept.insert(hand->gone().begin(), hand->gone().end());
    for (const auto* hand : {&here, &there})
        for (const auto& token : hand->written())
            if (!kept.contains(token)) FAIL_CHECK("lost: " << token);
    return must(fettle::count_differences(two.garage));
}
