#include "fixture.h"
#include "notebook/consignments.h"
#include "notebook/costs.h"
#include "notebook/credits.h"

using namespace fettle;

namespace {

Day day(const char* text) {
    return must(parse_day(text));
}

struct Friends : Desk {
    Part hanger = must(add_part(
        book,
        {.tag = "H8", .name = "hanger", .from = "Ansel Thrupp", .acquired = day("2026-02-01")}));
    Part bushes = must(add_part(book, {.tag = "U4",
                                       .name = "bushes",
                                       .from = "Corriemuir Bushes",
                                       .cost = Money{4800, "GBP"},
                                       .acquired = day("2026-01-31")}));

    std::vector<std::string> deeds(const std::string& name) {
        std::vector<std::string> said;
        for (const Person& person : must(list_people(book)))
            if (person.contact.name == name)
                for (const Deed& deed : person.deeds)
                    said.push_back(std::string(word(deed.did)) + " " + deed.what);
        return said;
    }
};

using Said = std::vector<std::string>;

} // namespace

TEST_CASE("what a contact gave, sold, machined and lent comes from parts, consignments and words") {
    Friends desk;
    CHECK(desk.deeds("Ansel Thrupp") == Said{"gave H8 hanger"});
    CHECK(desk.deeds("Corriemuir Bushes") == Said{"sold U4 bushes"});
    const auto out = must(keep_consignment(
        desk.book, {.firm = "Hebble Lane", .purpose = "machining", .sent_on = day("2026-02-10")}));
    must(put_on(desk.book, out, {.part = desk.hanger.id}));
    must(keep_cost(desk.book, {.on = day("2026-02-12"),
                               .amount = {100, "GBP"},
                               .what = "tea for the shop",
                               .paid_to = "Hebble Lane"}));
    must(note_help(desk.book, "Ansel Thrupp", {.did = Did::lent, .what = "the spring clamp"}));
    CHECK(desk.deeds("Hebble Lane") == Said{"machined machining of H8", "sold tea for the shop"});
    CHECK(desk.deeds("Ansel Thrupp") == Said{"gave H8 hanger", "lent the spring clamp"});
    // A consignment in from whoever the part is from says nothing more than the part does.
    const auto in = must(keep_consignment(desk.book, {.inward = true,
                                                      .firm = "Corriemuir Bushes",
                                                      .purpose = "bought",
                                                      .sent_on = day("2026-01-27")}));
    must(put_on(desk.book, in, {.part = desk.bushes.id}));
    CHECK(desk.deeds("Corriemuir Bushes") == Said{"sold U4 bushes"});
    // Nor is what they send a gift, though its price is not known yet.
    desk.bushes.cost.reset();
    must(set_part(desk.book, desk.bushes));
    CHECK(desk.deeds("Corriemuir Bushes") == Said{"sold U4 bushes"});
    must(desk.book.undo());
    must(desk.book.undo()); // put_on
    must(desk.book.undo()); // the consignment
    must(desk.book.undo()); // what was lent
    CHECK(desk.deeds("Ansel Thrupp") == Said{"gave H8 hanger"});
}

TEST_CASE("what was paid for is work on metal only where its first whole word says so") {
    // Common practice of the trade, no source: the first two are work, the others are goods.
    Friends desk;
    for (const char* what :
         {"reaming, two bushes", "Turned the drum", "turnbuckles", "millboard", "honey for tea"})
        must(keep_cost(desk.book, {.on = day("2026-02-12"),
                                   .amount = {100, "GBP"},
                                   .what = what,
                                   .paid_to = "Hebble Lane"}));
    CHECK(desk.deeds("Hebble Lane") == Said{"machined reaming, two bushes",
                                            "machined Turned the drum", "sold turnbuckles",
                                            "sold millboard", "sold honey for tea"});
}

TEST_CASE("the credits name givers before lenders, workers and sellers, each by the first day") {
    Friends desk;
    const auto note = [&](const char* name, Did did, const char* what, const char* on) {
        must(note_help(desk.book, name, {.did = did, .what = what, .on = day(on)}));
    };
    note("Bram Holloway", Did::gave, "a box of bolts", "2026-01-05"); // before Ansel's February
    note("Bram Holloway", Did::sold, "a vice", "2025-12-01");
    note("Zora Pell", Did::machined, "the king pins", "2026-01-20");
    note("Yorick Dunn", Did::lent, "a press", "2026-03-01");
    must(keep_contact(desk.book, {.name = "Fellgate Carriers"})); // of whom nothing is told
    note("Quiet Friend", Did::gave, "the shed", "2025-01-01");
    auto contacts = must(list_contacts(desk.book));
    const auto quiet = std::ranges::find(contacts, "Quiet Friend", &Contact::name);
    quiet->in_credits = false;
    must(keep_contact(desk.book, *quiet));
    CHECK(credits_text(must(credits(desk.book))) ==
          "They gave\n"
          "  Bram Holloway: gave a box of bolts; sold a vice\n"
          "  Ansel Thrupp: gave H8 hanger\n"
          "\nThey lent\n"
          "  Yorick Dunn: lent a press\n"
          "\nThey machined\n"
          "  Zora Pell: machined: the king pins\n"
          "\nThey sold\n"
          "  Corriemuir Bushes: sold U4 bushes\n");
}

TEST_CASE("a contact is renamed with all that is theirs, and not onto another") {
    Friends desk;
    auto contacts = must(list_contacts(desk.book));
    Contact ansel = contacts.front();
    REQUIRE(ansel.name == "Ansel Thrupp");
    ansel.name = "Ansel Thrupp the elder";
    must(keep_contact(desk.book, ansel));
    CHECK(must(part_tagged(desk.book, "H8")).from == "Ansel Thrupp the elder");
    ansel.name = "Corriemuir Bushes";
    CHECK(holds(sentence(keep_contact(desk.book, ansel)), "another contact"));
    ansel.name = " ";
    CHECK(holds(sentence(keep_contact(desk.book, ansel)), "contact's name"));
    CHECK(holds(sentence(note_help(desk.book, "Ansel", {.what = ""})), "helped"));
    CHECK(remove_help(desk.book, HelpId{4}).failure().kind == FailureKind::not_found);
}
