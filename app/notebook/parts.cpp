#include "notebook/parts.h"

#include "base/tag.h"
#include "base/whole_number.h"
#include "notebook/condition_steps.h"
#include "notebook/consignments_within.h"
#include "notebook/people.h"
#include "notebook/rules.h"
#include "notebook/vehicles.h"

#include <array>

namespace fettle {
namespace {

constexpr std::string_view kColumns =
    "SELECT a.id, a.tag, a.name, a.position_id, a.vehicle_id, a.origin, a.condition, a.decision, "
    "       ifnull(m.name, ''), a.place, ifnull(c.name, ''), a.cost_minor, a.currency, a.quantity, "
    "       a.acquired, a.note, ifnull(p.name, ''), a.used, a.within_id, ifnull(w.tag, ''), "
    "       a.split_on "
    "FROM parts a LEFT JOIN makers m ON m.id = a.maker_id LEFT JOIN contacts c ON c.id = "
    "a.contact_id "
    "             LEFT JOIN positions p ON p.id = a.position_id "
    "             LEFT JOIN parts w ON w.id = a.within_id ";

Part part_of(const store::Statement& row) {
    Part part;
    part.id = row.get<PartId>(0);
    part.tag = row.get<std::string>(1);
    part.name = row.get<std::string>(2);
    part.position = row.get<PositionId>(3);
    part.vehicle = row.get<VehicleId>(4);
    part.origin = stored_word<Origin>(row, 5);
    part.condition = stored_word<Condition>(row, 6);
    part.decision = stored_word<Decision>(row, 7);
    part.maker = row.get<std::string>(8);
    part.place = row.get<std::string>(9);
    part.from = row.get<std::string>(10);
    if (!row.is_null(11)) part.cost = Money{row.get<std::int64_t>(11), row.get<std::string>(12)};
    part.quantity = row.get<int>(13);
    if (auto day = parse_day(row.get<std::string>(14))) part.acquired = *day;
    part.note = row.get<std::string>(15);
    part.position_name = row.get<std::string>(16);
    part.used = row.get<int>(17);
    part.within = row.get<PartId>(18);
    part.within_tag = row.get<std::string>(19);
    if (auto day = parse_day(row.get<std::string>(20))) part.split_on = *day;
    return part;
}

// A lot cannot have more pieces used and away than it holds.
Done check_pieces(store::Database& database, const Part& part) {
    if (part.used < 0 || part.used > part.quantity)
        return Failure{FailureKind::invalid, std::to_string(part.used) + " used pieces of " +
                                                 part.tag +
                                                 " cannot be: accepted are 0 to its quantity, " +
                                                 std::to_string(part.quantity) + "."};
    const int away = part.id ? pieces_away(database, part.id) : 0;
    if (part.used + away <= part.quantity) return done();
    return Failure{FailureKind::refused,
                   part.tag + " has " + std::to_string(away) + " of its pieces away" +
                       (part.used > 0 ? " and " + std::to_string(part.used) + " used" : "") +
                       ": its quantity cannot be " + std::to_string(part.quantity) + "."};
}

Failure not_split(const std::string& tag, const std::string& assembly) {
    return {FailureKind::refused, tag + " cannot go into or out of " + assembly +
                                      " while that is together: split " + assembly + " first."};
}

// Pieces go in and out of an assembly while it is split, and none is a piece of itself.
Done check_within(store::Database& database, const Part& part) {
    const auto tag_if_together = [&](PartId id) {
        auto row = database.query("SELECT tag FROM parts WHERE id IS ? AND split_on IS NULL", id);
        return row.next() ? row.get<std::string>(0) : std::string();
    };
    PartId before;
    if (auto row = database.query("SELECT within_id FROM parts WHERE id IS ?", part.id); row.next())
        before = row.get<PartId>(0);
    if (before == part.within) return done();
    for (const auto assembly : {before, part.within})
        if (const auto tag = tag_if_together(assembly); assembly && !tag.empty())
            return not_split(part.tag, tag);
    for (PartId at = part.within; at;) {
        if (at == part.id)
            return Failure{FailureKind::refused, part.tag + " cannot be a piece of itself."};
        auto row = database.query("SELECT within_id FROM parts WHERE id = ?", at);
        if (!row.next()) break;
        at = row.get<PartId>(0);
    }
    return done();
}

Done check_part(store::Database& database, const Part& part) {
    if (auto filled = require_text("part name", part.name); !filled) return filled;
    if (!is_tag(part.tag))
        return Failure{FailureKind::invalid,
                       "\"" + part.tag +
                           "\" is no tag: accepted are 1 to 16 letters, digits "
                           "and hyphens, such as H7."};
    auto taken =
        database.query("SELECT name FROM parts WHERE tag = ? AND id IS NOT ?", part.tag, part.id);
    if (taken.next())
        return Failure{FailureKind::refused, "The tag " + part.tag +
                                                 " is on another part already (" +
                                                 taken.get<std::string>(0) + ")."};
    if (part.quantity < 1)
        return Failure{FailureKind::invalid, "The quantity is " + std::to_string(part.quantity) +
                                                 ": at least 1 is accepted."};
    if (auto fine = check_pieces(database, part); !fine) return fine;
    return check_within(database, part);
}

// P1, P2 ...: the first one no part carries.
std::string next_free_tag(store::Database& database) {
    for (std::int64_t number = 1;; ++number) {
        auto tag = "P" + std::to_string(number);
        if (!database.query("SELECT 1 FROM parts WHERE tag = ?", tag).next()) return tag;
    }
}

void write_part(store::Database& database, const Part& part) {
    std::optional<std::int64_t> minor;
    std::optional<std::string> currency, acquired;
    if (part.cost) minor = part.cost->minor, currency = part.cost->currency;
    if (part.acquired) acquired = to_iso(*part.acquired);
    database.run("UPDATE parts SET tag = ?, name = ?, position_id = ?, vehicle_id = ?, origin = ?, "
                 "condition = ?, decision = ?, maker_id = ?, place = ?, contact_id = ?, "
                 "cost_minor = ?, currency = ?, quantity = ?, acquired = ?, note = ?, used = ?, "
                 "within_id = ? WHERE id = ?",
                 part.tag, part.name, part.position, part.vehicle, word(part.origin),
                 word(part.condition), word(part.decision), maker_named(database, part.maker),
                 part.place, contact_named(database, part.from), minor, currency, part.quantity,
                 acquired, part.note, part.used, part.within, part.id);
    // A part that goes elsewhere, or is scrap, is no longer the one to use.
    database.run("UPDATE positions SET chosen_part_id = NULL WHERE chosen_part_id = ?1 AND "
                 "(id IS NOT ?2 OR ?3 = 'scrap' OR (?4 IS NOT NULL AND vehicle_id IS NOT ?4))",
                 part.id, part.position, word(part.condition), part.vehicle);
}

template <class T>
Done put_parsed(T& field, Result<T> parsed) {
    if (!parsed) return parsed.failure();
    field = std::move(*parsed);
    return done();
}

template <class T>
Done put_parsed(std::optional<T>& field, Result<T> parsed) {
    if (!parsed) return parsed.failure();
    field = std::move(*parsed);
    return done();
}

Done put_text(std::string& field, const std::string& text) {
    field = text;
    return done();
}

using Putter = Done (*)(const Notebook&, Part&, const std::string&);
struct NamedField {
    std::string_view name;
    Putter put;
};

Done put_quantity(const Notebook&, Part& part, const std::string& text) {
    const auto quantity = whole_number(text);
    if (!quantity || *quantity < 1)
        return Failure{FailureKind::invalid,
                       "The quantity \"" + text + "\" is not a whole number of 1 or more."};
    part.quantity = *quantity;
    return done();
}

Done put_used(const Notebook&, Part& part, const std::string& text) {
    const auto used = whole_number(text);
    if (!used || *used < 0)
        return Failure{FailureKind::invalid,
                       "The pieces used, \"" + text + "\", are not a whole number of 0 or more."};
    part.used = *used;
    return done();
}

// The assembly it is a piece of, by its tag; blank takes it out.
Done put_within(const Notebook& notebook, Part& part, const std::string& text) {
    part.within = {};
    part.within_tag.clear();
    if (text.empty()) return done();
    auto assembly = part_tagged(notebook, text);
    if (!assembly) return assembly.failure();
    part.within = assembly->id;
    part.within_tag = assembly->tag;
    return done();
}

Done put_position(const Notebook& notebook, Part& part, const std::string& text) {
    if (text.empty()) {
        part.position = {};
        return done();
    }
    // On its own vehicle first: two vehicles may number alike.
    auto position = find_position(notebook, text, part.vehicle);
    if (!position && part.vehicle) position = find_position(notebook, text);
    if (!position) return position.failure();
    part.position = position->id;
    part.vehicle = position->vehicle;
    return done();
}

Done put_vehicle(const Notebook& notebook, Part& part, const std::string& text) {
    auto vehicle = vehicle_named(notebook, text);
    if (!vehicle) return vehicle.failure();
    part.vehicle = vehicle->id;
    return done();
}

Done put_cost(const Notebook&, Part& part, const std::string& text) {
    if (!text.empty()) return put_parsed(part.cost, parse_money(text));
    part.cost.reset();
    return done();
}

Done put_acquired(const Notebook&, Part& part, const std::string& text) {
    if (!text.empty()) return put_parsed(part.acquired, parse_day(text));
    part.acquired.reset();
    return done();
}

constexpr std::array kFields = {
    NamedField{"tag",
               [](const Notebook&, Part& p, const std::string& t) { return put_text(p.tag, t); }},
    NamedField{"name",
               [](const Notebook&, Part& p, const std::string& t) { return put_text(p.name, t); }},
    NamedField{"position", put_position},
    NamedField{"vehicle", put_vehicle},
    NamedField{"origin",
               [](const Notebook&, Part& p, const std::string& t) {
                   return put_parsed(p.origin, from_word<Origin>(t));
               }},
    NamedField{"condition",
               [](const Notebook&, Part& p, const std::string& t) {
                   return put_parsed(p.condition, from_word<Condition>(t));
               }},
    NamedField{"decision",
               [](const Notebook&, Part& p, const std::string& t) {
                   return put_parsed(p.decision, from_word<Decision>(t));
               }},
    NamedField{"maker",
               [](const Notebook&, Part& p, const std::string& t) { return put_text(p.maker, t); }},
    NamedField{"place",
               [](const Notebook&, Part& p, const std::string& t) { return put_text(p.place, t); }},
    NamedField{"from",
               [](const Notebook&, Part& p, const std::string& t) { return put_text(p.from, t); }},
    NamedField{"cost", put_cost},
    NamedField{"quantity", put_quantity},
    NamedField{"used", put_used},
    NamedField{"within", put_within},
    NamedField{"acquired", put_acquired},
    NamedField{"note",
               [](const Notebook&, Part& p, const std::string& t) { return put_text(p.note, t); }},
};

constexpr std::size_t kMostNamed = 3;

// "changed the place of H7", "changed the place and cost of H7"; many fields are not named.
std::string words_of_change(const Part& before, const Part& after) {
    std::vector<std::string> changed;
    const auto compare = [&](const char* field, bool same) {
        if (!same) changed.emplace_back(field);
    };
    compare("tag", before.tag == after.tag);
    compare("name", before.name == after.name);
    compare("position", before.position == after.position);
    // A position brings its vehicle along.
    compare("vehicle", before.vehicle == after.vehicle || before.position != after.position);
    compare("origin", before.origin == after.origin);
    compare("condition", before.condition == after.condition);
    compare("decision", before.decision == after.decision);
    compare("maker", before.maker == after.maker);
    compare("place", before.place == after.place);
    compare("seller", before.from == after.from);
    compare("cost", before.cost == after.cost);
    compare("quantity", before.quantity == after.quantity);
    compare("number used", before.used == after.used);
    compare("assembly", before.within == after.within);
    compare("date", before.acquired == after.acquired);
    compare("note", before.note == after.note);
    if (changed.empty() || changed.size() > kMostNamed) return "changed part " + before.tag;
    std::string words = "changed the " + changed.front();
    for (std::size_t i = 1; i < changed.size(); ++i)
        words += (i + 1 == changed.size() ? " and " : ", ") + changed[i];
    return words + " of " + before.tag;
}

} // namespace

Done put_part_field(const Notebook& notebook, Part& part, const std::string& field,
                    const std::string& text) {
    auto named = std::ranges::find(kFields, field, &NamedField::name);
    if (named != kFields.end()) return named->put(notebook, part, text);
    std::string names;
    for (const auto& known : kFields)
        names += (names.empty() ? "" : ", ") + std::string(known.name);
    return Failure{FailureKind::invalid,
                   "A part has no field \"" + field + "\": it has " + names + "."};
}

Result<Part> add_part(Notebook& notebook, Part part) {
    return notebook.act("added part " + part.name, [&](store::Database& database) -> Result<Part> {
        if (part.tag.empty()) part.tag = next_free_tag(database);
        if (auto fine = check_part(database, part); !fine) return fine.failure();
        part.id = {database.insert("INSERT INTO parts(id, tag, name, origin, condition, decision) "
                                   "VALUES (next_id('parts'), ?, ?, '', '', '')",
                                   part.tag, part.name)};
        write_part(database, part);
        note_condition(database, part.id, part.condition, part.acquired.value_or(today()));
        return part;
    });
}

Done set_part(Notebook& notebook, const Part& part) {
    auto before = part_by_id(notebook, part.id);
    if (!before) return before.failure();
    return notebook.act(words_of_change(*before, part), [&](store::Database& database) -> Done {
        if (auto fine = check_part(database, part); !fine) return fine;
        const bool changed = database
                                 .query("SELECT 1 FROM parts WHERE id = ? AND condition <> ?",
                                        part.id, word(part.condition))
                                 .next();
        write_part(database, part);
        if (changed) note_condition(database, part.id, part.condition, today());
        return done();
    });
}

Result<Part> set_part_field(Notebook& notebook, const std::string& tag, const std::string& field,
                            const std::string& text) {
    auto part = part_tagged(notebook, tag);
    if (!part) return part;
    if (auto put = put_part_field(notebook, *part, field, text); !put) return put.failure();
    if (auto set = set_part(notebook, *part); !set) return set.failure();
    return part_by_id(notebook, part->id);
}

Result<Part> part_tagged(const Notebook& notebook, const std::string& tag) {
    return one_row(notebook, "part with the tag", tag, part_of,
                   std::string(kColumns) + "WHERE a.tag = ?", tag);
}

Result<Part> part_by_id(const Notebook& notebook, PartId id) {
    return one_row(notebook, "part", std::to_string(id.value), part_of,
                   std::string(kColumns) + "WHERE a.id IS ?", id);
}

Result<std::vector<Part>> list_parts(const Notebook& notebook, const PartFilter& filter) {
    const auto where =
        Conditions().is("a.position_id", filter.position).is("a.within_id", filter.within);
    auto parts = notebook.read([&](store::Database& database) {
        return all_rows(
            database.query(std::string(kColumns) + where.sql() + "ORDER BY a.tag COLLATE NOCASE"),
            part_of);
    });
    if (!parts || filter.words.empty()) return parts;
    std::erase_if(*parts, [&](const Part& part) {
        return !holds_every_word(part.tag + ' ' + part.name + ' ' + part.maker + ' ' + part.place,
                                 filter.words);
    });
    return parts;
}

} // namespace fettle
