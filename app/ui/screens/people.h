// People: who gave, lent, machined, helped and sold, a block each, with what they did; and the
// credits for the build book, in their order.
#pragma once

#include "notebook/credits.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/widgets/clipped.h"

#include <string>
#include <vector>

namespace fettle::ui {

struct PeopleRead {
    std::vector<Person> people;
    std::vector<Credit> credits;
};

// The credits as set for one width: what each says in whole, and in lines.
struct CreditsSet {
    std::uint64_t reading = 0; // which they were set from; 0: none
    float width = 0;           // pixels
    std::vector<std::string> said;
    std::vector<std::vector<std::string>> lines;
};

// What a person is in the middle of.
struct PeopleState {
    int view = 0; // 0: the people, 1: the credits
    ContactId at{}, wanted{};
    int last_frame = -1;

    bool writing = false; // name and note, of a new contact or of the chosen one
    Contact contact;
    std::string name_error;
    bool telling = false; // what the chosen one did
    int did = 0;
    std::string what, on, what_error, on_error;
    bool take_focus = false;

    Snapshot<PeopleRead> read;
    CreditsSet credits;
    Clipped credits_drawn;
};

void draw_people(Page& page, Context& context, PeopleState& state);
// Shows the contact with that id.
void lead_to(PeopleState& state, const Place& place);

} // namespace fettle::ui
