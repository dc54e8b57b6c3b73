#include "notebook/people.h"

#include "notebook/rules.h"

namespace fettle {
namespace {

std::int64_t id_for_name(store::Database& database, const std::string& table,
                         const std::string& name) {
    if (!require_text("name", name)) return 0;
    auto known = database.query("SELECT id FROM " + table + " WHERE name = ?", name);
    if (known.next()) return known.get<std::int64_t>(0);
    return database.insert("INSERT INTO " + table + "(name) VALUES (?)", name);
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
        return all_rows(database.query("SELECT id, name, note FROM contacts ORDER BY name"),
                        [](const store::Statement& row) {
                            return Contact{row.get<ContactId>(0), row.get<std::string>(1),
                                           row.get<std::string>(2)};
                        });
    });
}

Result<ContactId> keep_contact(Notebook& notebook, const Contact& contact) {
    return notebook.act(
        "noted contact " + contact.name, [&](store::Database& database) -> Result<ContactId> {
            if (auto filled = require_text("contact's name", contact.name); !filled)
                return filled.failure();
            const auto id = contact_named(database, contact.name);
            database.run("UPDATE contacts SET note = ? WHERE id = ?", contact.note, id);
            return id;
        });
}

} // namespace fettle
