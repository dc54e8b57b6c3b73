// What is written about a part, field by field as typed, each with what is wrong beside it. The
// form for a new part and the page of one share it.
#pragma once

#include "notebook/parts.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/widgets/find_as_you_type.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::ui {

// What a person is in the middle of. Fields go by their names in notebook/parts.h.
struct PartFields {
    std::map<std::string, std::string, std::less<>> typed, errors;
    FindLine position, maker;
    VehicleId vehicle{}; // whose position is meant where several vehicles have the number
    Snapshot<std::vector<Candidate>> positions, makers;

    // Fills what was typed from the part, except the field being written in.
    void fill(const Part& part, std::string_view except = {});
};

// The text of a field as it stands in the record.
std::string text_of(const Part& part, std::string_view field);

struct FieldDone {
    std::string field; // written to its end in this frame; empty: none
    std::string active;
};
// Words to choose among: origin, condition, decision.
void choose_word(Page& page, std::string_view prefix, PartFields& fields, std::string_view field,
                 FieldDone& done);
// tag, name, position.
void what_it_is(Page& page, Context& context, std::string_view prefix, PartFields& fields,
                bool take_focus, FieldDone& done);
// maker, place, from, cost, quantity, date, note.
void what_is_known(Page& page, Context& context, std::string_view prefix, PartFields& fields,
                   FieldDone& done);

// Reads one field into the part and notes what is wrong with it; true when it reads.
bool read_field(const Notebook& book, PartFields& fields, std::string_view field, Part& part);
// Reads all fields; false when one is wrong.
bool read_fields(const Notebook& book, PartFields& fields, Part& part);
// Puts a refusal beside the field it speaks of.
void note_refusal(PartFields& fields, const std::string& sentence);

} // namespace fettle::ui
