#include "base/private_place.h"
#include "base/text.h"
#include "base/whole_file.h"
#include "notebook/meeting.h"
#include "notebook/meeting_within.h"
#include "notebook/rules.h"
#include "notebook/schema/schema.h"
#include "notebook/stamps.h"
#include "notebook/states.h"

namespace fettle {
namespace {

namespace fs = std::filesystem;

constexpr int kMostStates = 8; // carried and not heard back about

// This copy becomes the first side when it is carried for the first time.
void become_a_side(store::Database& database) {
    if (own_side(database) != 0) return;
    store::Transaction transaction(database);
    database.run("INSERT INTO here(one, notebook, side) VALUES (1, ?, 1)", new_name());
    database.run("INSERT INTO sides(side, copy, name) VALUES (1, ?, ?)", new_name(),
                 name_of_machine());
    transaction.commit();
}

// The number for a machine that has no notebook yet: one that was offered and not heard of, or a
// new one; 0 when there is none left.
int offer_side(store::Database& database) {
    auto open = database.query("SELECT side FROM sides WHERE copy = ''");
    if (open.next()) return open.get<int>(0);
    auto last = database.query("SELECT max(side) + 1 FROM sides");
    last.next();
    const int side = last.get<int>(0);
    if (side > kMostSides) return 0;
    database.run("INSERT INTO sides(side, copy, name) VALUES (?, '', 'the other machine')", side);
    return side;
}

std::vector<CarriedPhoto> photos_between(store::Database& live, const fs::path& folder,
                                         const fs::path& base) {
    attach(live, base, "base");
    std::vector<CarriedPhoto> photos;
    try {
        photos = all_rows(live.query("SELECT hash, original_name, file, in_place FROM main.photos "
                                     "WHERE hash NOT IN (SELECT hash FROM base.photos) "
                                     "ORDER BY id"),
                          [&](const store::Statement& row) {
                              const fs::path file = row.get<std::string>(2);
                              return CarriedPhoto{row.get<std::string>(0), row.get<std::string>(1),
                                                  row.get<bool>(3) ? file : folder / file};
                          });
    } catch (...) {
        live.run("DETACH base");
        throw;
    }
    live.run("DETACH base");
    return photos;
}

// Whether more has changed than stamps.
bool anything_new(const store::Blob& changes) {
    bool found = false;
    store::each_change(
        changes, [&](const store::Change& change) { found = found || change.table != "stamps"; });
    return found;
}

} // namespace

fs::path state_file(const fs::path& notebook, const std::string& state) {
    return notebook / "met" / (state + ".db");
}

fs::path half_file(const fs::path& notebook, const std::string& what) {
    return private_name(notebook / "met", what + '-', ".half");
}

void note_state(store::Database& database, const std::string& state, std::int64_t carried) {
    database.run("INSERT OR REPLACE INTO states(state, carried, schema) VALUES (?, ?, ?)", state,
                 carried, kNewestSchema);
    // The oldest is the one the other side is known to have met.
    database.run("DELETE FROM states WHERE state NOT IN (SELECT base FROM here) AND state NOT IN "
                 "(SELECT state FROM states ORDER BY carried DESC LIMIT ?) AND carried > "
                 "(SELECT min(carried) FROM states WHERE state NOT IN (SELECT base FROM here))",
                 kMostStates);
}

bool holds_state(store::Database& database, const fs::path& notebook, const std::string& state) {
    std::error_code error;
    return database
               .query("SELECT 1 FROM states WHERE state = ? AND schema >= ?", state,
                      kSameTablesSince)
               .next() &&
           fs::is_regular_file(state_file(notebook, state), error);
}

std::string known_base(store::Database& database, const fs::path& notebook) {
    auto here = database.query("SELECT base FROM here");
    if (!here.next()) return {};
    auto base = here.get<std::string>(0);
    return holds_state(database, notebook, base) ? base : std::string();
}

void sweep_states(store::Database& database, const fs::path& notebook) {
    std::set<std::string> needed;
    auto row = database.query("SELECT state FROM states");
    while (row.next())
        needed.insert(row.get<std::string>(0));
    std::error_code error;
    std::vector<fs::path> idle;
    for (fs::directory_iterator at(notebook / "met", error), end; !error && at != end;
         at.increment(error))
        if (!needed.contains(at->path().stem().native())) idle.push_back(at->path());
    for (const auto& file : idle)
        fs::remove_all(file, error); // folders of photos, too, that a killed meeting has left
}

Result<ToCarry> prepare_to_carry(Notebook& notebook, const CarryAsk& ask) {
    std::error_code error;
    fs::create_directories(notebook.folder() / "met", error);
    if (error)
        return Failure{FailureKind::io, "The folder " + (notebook.folder() / "met").string() +
                                            " cannot be made: " + error.message() + "."};
    ToCarry carry;
    Done settled = done();
    auto prepared = notebook.write_aside([&](store::Database& database) {
        become_a_side(database);
        if (!trim(ask.name).empty()) name_own_side(database, std::string(trim(ask.name)));
        carry.told.from = ask.everything ? std::string() : known_base(database, notebook.folder());
        carry.told.offered = carry.told.from.empty() ? offer_side(database) : 0;
        carry.told.to = new_name();
        carry.told.schema = kNewestSchema;
        const int side = own_side(database);
        carry.told.carried = next_stamp(database, side).moment;
        const auto sides = stored_sides(database);
        carry.told.notebook = sides.notebook;
        carry.told.side = side;
        carry.told.sides = sides.sides;
        const auto now = half_file(notebook.folder(), "carried");
        const auto none = half_file(notebook.folder(), "none");
        write_state(database, now);
        if (carry.told.from.empty()) write_empty_state(database, none);
        const auto base =
            carry.told.from.empty() ? none : state_file(notebook.folder(), carry.told.from);
        carry.changes = changes_between_states(base, now);
        carry.photos = photos_between(database, notebook.folder(), base);
        carry.nothing_new = !anything_new(carry.changes);
        fs::remove(none, error);
        settled = keep_whole(now, state_file(notebook.folder(), carry.told.to));
    });
    if (!prepared) return prepared.failure();
    if (!settled) return settled.failure();
    return carry;
}

Done note_carried(Notebook& notebook, const SetTold& told) {
    return notebook.write_aside([&](store::Database& database) {
        store::Transaction transaction(database);
        note_state(database, told.to, told.carried);
        transaction.commit();
        sweep_states(database, notebook.folder());
    });
}

Done forget_carried(Notebook& notebook, const SetTold& told) {
    return notebook.write_aside([&](store::Database& database) {
        database.run("DELETE FROM states WHERE state = ?", told.to);
        sweep_states(database, notebook.folder());
    });
}

} // namespace fettle
