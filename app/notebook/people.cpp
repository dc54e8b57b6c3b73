#include "notebook/people.h"

#include "base/text.h"
#include "notebook/rules.h"
#include "store/quoted_name.h"

namespace fettle {
namespace {

std::int64_t id_for_name(store::Database& database, const std::string& table,
                         const std::string& name) {
    if (!require_text("name", name)) return 0;
    auto known =
        database.query("SELECT id FROM " + store::in_quotes(table) + " WHERE name = ?", name);
    if (known.next()) return known.get<std::int64_t>(0);
    return database.insert("INSERT INTO " + store::in_quotes(table) +
                               "(id, name) VALUES (next_id(?1), ?2)",
                           table, name);
}

} // namespace

MakerId maker_named(store::Database& database, const std::string& name) {
    return {id_for_name(database, "makers", name)};
}

ContactId contact_named(store::Database& database, const std::string& name) {
    return {id_for_name(database, "contacts", name)};
}

Result<std::vector<Maker>> list_makers(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        return all_rows(database.query("SELECT id, name, sign, note FROM makers ORDER BY name"),
                        [](const store::Statement& row) {
                            return Maker{row.get<MakerId>(0), row.get<std::string>(1),
                                         row.get<std::string>(2), row.get<std::string>(3)};
                        });
    });
}

Result<MakerId> maker_called(const Notebook& notebook, const std::string& name) {
    auto makers = list_makers(notebook);
    if (!makers) return makers.failure();
    std::vector<MakerId> begin_so;
    for (const Maker& maker : *makers) {
        if (same_but_for_case(maker.name, name)) return maker.id;
        if (lower_ascii(maker.name).starts_with(lower_ascii(name))) begin_so.push_back(maker.id);
    }
    if (begin_so.size() == 1) return begin_so.front();
    if (begin_so.empty()) return nothing_called("maker", name);
    return Failure{FailureKind::invalid,
                   "Several makers begin with \"" + name + "\": write more of the name."};
}

Result<MakerId> keep_maker(Notebook& notebook, const Maker& maker) {
    return notebook.act("noted maker " + maker.name,
                        [&](store::Database& database) -> Result<MakerId> {
                            if (auto filled = require_text("maker's name", maker.name); !filled)
                                return filled.failure();
                            const auto id = maker_named(database, maker.name);
                            database.run("UPDATE makers SET sign = ?, note = ? WHERE id = ?",
                                         maker.sign, maker.note, id);
                            return id;
                        });
}

Result<std::vector<Contact>> list_contacts(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        return all_rows(
            database.query("SELECT id, name, note, in_credits FROM contacts ORDER BY name"),
            [](const store::Statement& row) {
                return Contact{row.get<ContactId>(0), row.get<std::string>(1),
                               row.get<std::string>(2), row.get<bool>(3)};
            });
    });
}

Result<ContactId> keep_contact(Notebook& notebook, const Contact& contact) {
    return notebook.act(
        "noted contact " + contact.name, [&](store::Database& database) -> Result<ContactId> {
            if (auto filled = require_text("contact's name", contact.name); !filled)
                return filled.failure();
            const auto id = contact.id ? contact.id : contact_named(database, contact.name);
            if (database
                    .query("SELECT 1 FROM contacts WHERE name = ? AND id IS NOT ?", contact.name,
                           id)
                    .next())
                return Failure{FailureKind::refused,
                               "There is another contact called \"" + contact.name + "\" already."};
            database.run("UPDATE contacts SET name = ?, note = ?, in_credits = ? WHERE id = ?",
                         contact.name, contact.note, contact.in_credits, id);
            return id;
        });
}

} // namespace fettle
