// A consignment as the command line says it: a head, a line an item, what is missing; and as JSON.
#pragma once

#include "cli/verb.h"
#include "notebook/consignments.h"

namespace fettle::cli {

inline constexpr const char* kConsignmentFields =
    "{consignment, inward, firm, purpose, finish_goes, carrier, number, value, sent, due, state,\n"
    "standing, settled, settled_how, note, items, missing, papers, arrivals}; items list {part, "
    "name, pieces,\nlot, condition_out, value, back, missing, back_on, condition_back, "
    "settled_how, standing, note,\nevidence_missing}, missing lists tags, papers numbers of "
    "photos, arrivals {photo, parts}: photos taken\nsince that show tags of what is missing";

std::string state_word(ConsignmentState state);
Result<Json> consignment_json(const Notebook& notebook, const Consignment& consignment);
// "consignment 3", its head and items, what is missing and what is not photographed.
Result<Report> consignment_report(const Notebook& notebook, ConsignmentId id);
// "missing: H7, 2 pieces of K2"; blank when nothing is.
std::string missing_words(const Consignment& consignment);

} // namespace fettle::cli
