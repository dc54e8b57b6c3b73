// Makers, who stamped a part, and contacts, who gave, sold or machined one. Both are known by name;
// naming a new one inside another act adds it.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"

#include <optional>
#include <vector>

namespace fettle {

struct Maker {
    MakerId id;
    std::string name; // unique
    std::string sign; // what the mark looks like: "OV in an oval"
    std::string note;
};

struct Contact {
    ContactId id;
    std::string name; // unique
    std::string note;
    bool in_credits = true; // named in the credits of the build book
};

Result<std::vector<Maker>> list_makers(const Notebook& notebook);
// By name, in any case; the beginning is enough where no other has it.
Result<MakerId> maker_called(const Notebook& notebook, const std::string& name);
// Adds the maker or, where one has this name, overwrites its sign and note.
Result<MakerId> keep_maker(Notebook& notebook, const Maker& maker);
Result<std::vector<Contact>> list_contacts(const Notebook& notebook); // by name
// Overwrites the contact with that id, its name too. Without an id: adds the contact or, where one
// has this name, overwrites the rest. Refused: a blank name, another contact's name.
Result<ContactId> keep_contact(Notebook& notebook, const Contact& contact);

// Inside an act: the id for a name, adding it when it is new; no id for a blank name.
MakerId maker_named(store::Database& database, const std::string& name);
ContactId contact_named(store::Database& database, const std::string& name);

} // namespace fettle
