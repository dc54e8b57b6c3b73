// What each contact gave, lent, machined, did and sold: from the parts that came from them, the
// consignments to them, what was paid to them, and what is told beside. And the credits, in which
// those stand who are to be named.
#pragma once

#include "notebook/people.h"

#include <array>
#include <string>
#include <string_view>

namespace fettle {

// In the order of the credits: what was given freely before work, work before what was bought.
enum class Did { gave, lent, machined, helped, sold };
inline constexpr std::array kDid = {Did::gave, Did::lent, Did::machined, Did::helped, Did::sold};
std::string_view word(Did did);
Result<Did> did_from(std::string_view text);

// One thing a contact did. It is of one of the records, or told by itself (help).
struct Deed {
    Did did = Did::helped;
    std::string what; // "H8 spring hanger", "blasting of S1, K1"
    std::optional<Day> on;
    PartId part{};
    ConsignmentId consignment{};
    CostId cost{};
    HelpId help{};
};

struct Person {
    Contact contact;
    std::vector<Deed> deeds; // by what they did, then by day; what has no day last
};
Result<std::vector<Person>> list_people(const Notebook& notebook); // by name

// Tells of something that no record says by itself. Refused: a blank name or nothing said.
Result<HelpId> note_help(Notebook& notebook, const std::string& contact, const Deed& deed);
Done remove_help(Notebook& notebook, HelpId id);

// One a line, under what they did first of gave, lent, machined, helped, sold; there by the day of
// the first time, then by name. Each person stands once, with all they did. Those who are not to be
// named, or of whom nothing is told, are left out.
struct Credit {
    Did under = Did::helped;
    std::string name;
    std::vector<std::string> deeds; // "gave S2 Front spring, near side", "helped: blasting of K1"
};
Result<std::vector<Credit>> credits(const Notebook& notebook);
// As text: a heading for each of what they did, a paragraph for each person.
std::string credits_text(const std::vector<Credit>& credits);

} // namespace fettle
