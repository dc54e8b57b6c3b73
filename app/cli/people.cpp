#include "base/text.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "notebook/credits.h"

namespace fettle::cli {
namespace {

struct PeopleWish {
    std::string name, note, new_name, on;
    std::string told[kDid.size()]; // by what they did
    std::string in_credits;
    std::string forget;

    void check() const {
        bool tells = !note.empty() || !new_name.empty() || !in_credits.empty() || !forget.empty();
        bool did = false;
        for (const auto& what : told)
            did = did || !what.empty();
        if (name.empty() && (tells || did || !on.empty()))
            throw CLI::ValidationError("what is told of somebody goes with a NAME");
        if (!on.empty() && !did)
            throw CLI::ValidationError("--on goes with --gave, --lent, --machined, --helped or "
                                       "--sold");
        if (!in_credits.empty() && in_credits != "yes" && in_credits != "no")
            throw CLI::ValidationError("--credits takes yes or no");
    }
};

void declare_people(CLI::App& verb, PeopleWish& wish) {
    verb.add_option("NAME", wish.name,
                    "The contact to be told something about; a new name is added");
    verb.add_option("--note", wish.note, "What else there is to say")->option_text("TEXT");
    verb.add_option("--rename", wish.new_name, "Their right name")->option_text("NAME");
    for (const Did did : kDid)
        verb.add_option("--" + std::string(word(did)), wish.told[static_cast<std::size_t>(did)],
                        "What they " + std::string(word(did)) +
                            ", beside what parts, consignments and costs say")
            ->option_text("WHAT");
    verb.add_option("--on", wish.on, "The day of it")->option_text("DATE");
    verb.add_option("--credits", wish.in_credits, "Whether they are named in the credits")
        ->option_text("yes|no");
    verb.add_option("--forget", wish.forget, "Takes back what was told, by its number")
        ->option_text("ID");
    verb.footer("JSON: a list of {contact, name, note, in_credits, deeds}; deeds list {did, what, "
                "on, part,\nconsignment, cost, help}: did is gave, lent, machined, helped or sold; "
                "help is what --forget takes.");
}

// One act for all that was told of the contact.
Done tell_of(Notebook& notebook, const PeopleWish& wish, std::optional<Day> on) {
    return notebook.act("noted contact " + wish.name, [&](store::Database&) -> Done {
        auto contacts = list_contacts(notebook);
        if (!contacts) return contacts.failure();
        const auto held = std::ranges::find(*contacts, wish.name, &Contact::name);
        Contact contact = held == contacts->end() ? Contact{.name = wish.name} : *held;
        if (!wish.note.empty()) contact.note = wish.note;
        if (!wish.new_name.empty()) contact.name = wish.new_name;
        if (!wish.in_credits.empty()) contact.in_credits = wish.in_credits == "yes";
        if (auto kept = keep_contact(notebook, contact); !kept) return kept.failure();
        for (const Did did : kDid) {
            const auto& what = wish.told[static_cast<std::size_t>(did)];
            if (what.empty()) continue;
            auto noted = note_help(notebook, contact.name, {.did = did, .what = what, .on = on});
            if (!noted) return noted.failure();
        }
        if (wish.forget.empty()) return done();
        auto id = parse_id<HelpId>("help", wish.forget);
        if (!id) return id.failure();
        return remove_help(notebook, *id);
    });
}

Json deed_json(const Deed& deed, const Names& names) {
    const auto number = [](std::int64_t id) { return id == 0 ? Json() : Json(id); };
    return {{"did", word(deed.did)},
            {"what", deed.what},
            {"on", deed.on ? Json(to_iso(*deed.on)) : Json()},
            {"part", deed.part ? names.tag(deed.part) : ""},
            {"consignment", number(deed.consignment.value)},
            {"cost", number(deed.cost.value)},
            {"help", number(deed.help.value)}};
}

Result<Report> people_report(const Notebook& notebook) {
    auto people = list_people(notebook);
    if (!people) return people.failure();
    auto names = names_in(notebook);
    if (!names) return names.failure();
    std::string text;
    Json json = Json::array();
    for (const Person& person : *people) {
        const Contact& contact = person.contact;
        text += one_line(contact.name + (contact.in_credits ? "" : "  (not named in the credits)") +
                         (contact.note.empty() ? "" : "  " + contact.note)) +
                '\n';
        Json deeds = Json::array();
        Columns columns;
        for (const Deed& deed : person.deeds) {
            columns.row({std::string(word(deed.did)), deed.what, deed.on ? to_iso(*deed.on) : "",
                         deed.help ? "told as " + std::to_string(deed.help.value) : ""});
            deeds.push_back(deed_json(deed, *names));
        }
        text += columns.text(2);
        json.push_back(Json{{"contact", contact.id.value},
                            {"name", contact.name},
                            {"note", contact.note},
                            {"in_credits", contact.in_credits},
                            {"deeds", std::move(deeds)}});
    }
    return Report{text.empty() ? "nobody yet\n" : text, std::move(json)};
}

Result<Report> people(const Call& call, const PeopleWish& wish) {
    if (wish.name.empty()) {
        auto notebook = call.for_reading();
        if (!notebook) return notebook.failure();
        return people_report(*notebook);
    }
    auto on = parse_day_or_none(wish.on);
    if (!on) return on.failure();
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    if (auto told = tell_of(*notebook, wish, *on); !told) return told.failure();
    return people_report(*notebook);
}

struct CreditsWish {};

void declare_credits(CLI::App& verb, CreditsWish&) {
    verb.footer(
        "Who gave comes first, then who lent, machined, helped and sold; among them who did "
        "so first.\nEverybody stands once. Left out are those who are not to be named "
        "(`people NAME --credits no`)\nand those of whom nothing is told.\n"
        "JSON: a list of {under, name, deeds}.");
}

Result<Report> credits_of(const Call& call, const CreditsWish&) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto all = credits(*notebook);
    if (!all) return all.failure();
    Json json = Json::array();
    for (const Credit& credit : *all)
        json.push_back(
            Json{{"under", word(credit.under)}, {"name", credit.name}, {"deeds", credit.deeds}});
    const auto text = indented(credits_text(*all), 0);
    return Report{text.empty() ? "nobody yet\n" : text, std::move(json)};
}

} // namespace

void add_people(Line& line) {
    add_verb(line, line.app, "people", "List who gave, lent, machined, helped and sold, or tell it",
             declare_people, people);
    add_verb(line, line.app, "credits", "The credits for the build book, in their order",
             declare_credits, credits_of);
}

} // namespace fettle::cli
