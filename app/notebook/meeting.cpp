#include "notebook/meeting.h"

#include "base/whole_file.h"
#include "notebook/meeting_within.h"
#include "notebook/merge.h"
#include "notebook/recorded_tables.h"
#include "notebook/rules.h"
#include "notebook/schema/schema.h"
#include "notebook/states.h"
#include "store/quoted_name.h"

#include <utility>

namespace fettle {
namespace {

namespace fs = std::filesystem;

Failure refused(std::string sentence) {
    return {FailureKind::refused, std::move(sentence)};
}

std::string name_of(const SetTold& told, int number) {
    for (const auto& side : told.sides)
        if (side.number == number) return side.name;
    return "another machine";
}

const Side* own_of(const SetTold& told) {
    for (const auto& side : told.sides)
        if (side.number == told.side) return &side;
    return nullptr;
}

Done check_schema(const SetTold& told) {
    if (told.schema >= kSameTablesSince && told.schema <= kNewestSchema) return done();
    const bool newer = told.schema > kNewestSchema;
    return Failure{newer ? FailureKind::newer : FailureKind::refused,
                   std::string("This set was carried by ") + (newer ? "a later" : "an earlier") +
                       " version of Fettlebook (schema " + std::to_string(told.schema) +
                       ", this one has " + std::to_string(kNewestSchema) +
                       "). Bring both machines to the same version, then carry again."};
}

Done check_start(store::Database& database, const fs::path& folder, const SetTold& told) {
    if (told.from.empty() || holds_state(database, folder, told.from)) return done();
    return refused("This set starts from a state that this machine does not hold, so it cannot be "
                   "brought in. Carry everything from " +
                   name_of(told, told.side) + ": `fettlebook carry OUT --everything`.");
}

// The two belong together, and the set is news.
Done check_sides(const Sides& here, const SetTold& told) {
    const auto theirs = own_of(told);
    if (!theirs || told.notebook != here.notebook)
        return refused("This set comes from another notebook: the two never shared a beginning, so "
                       "they cannot be brought together. A notebook comes to a second machine by "
                       "`fettlebook meet` in an empty folder.");
    if (told.side == here.own)
        return refused("This set was carried from here: meet it on the other machine. (A copy of "
                       "the folder made by hand cannot be met: start the other one by `fettlebook "
                       "meet` in an empty folder.)");
    const auto known = here.at(told.side);
    if (known && !known->copy.empty() && known->copy != theirs->copy)
        return refused("This set comes from a third copy of the notebook that stands in for " +
                       known->name +
                       ": what was written there cannot be told from what is known from here. "
                       "Start it anew from `fettlebook carry OUT --everything`.");
    if (known && told.carried == known->met)
        return Failure{FailureKind::cancelled, "This set was met already; nothing has changed."};
    if (known && told.carried < known->met)
        return Failure{FailureKind::cancelled, "This set is older than the one last met from " +
                                                   theirs->name +
                                                   ", which held all of it; nothing has changed."};
    return done();
}

void copy_state(const fs::path& from, const fs::path& to) {
    std::error_code error;
    if (fs::copy_file(from, to, fs::copy_options::overwrite_existing, error); error)
        throw store::Trouble({FailureKind::io, "The file " + to.string() +
                                                   " cannot be written: " + error.message() + '.'});
}

SeenBySide seen_by(const std::vector<Side>& sides) {
    SeenBySide seen;
    for (const auto& side : sides)
        seen[side.number] = side.seen;
    return seen;
}

// Photos that lie here keep their files; those that came lie where they were put. How many have
// none.
int place_photos(store::Database& live, const std::map<std::string, fs::path>& shelved) {
    // No state says where a file lies; one that does all the same would lead elsewhere.
    live.run("UPDATE joined.photos SET file = '', in_place = 0");
    live.run(
        "UPDATE joined.photos SET (file, in_place) = (SELECT file, in_place FROM main.photos p "
        "WHERE p.hash = photos.hash) WHERE hash IN (SELECT hash FROM main.photos)");
    for (const auto& [hash, file] : shelved)
        live.run("UPDATE joined.photos SET file = ?, in_place = 0 WHERE hash = ?", file.string(),
                 hash);
    live.run("UPDATE joined.photos SET file = 'photos/' || hash WHERE file = ''");
    return static_cast<int>(live.rows_changed());
}

// The live tables become those of the joined state: rows that differ go and come anew, so that no
// rule is broken on the way; references are looked at when all is there.
void become_joined(store::Database& live) {
    live.run("PRAGMA defer_foreign_keys = ON");
    for (const auto& table : state_tables()) {
        const auto shape = shape_of(live, "main", table);
        live.run("DELETE FROM main." + store::in_quotes(table) + " WHERE " + shape.row() +
                 " NOT IN (SELECT " + shape.row() + " FROM joined." + store::in_quotes(table) +
                 ") OR " + shape.row() + " IN (SELECT " + shape.row() +
                 " FROM (SELECT * FROM joined." + store::in_quotes(table) +
                 " EXCEPT SELECT * FROM main." + store::in_quotes(table) + "))");
    }
    for (const auto& table : state_tables()) {
        const auto row = shape_of(live, "main", table).row();
        live.run("INSERT INTO main." + store::in_quotes(table) + " SELECT * FROM joined." +
                 store::in_quotes(table) + " WHERE " + row + " NOT IN (SELECT " + row +
                 " FROM main." + store::in_quotes(table) + ")");
    }
    live.run("UPDATE contacts SET name = name"); // their words stand with what speaks of them, too
}

void keep_sides(store::Database& live, const SetTold& told) {
    for (const auto& side : told.sides) {
        live.run(
            "INSERT INTO sides(side, copy, name) VALUES (?, ?, ?) ON CONFLICT (side) DO UPDATE "
            "SET copy = iif(excluded.copy <> '', excluded.copy, copy), name = "
            "iif(side = (SELECT side FROM here), name, excluded.name)",
            side.number, side.copy, side.name);
        live.run("UPDATE sides SET seen = max(seen, ?) WHERE side = ?", side.seen, side.number);
    }
    live.run("UPDATE sides SET met = ? WHERE side = ?", told.carried, told.side);
}

// The base is what the other side has; of the states carried from here only those are kept that it
// may still start from.
void keep_base(store::Database& live, const SetTold& told) {
    live.run("DELETE FROM states WHERE state = (SELECT base FROM here)");
    live.run("DELETE FROM states WHERE carried < (SELECT carried FROM states WHERE state = ?)",
             told.from);
    live.run("UPDATE here SET base = ?", told.to);
    note_state(live, told.to, told.carried);
}

void become_side(store::Database& live, const SetTold& told) {
    live.run("INSERT INTO here(one, notebook, side) VALUES (1, ?, ?)", told.notebook, told.offered);
    keep_sides(live, told);
    live.run("UPDATE sides SET copy = ?, name = ? WHERE side = ?", new_name(), name_of_machine(),
             told.offered);
}

} // namespace

Done check_set(const Notebook& notebook, const SetTold& told) {
    if (auto fine = check_schema(told); !fine) return fine;
    auto here = sides_of(notebook);
    if (!here) return here.failure();
    if (auto fine = check_sides(*here, told); !fine) return fine;
    auto start = notebook.read(
        [&](store::Database& database) { return check_start(database, notebook.folder(), told); });
    if (!start) return start.failure();
    return *start;
}

Done check_beginning(const SetTold& told) {
    if (auto fine = check_schema(told); !fine) return fine;
    if (!told.from.empty())
        return refused("There is no notebook in this folder yet, and this set holds only what has "
                       "changed. Carry everything from " +
                       name_of(told, told.side) + ": `fettlebook carry OUT --everything`.");
    if (told.offered == 0)
        return refused("This notebook is on four machines already, which is as many as can be told "
                       "apart.");
    return done();
}

Unpacked::Unpacked(SetTold told, fs::path state)
    : told_(std::move(told)), state_(std::move(state)) {}

Unpacked::Unpacked(Unpacked&& other) noexcept
    : told_(std::move(other.told_)), state_(std::exchange(other.state_, {})) {}

Unpacked::~Unpacked() {
    std::error_code error;
    if (!state_.empty()) fs::remove(state_, error);
}

Result<Unpacked> Unpacked::unpack(const Notebook& notebook, const SetTold& told,
                                  const store::Blob& changes) {
    std::error_code error;
    fs::create_directories(notebook.folder() / "met", error);
    Unpacked unpacked(told, half_file(notebook.folder(), "arriving"));
    auto made = notebook.read([&](store::Database& database) {
        if (told.from.empty())
            write_empty_state(database, unpacked.state_);
        else
            copy_state(state_file(notebook.folder(), told.from), unpacked.state_);
        change_state(unpacked.state_, changes);
        return 0;
    });
    if (!made) return made.failure();
    return unpacked;
}

Result<std::optional<ArrivingPhoto>> Unpacked::photo(const std::string& hash) const {
    try {
        auto state = open_state(state_);
        auto row = state.query("SELECT original_name, taken FROM photos WHERE hash = ?", hash);
        if (!row.next()) return std::optional<ArrivingPhoto>();
        ArrivingPhoto photo{row.get<std::string>(0), std::nullopt};
        if (auto taken = parse_moment(row.get<std::string>(1))) photo.day = taken->day();
        return std::optional(photo);
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

namespace {

// A meeting under way: the joined state in a file beside the notebook, and how it is brought in.
class Meeting {
  public:
    Meeting(const fs::path& folder, const Unpacked& arrival)
        : folder_(folder),
          arrival_(arrival),
          told_(arrival.told()),
          joined_(half_file(folder, "joined")),
          before_(half_file(folder, "before")) {}
    ~Meeting() {
        std::error_code error;
        fs::remove(joined_, error);
        fs::remove(before_, error);
    }
    Meeting(const Meeting&) = delete;
    Meeting& operator=(const Meeting&) = delete;

    void prepare(store::Database& live) {
        whole_ = own_side(live) == 0;
        if (whole_)
            copy_state(arrival_.state(), joined_);
        else
            join(live);
        const auto half_base = half_file(folder_, "base");
        copy_state(arrival_.state(), half_base);
        settled_ = keep_whole(half_base, state_file(folder_, told_.to));
        attach(live, joined_, "joined");
    }

    Done bring_in(store::Database& live, const std::map<std::string, fs::path>& shelved) {
        if (!settled_) return settled_;
        without_file_ = place_photos(live, shelved);
        become_joined(live);
        if (whole_)
            become_side(live, told_);
        else
            keep_sides(live, told_);
        if (merged_.wrote)
            live.run("UPDATE sides SET seen = ? WHERE side = ?", fresh_.moment, fresh_.side);
        keep_base(live, told_);
        return done();
    }

    Met told() const {
        Met met;
        met.with = name_of(told_, told_.side);
        met.made = merged_.made;
        met.changed = merged_.changed;
        met.removed = merged_.removed;
        met.differences = merged_.differences;
        met.without_file = without_file_;
        met.whole = whole_;
        return met;
    }

  private:
    void join(store::Database& live) {
        write_state(live, joined_);
        copy_state(joined_, before_);
        const auto sides = stored_sides(live);
        std::int64_t latest = 0;
        for (const auto& side : told_.sides)
            latest = std::max(latest, side.seen);
        fresh_ = stamp_after(live, sides.own, latest);
        MergeAsk ask{joined_,
                     before_,
                     arrival_.state(),
                     told_.from.empty() ? fs::path() : state_file(folder_, told_.from),
                     seen_by(sides.sides),
                     seen_by(told_.sides),
                     fresh_,
                     references(live)};
        merged_ = merge_states(ask);
    }

    const fs::path& folder_;
    const Unpacked& arrival_;
    const SetTold& told_;
    fs::path joined_, before_;
    Merged merged_;
    Stamp fresh_;
    Done settled_ = done();
    int without_file_ = 0;
    bool whole_ = false;
};

} // namespace

Result<Met> bring_in(Notebook& notebook, const Unpacked& arrival,
                     const std::map<std::string, fs::path>& shelved) {
    Meeting meeting(notebook.folder(), arrival);
    const auto with = name_of(arrival.told(), arrival.told().side);
    auto brought = notebook.bring_in(
        "met " + with, [&](store::Database& live) { meeting.prepare(live); },
        [&](store::Database& live) { return meeting.bring_in(live, shelved); });
    auto swept = notebook.write_aside([&](store::Database& live) {
        if (live.query("SELECT 1 FROM pragma_database_list WHERE name = 'joined'").next())
            live.run("DETACH joined");
        sweep_states(live, notebook.folder());
    });
    if (!brought) return brought.failure();
    if (!swept) return swept.failure();
    return meeting.told();
}

} // namespace fettle
