#include "notebook/credits.h"

#include "base/text.h"
#include "notebook/costs.h"
#include "notebook/rules.h"

#include <map>

namespace fettle {
namespace {

using Deeds = std::map<std::int64_t, std::vector<Deed>>; // by contact

std::optional<Day> day_in(const store::Statement& row, int column) {
    if (auto day = parse_day(row.get<std::string>(column))) return *day;
    return std::nullopt;
}

// A part with a price was sold, and so was one that came in with a consignment of theirs; another
// was given.
void add_parts(store::Database& database, Deeds& deeds) {
    auto row =
        database.query("SELECT contact_id, id, tag || ' ' || name, ifnull(acquired, ''), "
                       "ifnull(cost_minor, 0) > 0 OR EXISTS (SELECT 1 FROM "
                       "  consignment_items i JOIN consignments g ON g.id = i.consignment_id "
                       "  WHERE i.part_id = parts.id AND g.inward = 1 "
                       "  AND g.contact_id = parts.contact_id) "
                       "FROM parts WHERE contact_id IS NOT NULL");
    while (row.next())
        deeds[row.get<std::int64_t>(0)].push_back({.did = row.get<bool>(4) ? Did::sold : Did::gave,
                                                   .what = row.get<std::string>(2),
                                                   .on = day_in(row, 3),
                                                   .part = row.get<PartId>(1)});
}

// Work on metal by its first word, which stands whole: turnbuckles and millboard are goods.
Did work_of(std::string_view purpose, Did otherwise) {
    constexpr std::array<std::string_view, 18> kWork = {
        "machining", "machined", "turning", "turned", "milling",    "milled",
        "grinding",  "ground",   "reaming", "reamed", "boring",     "bored",
        "reboring",  "rebored",  "honing",  "honed",  "regrinding", "reground"};
    const auto plain = lower_ascii(trim(purpose));
    const auto end =
        std::ranges::find_if_not(plain, [](char letter) { return letter >= 'a' && letter <= 'z'; });
    const bool works = std::ranges::find(kWork, std::string(plain.begin(), end)) != kWork.end();
    return works ? Did::machined : otherwise;
}

// What went out was worked on; what came in was sold, unless its parts say so themselves.
void add_consignments(store::Database& database, Deeds& deeds) {
    auto row = database.query(
        "SELECT g.contact_id, g.id, g.inward, g.purpose, ifnull(g.sent_on, ''), "
        "  (SELECT group_concat(tag, ', ') FROM (SELECT a.tag FROM consignment_items i "
        "    JOIN parts a ON a.id = i.part_id WHERE i.consignment_id = g.id "
        "    AND (g.inward = 0 OR a.contact_id IS NOT g.contact_id) ORDER BY i.id)) "
        "FROM consignments g WHERE g.contact_id IS NOT NULL AND g.sent_on IS NOT NULL");
    while (row.next()) {
        const auto tags = row.get<std::string>(5);
        if (tags.empty()) continue;
        const bool inward = row.get<bool>(2);
        const auto purpose = row.get<std::string>(3);
        deeds[row.get<std::int64_t>(0)].push_back(
            {.did = inward ? Did::sold : work_of(purpose, Did::helped),
             .what = inward ? tags : purpose + " of " + tags,
             .on = day_in(row, 4),
             .consignment = row.get<ConsignmentId>(1)});
    }
}

// What was paid for was sold, unless it was work on metal.
void add_costs(store::Database& database, Deeds& deeds) {
    auto row = database.query("SELECT contact_id, id, what, on_date FROM costs "
                              "WHERE contact_id IS NOT NULL");
    while (row.next()) {
        const auto what = row.get<std::string>(2);
        deeds[row.get<std::int64_t>(0)].push_back({.did = work_of(what, Did::sold),
                                                   .what = what,
                                                   .on = day_in(row, 3),
                                                   .cost = row.get<CostId>(1)});
    }
}

void add_helps(store::Database& database, Deeds& deeds) {
    auto row = database.query("SELECT contact_id, id, did, what, ifnull(on_date, '') FROM helps");
    while (row.next()) {
        auto did = did_from(row.get<std::string>(2));
        if (!did) throw store::Trouble(did.failure());
        deeds[row.get<std::int64_t>(0)].push_back({.did = *did,
                                                   .what = row.get<std::string>(3),
                                                   .on = day_in(row, 4),
                                                   .help = row.get<HelpId>(1)});
    }
}

// What has no day comes after what has one.
auto when(const Deed& deed) {
    return std::pair(!deed.on.has_value(), deed.on.value_or(Day{}));
}

std::optional<Deed> first_of(const Person& person) {
    const Did under = person.deeds.front().did;
    std::optional<Deed> first;
    for (const Deed& deed : person.deeds)
        if (deed.did == under && (!first || when(deed) < when(*first))) first = deed;
    return first;
}

} // namespace

std::string_view word(Did did) {
    constexpr std::array<std::string_view, 5> kWords = {"gave", "lent", "machined", "helped",
                                                        "sold"};
    return kWords[static_cast<std::size_t>(did)];
}

Result<Did> did_from(std::string_view text) {
    for (const Did did : kDid)
        if (word(did) == text) return did;
    return Failure{FailureKind::invalid, quoted(text) + " is not what a contact did: accepted are "
                                                        "gave, lent, machined, helped and sold."};
}

Result<std::vector<Person>> list_people(const Notebook& notebook) {
    auto contacts = list_contacts(notebook);
    if (!contacts) return contacts.failure();
    auto deeds = notebook.read([](store::Database& database) {
        Deeds all;
        add_parts(database, all);
        add_consignments(database, all);
        add_costs(database, all);
        add_helps(database, all);
        return all;
    });
    if (!deeds) return deeds.failure();
    std::vector<Person> people;
    for (auto& contact : *contacts) {
        auto& theirs = (*deeds)[contact.id.value];
        std::ranges::stable_sort(theirs, {},
                                 [](const Deed& deed) { return std::pair(deed.did, when(deed)); });
        people.push_back({std::move(contact), std::move(theirs)});
    }
    return people;
}

Result<HelpId> note_help(Notebook& notebook, const std::string& contact, const Deed& deed) {
    return notebook.act(
        "noted what " + contact + " " + std::string(word(deed.did)),
        [&](store::Database& database) -> Result<HelpId> {
            if (auto filled = require_text("contact's name", contact); !filled)
                return filled.failure();
            const std::string field = "line for what they " + std::string(word(deed.did));
            if (auto filled = require_text(field, deed.what); !filled) return filled.failure();
            const auto on = deed.on ? std::optional(to_iso(*deed.on)) : std::nullopt;
            return HelpId{database.insert("INSERT INTO helps(id, contact_id, did, what, on_date) "
                                          "VALUES (next_id('helps'), ?, ?, ?, ?)",
                                          contact_named(database, contact), word(deed.did),
                                          deed.what, on)};
        });
}

Done remove_help(Notebook& notebook, HelpId id) {
    return notebook.act("took back what a contact did", [&](store::Database& database) -> Done {
        if (!database.query("SELECT 1 FROM helps WHERE id = ?", id).next())
            return nothing_called("help", std::to_string(id.value));
        database.run("DELETE FROM helps WHERE id = ?", id);
        return done();
    });
}

Result<std::vector<Credit>> credits(const Notebook& notebook) {
    auto people = list_people(notebook);
    if (!people) return people.failure();
    std::erase_if(*people, [](const Person& person) {
        return !person.contact.in_credits || person.deeds.empty();
    });
    std::ranges::stable_sort(*people, {}, [](const Person& person) {
        return std::pair(person.deeds.front().did, when(*first_of(person)));
    });
    std::vector<Credit> all;
    for (const Person& person : *people) {
        Credit credit{person.deeds.front().did, person.contact.name, {}};
        for (const Deed& deed : person.deeds) {
            const bool is_work = deed.did == Did::machined || deed.did == Did::helped;
            const auto said = std::string(word(deed.did)) + (is_work ? ": " : " ") + deed.what;
            if (std::ranges::find(credit.deeds, said) == credit.deeds.end())
                credit.deeds.push_back(said);
        }
        all.push_back(std::move(credit));
    }
    return all;
}

std::string credits_text(const std::vector<Credit>& credits) {
    std::string text;
    std::optional<Did> under;
    for (const Credit& credit : credits) {
        if (under != credit.under) {
            under = credit.under;
            text += (text.empty() ? "" : "\n") + std::string("They ") +
                    std::string(word(credit.under)) + "\n";
        }
        text += "  " + credit.name + ": " + join(credit.deeds, "; ") + "\n";
    }
    return text;
}

} // namespace fettle
